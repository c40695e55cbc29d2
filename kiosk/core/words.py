"""Sentences by key in one language, with numbers written as that language writes them.

A `Words` value is made by `content` from `sequences/languages/` and the texts of the
sequences. `view` and `report` ask it; no sentence stands in their code.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from string import Formatter

from kiosk.core.units import (
    Angle,
    CuttingSpeed,
    Duration,
    Feed,
    Force,
    Length,
    Power,
    Quantity,
    SpindleSpeed,
    Torque,
)

THIN_SPACE = "\u00a0"  # a no-break space keeps number and unit on one line


@dataclass(frozen=True)
class Words:
    """The texts of one language. `decimal` is its decimal mark."""

    language: str
    texts: Mapping[str, str] = field(hash=False, compare=False)
    decimal: str = "."

    def has(self, key: str) -> bool:
        """Whether there is a text for `key`."""
        return bool(self.texts.get(key))

    def say(self, key: str, /, **values: object) -> str:
        """The text for `key` with its values filled in; the key itself if there is none.

        A place such as `{n}` with no value is left empty rather than failing on a screen.
        """
        text = self.texts.get(key)
        if text is None:
            return key
        shown = {name: self.number(value) for name, value in values.items()}
        return Formatter().vformat(text, (), _Gaps(shown))

    def maybe(self, key: str, /, **values: object) -> str:
        """The text for `key`, or an empty string if there is none."""
        return self.say(key, **values) if self.has(key) else ""

    def number(self, value: object) -> str:
        """A quantity with its unit, a number, or the text itself."""
        for kind, (unit, places) in _UNITS.items():
            if isinstance(value, kind):
                plain = next(iter(vars(value).values()))
                return f"{self.decimals(plain, places)}{THIN_SPACE}{unit}"
        if isinstance(value, float):
            return self.decimals(value, 2)
        return str(value)

    def decimals(self, number: float, places: int) -> str:
        """A number with at most `places` decimals and no trailing zeros."""
        text = f"{number:.{places}f}"
        if "." in text:
            text = text.rstrip("0").rstrip(".")
        return text.replace(".", self.decimal)


_UNITS: dict[type[Quantity], tuple[str, int]] = {
    Length: ("mm", 1),
    CuttingSpeed: ("m/min", 1),
    SpindleSpeed: ("rpm", 0),
    Feed: ("mm/rev", 3),
    Angle: ("°", 0),
    Duration: ("s", 0),
    Power: ("W", 0),
    Torque: ("N m", 1),
    Force: ("N", 0),
}


class _Gaps(dict[str, str]):
    def __missing__(self, key: str) -> str:
        return ""
