"""What a written text may mean: lengths, speeds, dates, yes and no.

Each reader takes a text and gives the value, or raises `Fault` with what is allowed. Units
are always written.
"""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from datetime import date
from enum import Enum
from typing import Any, NewType, TypeVar

from kiosk.content.pictures import PICTURES
from kiosk.content.written import Node, Text
from kiosk.core.model import Work
from kiosk.core.problems import nearest
from kiosk.core.units import (
    Angle,
    CuttingSpeed,
    Duration,
    Feed,
    Force,
    Length,
    Power,
    Pressure,
    SpindleSpeed,
)

Word = TypeVar("Word", bound=Enum)
Day = NewType("Day", str)  # YYYY-MM-DD
Whole = NewType("Whole", int)
Number = NewType("Number", float)  # a plain number, such as a share
Depth = NewType("Depth", Length)  # None for `through`
Phrase = NewType("Phrase", str)  # a text of a language, which may be left empty
Id = NewType("Id", str)  # a short word that the record keeps
Family = NewType("Family", str)
Marking = NewType("Marking", str)
Swarf = NewType("Swarf", str)
Fluid = NewType("Fluid", str)
Extraction = NewType("Extraction", str)
Way = NewType("Way", str)
StepPart = NewType("StepPart", str)
Path = NewType("Path", str)
Who = NewType("Who", str)
CarriedOutBy = NewType("CarriedOutBy", str)
Risk = NewType("Risk", str)
Reader = NewType("Reader", str)
Measured = NewType("Measured", str)
Cuts = NewType("Cuts", str)
Every = NewType("Every", str)
Picture = NewType("Picture", str)
Interval = NewType("Interval", str)  # such as `14 months`
WeekDay = NewType("WeekDay", str)
Baud = NewType("Baud", str)
Parity = NewType("Parity", str)
ModbusFunction = NewType("ModbusFunction", str)

SHAPES = ("bar", "sheet", "block", "round bar", "tube", "small part")

CHOICES: dict[Any, tuple[str, ...]] = {
    Family: ("metal", "wood", "plastic"),
    Marking: ("centre punch", "pencil", "felt pen"),
    Swarf: ("curls", "chips", "dust"),
    Fluid: ("cutting fluid", "none"),
    Extraction: ("fixed extraction", "vacuum", "none"),
    Way: ("vice", "clamps"),
    StepPart: ("ready", "set-up", "look", "work", "check", "drill", "clear", "recovery"),
    Path: ("fresh", "joining", "further"),
    Who: ("pupil", "adult"),
    CarriedOutBy: ("step", "house rule", "installation check"),
    Risk: ("low", "medium", "high"),
    Reader: ("modbus", "lines", "none"),
    Baud: ("1200", "2400", "4800", "9600", "19200", "38400", "57600", "115200"),
    Parity: ("none", "even", "odd"),
    ModbusFunction: ("1", "2", "3"),
    Measured: ("effective", "outside"),
    Cuts: ("whole hole", "ring", "cone"),
    Every: ("hole", "session", "set-up"),
    WeekDay: ("mon", "tue", "wed", "thu", "fri", "sat", "sun"),
    Picture: PICTURES,
}


class Fault(Exception):
    """One mistake in a value: its line, what was found, what is allowed, what to do.

    `key` is the key it stands under; None until the mapping around it is known.
    """

    key: str | None = None

    def __init__(self, line: int, found: str, allowed: str = "", advice: str = "") -> None:
        super().__init__(found)
        self.line = line
        self.found = found
        self.allowed = allowed
        self.advice = advice


_UNITS: dict[type, tuple[str, dict[str, float]]] = {
    Length: ("a length such as 6 mm", {"mm": 1.0, "cm": 10.0, "in": 25.4}),
    SpindleSpeed: ("a speed such as 1400 rpm", {"rpm": 1.0}),
    CuttingSpeed: ("a cutting speed such as 25 m/min", {"m/min": 1.0}),
    Feed: ("a feed such as 0.1 mm/rev", {"mm/rev": 1.0}),
    Angle: ("an angle such as 118 deg", {"deg": 1.0, "°": 1.0}),
    Duration: ("a time such as 120 s", {"ms": 0.001, "s": 1.0, "min": 60.0, "h": 3600.0}),
    Power: ("a power such as 370 W", {"W": 1.0, "kW": 1000.0}),
    Force: ("a force such as 250 N", {"N": 1.0}),
    Pressure: ("a pressure such as 1350 N/mm2", {"N/mm2": 1.0, "N/mm²": 1.0}),
}
_NUMBER = re.compile(r"(\d{1,6}(?:\.\d{1,6})?) *(\D.*)?", re.ASCII)
_INCHES = re.compile(r"(?:(\d{1,3})[ -])?(\d{1,3})/(\d{1,3}) *in", re.ASCII)


def phrase(node: Node) -> Text:
    """The text itself, which may be empty."""
    if not isinstance(node, Text):
        raise Fault(node.line, "more than one line of text", "one text")
    return node


def text(node: Node) -> Text:
    """The text itself, which may not be empty."""
    written = phrase(node)
    if not written.strip():
        raise Fault(written.line, "nothing written after the colon", "a text")
    return written


def quantity(node: Node, kind: type[Any]) -> Any:
    """A number with its unit, as `kind` of quantity."""
    written, (allowed, units) = text(node), _UNITS[kind]
    if kind is Length and (inches := inch_fraction(written)):
        return inches
    match = _NUMBER.fullmatch(written)
    if match is None:
        raise Fault(written.line, repr(str(written)), allowed)
    number, unit = match.group(1), (match.group(2) or "").strip()
    if unit not in units:
        found = f"{str(written)!r} has no unit" if not unit else f"unit {unit!r}"
        raise Fault(written.line, found, allowed, nearest(unit, units))
    return kind(float(number) * units[unit])


def inch_fraction(written: str) -> Length | None:
    """A length typed as a fraction of an inch, such as `5/16 in` or `1 1/4 in`, or None."""
    match = _INCHES.fullmatch(written)
    if match is None or int(match[3]) == 0:
        return None
    return Length.from_inches(int(match[1] or 0) + int(match[2]) / int(match[3]))


def number(node: Node) -> float:
    """A plain number with no unit, such as a share."""
    written = text(node)
    if not re.fullmatch(r"\d{1,6}(\.\d{1,6})?", written, re.ASCII):
        raise Fault(written.line, repr(str(written)), "a number such as 0.25")
    return float(written)


def choice(node: Node, allowed: Iterable[str]) -> Text:
    """One of the words allowed."""
    written, words = text(node), tuple(allowed)
    if written not in words:
        raise Fault(written.line, repr(str(written)), ", ".join(words), nearest(written, words))
    return written


def word_of(node: Node, kind: type[Word]) -> Word:
    """A member of a set of trade words, by its value."""
    return kind(str(choice(node, (w.value for w in kind))))


def yes_or_no(node: Node) -> bool:
    """`yes` or `no`."""
    return choice(node, ("yes", "no")) == "yes"


def whole(node: Node) -> int:
    """A whole number of at most four digits."""
    written = text(node)
    if not re.fullmatch(r"\d{1,4}", written, re.ASCII):
        raise Fault(written.line, repr(str(written)), "a whole number such as 2")
    return int(written)


def day(node: Node) -> str:
    """A date as year, month and day."""
    written = text(node)
    try:
        return Text.at(date.fromisoformat(written).isoformat(), written.line, written.file)
    except ValueError:
        raise Fault(written.line, repr(str(written)), "a date such as 2027-09-01") from None


_INTERVAL = re.compile(r"([1-9]\d{0,2}) (day|week|month|year)s?", re.ASCII)
_DAYS = {"day": 1, "week": 7, "month": 30, "year": 365}


def interval(node: Node) -> Text:
    """How long until something is looked at again."""
    written = text(node)
    if not _INTERVAL.fullmatch(written):
        raise Fault(written.line, repr(str(written)), "a time such as 14 months")
    return written


def days_of(written: str) -> int:
    """About how many days an interval is, to compare two of them."""
    number, unit = written.rstrip("s").split(" ")
    return int(number) * _DAYS[unit]


def depth(node: Node) -> Length | None:
    """`through`, or how deep."""
    written = text(node)
    if written == "through":
        return None
    if not written[:1].isdigit():
        advice = nearest(written, ("through",))
        raise Fault(written.line, repr(str(written)), "through, or a depth such as 12 mm", advice)
    return positive(quantity(written, Length), written)


def positive(length: Length, written: Text) -> Length:
    """The length if it is more than nothing."""
    if length.mm <= 0:
        raise Fault(written.line, repr(str(written)), "more than 0 mm")
    return length


_WORK = re.compile(r"([a-z ]+?) +([\d./ ]+(?: *x *[\d./ ]+)*)(mm|cm|in)")
_SIZES = {"round bar": (2, "diameter x length"), "tube": (3, "diameter x wall x length")}
_FLAT = (3, "width x thickness x length")


def work(node: Node) -> Work:
    """A piece of work: its shape, then width x thickness x length.

    A round bar is written as diameter x length, a tube as diameter x wall x length.
    """
    written = text(node)
    match = _WORK.fullmatch(written)
    if match is None:
        allowed = f"a shape and {_FLAT[1]}, such as bar 40 x 6 x 120 mm"
        raise Fault(written.line, repr(str(written)), allowed)
    shape = str(choice(Text.at(match[1], written.line), SHAPES))
    sizes = [_size(f"{n.strip()} {match[3]}", written.line) for n in match[2].split("x")]
    count, order = _SIZES.get(shape, _FLAT)
    if len(sizes) != count:
        raise Fault(written.line, repr(str(written)), f"for a {shape}: {order}")
    return _work_of(shape, sizes)


def _size(written: str, line: int) -> Length:
    size = Text.at(written, line)
    return positive(quantity(size, Length), size)


def _work_of(shape: str, sizes: list[Length]) -> Work:
    if shape not in _SIZES:
        return Work(shape, *sizes)
    wall = sizes[1] if shape == "tube" else None
    return Work(shape, sizes[0], sizes[0], sizes[-1], wall)


def id_of(node: Node) -> Text:
    """A short word in small letters, such as `pen_block`."""
    written = text(node)
    if not re.fullmatch(r"[a-z][a-z0-9_-]{0,39}", written):
        allowed = "a short word of small letters, digits and _"
        raise Fault(written.line, repr(str(written)), allowed)
    return written


def reader_of(kind: Any) -> Callable[[Node, Any], Any] | None:
    """The reader of a kind of value, or None if it is none of these."""
    if kind in _UNITS:
        return quantity
    if kind in CHOICES:
        return lambda node, _: choice(node, CHOICES[kind])
    if kind in _PLAIN:
        return lambda node, _: _PLAIN[kind](node)
    return word_of if isinstance(kind, type) and issubclass(kind, Enum) else None


_PLAIN: dict[Any, Callable[[Node], Any]] = {
    bool: yes_or_no,
    Whole: whole,
    Number: number,
    Day: day,
    Interval: interval,
    Depth: depth,
    Id: id_of,
    Phrase: phrase,
    Work: work,
    str: text,
}
