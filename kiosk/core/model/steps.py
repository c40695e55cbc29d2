"""Sequences as written: one step is one thing to do and see."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.model.words import Fact, Level, Needs, Part


@dataclass(frozen=True)
class When:
    """A condition as data: each named thing must be one of the words given. Empty: always."""

    tests: tuple[tuple[str, tuple[str, ...]], ...] = ()


@dataclass(frozen=True)
class Step:
    """One thing to do and see, as written in a sequence. Texts go to the words of the language.

    `looked_for`: it has a line that the adult reads before giving the OK. A school's own step
    stands in another file than the sequence it was laid into.
    """

    id: str
    part: str  # `ready`, `set-up`, `work`, `look`, `check`, `drill`, `clear`, `recovery`
    at: tuple[str, ...]  # `fresh`, `joining`, `further`
    picture: str
    who: str = "pupil"
    needs: Needs = Needs.NOTHING
    touches: tuple[Part, ...] = ()
    makes: tuple[Fact, ...] = ()
    controls: tuple[str, ...] = ()
    levels: tuple[Level, ...] = ()  # empty: every level
    when: When = When()
    unless: When = When()
    looked_for: bool = False
    line: int = 0
    file: str = ""  # empty: the sequence's own


@dataclass(frozen=True)
class Sequence:
    """The written steps: `drilling`, or a recovery named after its trouble."""

    id: str
    kind: str  # `drilling`, `recovery`
    steps: tuple[Step, ...]
    file: str = ""
