"""What a rule of the house is: a question asked of every event of some kinds."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from typing import TypeAlias

from kiosk.core.events import Entry, Event
from kiosk.core.rules.past import House, Past

Question: TypeAlias = Callable[[House, Past, Entry], str]


@dataclass(frozen=True)
class Rule:
    """One rule: what it looks at, why it is there and where it comes from.

    `broken` is asked before the event is taken in; it answers what is wrong, or nothing.
    """

    id: str
    at: tuple[type[Event], ...]
    reason: str
    source: str
    broken: Question


@dataclass(frozen=True)
class Broken:
    """A rule that an event broke, and how."""

    rule: Rule
    found: str

    def __str__(self) -> str:
        return f"rule {self.rule.id}: {self.found}; {self.rule.reason} ({self.rule.source})"
