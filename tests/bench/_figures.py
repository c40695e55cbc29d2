"""A figure of a bench: what was measured, its floor from the same run, whether it is as wanted."""

from __future__ import annotations

from dataclasses import asdict, dataclass
from typing import Any

WAYS = {
    "times": "{0:g} x the floor",
    "plus": "the floor + {0:g}",
    "least": "at least {0:g} x the floor",
    "most": "at most {0:g}",
}


@dataclass(frozen=True)
class Figure:
    """One figure against its target.

    `way` says how they are compared: at most `target` *times* the floor, the floor *plus* it, at
    *least* so many times the floor, or at *most* the target by itself, with no floor.
    """

    what: str
    found: float
    unit: str
    way: str
    target: float
    floor: float | None = None
    note: str = ""

    @property
    def ratio(self) -> float | None:
        """How many times the floor it is; None without one."""
        return self.found / self.floor if self.floor else None

    @property
    def met(self) -> bool:
        """Whether it is as wanted."""
        if self.way == "most":
            return self.found <= self.target
        if self.floor is None or self.ratio is None:
            return False
        if self.way == "plus":
            return self.found <= self.floor + self.target
        return self.ratio >= self.target if self.way == "least" else self.ratio <= self.target

    def __str__(self) -> str:
        floor = f"floor {self.floor:.6g} {self.unit}" if self.floor is not None else "no floor"
        ratio = f"{self.ratio:.2f} x" if self.ratio is not None else ""
        said = f"{self.what:<30} {self.found:>10.6g} {self.unit:<9} {floor:<22} {ratio:>8}"
        target = f"{WAYS[self.way].format(self.target)} {self.unit if self.way == 'most' else ''}"
        more = f"  ({self.note})" if self.note else ""
        return f"{said}  {'met' if self.met else 'NOT MET':<8} {target.strip()}{more}"

    def plain(self) -> dict[str, Any]:
        """As JSON can hold it."""
        return {**asdict(self), "ratio": self.ratio, "met": self.met}


TOLD: list[Figure] = []
"""Every figure told in this process, for the table of all."""


def tell(figure: Figure) -> bool:
    """Print a figure as one row and keep it; whether it is met."""
    print(figure, flush=True)
    TOLD.append(figure)
    return figure.met
