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

from kiosk.content.written import Node, Text
from kiosk.core.model import Work
from kiosk.core.problems import nearest
from kiosk.core.units import Angle, CuttingSpeed, Duration, Feed, Length, Power, SpindleSpeed

Word = TypeVar("Word", bound=Enum)
Day = NewType("Day", str)  # YYYY-MM-DD
Whole = NewType("Whole", int)
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
}
_NUMBER = re.compile(r"(\d{1,6}(?:\.\d{1,6})?) *(\D.*)?", re.ASCII)


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
    match = _NUMBER.fullmatch(written)
    if match is None:
        raise Fault(written.line, repr(str(written)), allowed)
    number, unit = match.group(1), (match.group(2) or "").strip()
    if unit not in units:
        found = f"{str(written)!r} has no unit" if not unit else f"unit {unit!r}"
        raise Fault(written.line, found, allowed, nearest(unit, units))
    return kind(float(number) * units[unit])


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
        return date.fromisoformat(written).isoformat()
    except ValueError:
        raise Fault(written.line, repr(str(written)), "a date such as 2027-09-01") from None


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


_WORK = re.compile(r"([a-z ]+?) +([\d.]+) *x *([\d.]+) *x *([\d.]+) *mm")


def work(node: Node) -> Work:
    """A piece of work: its shape, then width x thickness x length."""
    written = text(node)
    match = _WORK.fullmatch(written)
    allowed = "a shape and width x thickness x length, such as bar 40 x 6 x 120 mm"
    if match is None:
        raise Fault(written.line, repr(str(written)), allowed)
    shape = choice(Text.at(match.group(1), written.line), SHAPES)
    sizes = (Text.at(f"{n} mm", written.line) for n in match.groups()[1:])
    return Work(str(shape), *(positive(quantity(s, Length), s) for s in sizes))


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
    Day: day,
    Depth: depth,
    Id: id_of,
    Phrase: phrase,
    Work: work,
    str: text,
}
