"""One line of the self-test."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum


class State(StrEnum):
    """What a finding means: *good*, worth a *look*, or *bad* enough to stop and put right."""

    GOOD = "good"
    LOOK = "look"
    BAD = "bad"


@dataclass(frozen=True)
class Finding:
    """What was looked at, what was found, and what to do where it is not good."""

    name: str
    state: State
    found: str
    advice: str = ""

    def __str__(self) -> str:
        return f"{self.name}: {self.found}" + (f"; {self.advice}" if self.advice else "")


def good(name: str, found: str) -> Finding:
    """A finding with nothing to do."""
    return Finding(name, State.GOOD, found)


def look(name: str, found: str, advice: str) -> Finding:
    """A finding worth a look; the kiosk works without it."""
    return Finding(name, State.LOOK, found, advice)


def bad(name: str, found: str, advice: str) -> Finding:
    """A finding to put right before the kiosk is relied on."""
    return Finding(name, State.BAD, found, advice)
