"""Sentences by key in one language, with numbers written as that language writes them.

A `Words` value is made by `content` from `sequences/languages/` and the texts of the
sequences. `view` and `report` ask it; no sentence stands in their code. A text that counts has a
form for each of its language's plural forms, under `KEY.one`, `KEY.few` and so on; `{n}` chooses.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cached_property
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

UNCHECKED = "not yet checked by a speaker"  # what `checked_by` says until a school says who
THIN_SPACE = "\u00a0"  # a no-break space keeps number and unit on one line
_PARTED = re.compile(r"(?<=\d) (?=(?:mm|m/min|ft/min|rpm|in|s|N|deg)\b)")


def unparted(text: str) -> str:
    """A text whose numbers keep their units on one line."""
    return _PARTED.sub(THIN_SPACE, text)


def capital(text: str) -> str:
    """A text that begins with a capital, the rest as it is."""
    return text[:1].upper() + text[1:]


@dataclass(frozen=True)
class Words:
    """The texts of one language. `decimal` is its decimal mark; `inches` shows lengths in both.

    `others` are the further languages there are, by their codes.
    """

    language: str
    texts: Mapping[str, str] = field(hash=False, compare=False)
    decimal: str = "."
    inches: bool = False
    others: Mapping[str, Words] = field(default_factory=dict, hash=False, compare=False)

    def of(self, language: str) -> Words:
        """The words of another language; these where there is none of that code."""
        return self.others.get(language, self)

    def has(self, key: str) -> bool:
        """Whether there is a text for `key`."""
        return bool(self.texts.get(key))

    def say(self, key: str, /, **values: object) -> str:
        """The text for `key` with its values filled in; the key itself if there is none.

        A place such as `{n}` with no value is left empty rather than failing on a screen.
        """
        text = self._text(key, values.get("n"))
        if text is None:
            return key
        if "{" not in text and "}" not in text:
            return text
        return Formatter().vformat(text, (), _Filled(self, values))

    def _text(self, key: str, count: object) -> str | None:
        """The text of a key; of one that counts, the form for that many."""
        if isinstance(count, int):
            counted = self.texts.get(f"{key}.{plural_form(self.language, count)}")
            if counted is not None:
                return counted
        return self.texts.get(key)

    def maybe(self, key: str, /, **values: object) -> str:
        """The text for `key`, or an empty string if there is none."""
        return self.say(key, **values) if self.has(key) else ""

    def shop_words_in(self, text: str) -> tuple[tuple[str, str], ...]:
        """Every shop word in a text: its id in the glossary, and how it is written there."""
        known, pattern = self._glossary
        found = pattern.findall(text) if known else ()
        return tuple((known[form.lower()], form) for form in found)

    @cached_property
    def _glossary(self) -> tuple[dict[str, str], re.Pattern[str]]:
        """Each form of each shop word with its id, and what finds them: the longest first."""
        lists = {k: v for k, v in self.texts.items() if k.startswith("word.")}
        known: dict[str, str] = {}
        for key, forms in lists.items():
            if key.endswith(".forms"):
                id = key.split(".")[1]
                known.update({form.lower(): id for form in forms.split("\n") if form.strip()})
        longest = sorted(known, key=len, reverse=True)
        either = "|".join(re.escape(form) for form in longest)
        return known, re.compile(rf"(?<!\w)(?:{either})(?!\w)", re.IGNORECASE)

    def number(self, value: object) -> str:
        """A quantity with its unit, a number, or the text itself."""
        for kind, (name, sign, places) in _UNITS.items():
            if isinstance(value, kind):
                unit = self.texts.get(f"unit.{name}", sign)
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


# By kind of quantity: its name in `unit.NAME`, its sign where a language gives none, its decimals.
_UNITS: dict[type[Quantity], tuple[str, str, int]] = {
    Length: ("length", "mm", 1),
    CuttingSpeed: ("cutting_speed", "m/min", 1),
    SpindleSpeed: ("speed", "rpm", 0),
    Feed: ("feed", "mm/rev", 3),
    Angle: ("angle", "°", 0),
    Duration: ("time", "s", 0),
    Power: ("power", "W", 0),
    Torque: ("torque", "N m", 1),
    Force: ("force", "N", 0),
    Pressure: ("pressure", "N/mm²", 0),
}


@dataclass(frozen=True)
class _Plural:
    """A plural form: the whole numbers whose rest by `rest_of` is among `rests`.

    Without `rest_of` the number itself is; but not where its rest by 100 is among `but`.
    """

    form: str
    rests: frozenset[int]
    rest_of: int = 0
    but: frozenset[int] = frozenset()

    def holds(self, number: int) -> bool:
        rest = number % self.rest_of if self.rest_of else number
        return rest in self.rests and number % 100 not in self.but


_ONE = _Plural("one", frozenset({1}))
_FEW = _Plural("few", frozenset({2, 3, 4}), 10, frozenset({12, 13, 14}))

# Unicode CLDR 47, plural rules for whole numbers; what no form takes has the last one.
_PLURALS: dict[str, tuple[tuple[_Plural, ...], str]] = {
    "en": ((_ONE,), "other"),
    "cy": (
        (
            _Plural("zero", frozenset({0})),
            _ONE,
            _Plural("two", frozenset({2})),
            _Plural("few", frozenset({3})),
            _Plural("many", frozenset({6})),
        ),
        "other",
    ),
    "pl": ((_ONE, _FEW), "many"),
    "uk": ((_Plural("one", frozenset({1}), 10, frozenset({11})), _FEW), "many"),
}


def plural_forms(language: str) -> tuple[str, ...]:
    """The plural forms of whole numbers in a language; one and other where none are known."""
    forms, last = _PLURALS.get(language, _PLURALS["en"])
    return (*(form.form for form in forms), last)


def plural_form(language: str, number: int) -> str:
    """Which of its plural forms a language uses for a whole number, 0 or more."""
    forms, last = _PLURALS.get(language, _PLURALS["en"])
    return next((form.form for form in forms if form.holds(number)), last)


_FRACTION_MM = 0.01  # drills are made to hundredths of a millimetre


def _is_in_hundredths(mm: float) -> bool:
    """Whether a length was written to the hundredth, such as a 2.05 mm bit."""
    return isfinite(mm * 100) and abs(mm * 100 - round(mm * 100)) < 1e-6


def _fraction(sixty_fourths: int) -> str:
    whole, rest = divmod(Fraction(sixty_fourths, 64), 1)
    parts = [str(whole)] if whole else []
    return " ".join([*parts, str(rest)] if rest else parts)


class _Filled(dict[str, str]):
    """What stands in a text's places: each value is written out where a place asks for it."""

    def __init__(self, words: Words, values: Mapping[str, object]) -> None:
        super().__init__()
        self._words, self._values = words, values

    def __missing__(self, name: str) -> str:
        return self._words.number(self._values[name]) if name in self._values else ""
