"""The rule for whoever puts a trouble right: hands go in only once the isolator reads off."""

from __future__ import annotations

from kiosk.core.events import Entry, InterruptionCleared
from kiosk.core.model import Fact, Needs
from kiosk.core.plan.shape import PlanStep
from kiosk.core.rules.past import House, Past
from kiosk.core.rules.rule import Rule


def wants_off(step: PlanStep) -> bool:
    """Whether the isolator is to be off at this step."""
    return step.needs is Needs.ISOLATOR_OFF or Fact.ISOLATOR_OFF in step.makes


def reads_on(past: Past) -> bool:
    """Whether a contact says on, and no adult has taken over from it."""
    return past.isolator == "on" and (past.turn is None or past.turn.way != "said")


def _freed_with_it_on(house: House, past: Past, entry: Entry) -> str:
    event, turn = entry.event, past.turn
    assert isinstance(event, InterruptionCleared)
    done = turn.recovered if turn else past.recovered
    left = house.recovery(turn.trouble if turn else past.trouble)[done:]
    given_up = bool(past.out_of_use) and event.choice == "end"
    if given_up or not reads_on(past) or not any(wants_off(step) for step in left):
        return ""
    return "a trouble was put right with hands in, and the isolator read on"


FREED_OFF = Rule(
    "freed_off",
    (InterruptionCleared,),
    "a stuck bit is turned free and a broken one taken out by hand",
    "PUWER 1998 reg 19 and 22; ISO 14118",
    _freed_with_it_on,
)
