"""The rules of the house as a judge over the events: it shares no code with the reducer.

`judge` takes one event after another and says which rules it breaks. The walk puts every
reachable event before it; `RULES` lists each rule with its reason and its source.
"""

from __future__ import annotations

from kiosk.core.events import Entry, Event
from kiosk.core.rules.folding import advance_past
from kiosk.core.rules.hands import HANDS, owes
from kiosk.core.rules.line import LINE
from kiosk.core.rules.past import Here, House, Past, Turn, at_rest
from kiosk.core.rules.people import PEOPLE
from kiosk.core.rules.piloting import PILOTING
from kiosk.core.rules.rights import RIGHTS
from kiosk.core.rules.room import ROOM
from kiosk.core.rules.rule import Broken, Rule
from kiosk.core.rules.starting import STARTING

RULES: tuple[Rule, ...] = (*STARTING, *HANDS, *PEOPLE, *RIGHTS, *LINE, *PILOTING, *ROOM)
_AT_ONCE = next(rule for rule in RULES if rule.id == "at_once")


class Judge:
    """Some of the rules, sorted by the kind of event that they ask about."""

    def __init__(self, house: House, rules: tuple[Rule, ...] = RULES) -> None:
        self.house = house
        self.rules = rules
        self._asked: dict[type[Event], tuple[Rule, ...]] = {}

    def asked_of(self, kind: type[Event]) -> tuple[Rule, ...]:
        """The rules that ask about events of this kind."""
        if kind not in self._asked:
            self._asked[kind] = tuple(r for r in self.rules if issubclass(kind, r.at))
        return self._asked[kind]

    def judge(self, past: Past, entry: Entry, here: Here) -> tuple[Past, tuple[Broken, ...]]:
        """The memory after the entry, and the rules that it broke.

        `here` is the step that the session stood at, as the screen showed it.
        """
        broken = [
            Broken(rule, found)
            for rule in self.asked_of(type(entry.event))
            if (found := rule.broken(self.house, past, entry))
        ]
        return advance_past(self.house, past, entry, here), tuple(broken)

    def rested(self, past: Past) -> tuple[Past, tuple[Broken, ...]]:
        """The memory between two inputs: nothing is *just now* any more, and nothing is owed."""
        found = owes(past, None)
        broken = (Broken(_AT_ONCE, found),) if found and _AT_ONCE in self.rules else ()
        return at_rest(past), broken


__all__ = ["RULES", "Broken", "Here", "House", "Judge", "Past", "Rule", "Turn"]
