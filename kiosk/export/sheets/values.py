"""What every printed sheet is asked for, and the small pieces that several of them show."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from kiosk.core.model import Content, Job, Machine
from kiosk.core.view import Picture
from kiosk.core.words import Words
from kiosk.drawings import draw, to_svg

PAPERS = ("A4", "A3")


class NoSheet(Exception):
    """A sheet can't be made; the text says why in one line."""


@dataclass(frozen=True)
class Asked:
    """What a sheet is made from.

    `machine` and `job` where the kind of sheet needs them; `seen` is what `commission` kept for
    the machine, as it lies in the school's folder, empty where nothing does.
    """

    content: Content
    words: Words
    machine: Machine | None = None
    job: Job | None = None
    paper: str = "A4"
    seen: Mapping[str, Any] = field(default_factory=dict)

    def the_machine(self) -> Machine:
        """The machine asked for. Raises NoSheet where none was."""
        if self.machine is None:
            raise NoSheet("this sheet is for one machine: name it")
        return self.machine

    def the_job(self) -> Job:
        """The job asked for. Raises NoSheet where none was."""
        if self.job is None:
            raise NoSheet("this sheet is for one job: name it")
        return self.job


@dataclass(frozen=True)
class Row:
    """A line of a table: what it is, and what stands beside it."""

    what: str
    value: str


@dataclass(frozen=True)
class Drawn:
    """A drawing as SVG with the line under it."""

    svg: str
    line: str


def drawn(picture: Picture, line: str, words: Words, size: tuple[float, float]) -> Drawn:
    """A picture at a size in millimetres, its words and numbers in the sheet's language."""
    return Drawn(to_svg(draw(picture, *size, words)), line)


def once(texts: Iterable[str]) -> tuple[str, ...]:
    """The texts in their order, each one time; empty ones left out."""
    return tuple(dict.fromkeys(text for text in texts if text))


def title_of(words: Words, step: str, part: str) -> str:
    """The title of a step apart from any plan: of drilling itself, without a hole's number."""
    return words.say("sheet.drill" if part == "drill" else f"step.{step}.title")
