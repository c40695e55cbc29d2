"""Sentences by key in one language, with numbers written as that language writes them.

A `Words` value is made by `content` from `sequences/languages/` and the texts of the
sequences. `view` and `report` ask it; no sentence stands in their code.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from math import isfinite
from string import Formatter
from typing import TypeGuard

from kiosk.core.units import (
    MM_PER_INCH,
    Angle,
    CuttingSpeed,
    Duration,
    Feed,
    Force,
    Length,
    Power,
    Pressure,
    Quantity,
    SpindleSpeed,
    Torque,
)

THIN_SPACE = "\u00a0"  # a no-break space keeps number and unit on one line


@dataclass(frozen=True)
class Words:
    """The texts of one language. `decimal` is its decimal mark; `inches` shows lengths in both."""

    language: str
    texts: Mapping[str, str] = field(hash=False, compare=False)
    decimal: str = "."
    inches: bool = False

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
                exact = 2 if kind is Length and _is_in_hundredths(plain) else places
                shown = f"{self.decimals(plain, exact)}{THIN_SPACE}{unit}"
                return f"{shown} ({self.in_inches(value)})" if self._in_both(value) else shown
        if isinstance(value, float):
            return self.decimals(value, 2)
        return str(value)

    def in_inches(self, length: Length) -> str:
        """A length in inches: a fraction where one is near enough for a drill, else decimals."""
        sixty_fourths = round(length.mm / MM_PER_INCH * 64)
        if sixty_fourths and abs(sixty_fourths / 64 * MM_PER_INCH - length.mm) < _FRACTION_MM:
            return f"{_fraction(sixty_fourths)}{THIN_SPACE}in"
        return f"{self.decimals(length.mm / MM_PER_INCH, 3)}{THIN_SPACE}in"

    def _in_both(self, value: object) -> TypeGuard[Length]:
        return self.inches and isinstance(value, Length)

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
    Pressure: ("N/mm²", 0),
}


_FRACTION_MM = 0.01  # drills are made to hundredths of a millimetre


def _is_in_hundredths(mm: float) -> bool:
    """Whether a length was written to the hundredth, such as a 2.05 mm bit."""
    return isfinite(mm * 100) and abs(mm * 100 - round(mm * 100)) < 1e-6


def _fraction(sixty_fourths: int) -> str:
    whole, rest = divmod(Fraction(sixty_fourths, 64), 1)
    parts = [str(whole)] if whole else []
    return " ".join([*parts, str(rest)] if rest else parts)


class _Gaps(dict[str, str]):
    def __missing__(self, key: str) -> str:
        return ""
