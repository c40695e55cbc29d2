"""Rules for the line at the drill: what was seen to there, and whose turn it is."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Entry
from kiosk.core.model import Needs
from kiosk.core.rules.past import READY, Here, House, Past, step_called
from kiosk.core.rules.rule import Rule
from kiosk.core.values import replace

READY_FOR_S = 600.0


def line_fold(house: House, past: Past, entry: Entry, here: Here) -> Past:
    """Who waits, the next one first, and when each saw to eyes, hair and clothes."""
    event = entry.event
    assert isinstance(event, ev.LinedUp | ev.ReadyInLine | ev.PassedOver | ev.LeftLine)
    others = tuple(r for r in past.ready if r[0] != event.pupil)
    if isinstance(event, ev.ReadyInLine):
        return replace(past, ready=(*others, (event.pupil, entry.at)))
    return replace(past, ready=others) if isinstance(event, ev.LeftLine) else past


def _not_in_line(house: House, past: Past, entry: Entry) -> str:
    """A step that counts as done in line is one that can be, by a pupil who said so there."""
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.StepDone)
    step = step_called(turn.plan, event.step) if turn else None
    if event.by != "line" or turn is None or step is None:
        return ""
    own = bool(step.makes) and READY.issuperset(step.makes)
    if not own or step.touches or step.needs is not Needs.NOTHING or turn.done:
        return f"step {step.id} was not done at the drill"
    said = dict(past.ready).get(turn.pupil)
    gone = entry.at.since(said) if said else None
    fresh = gone is not None and gone.s <= READY_FOR_S
    return "" if fresh else f"step {step.id} was not done in line within ten minutes"


LINE = (
    Rule(
        "ready_in_line",
        (ev.StepDone,),
        "swarf flies, and a spindle that catches does not let go",
        "PPE at Work Regulations 1992; project's lesson",
        _not_in_line,
    ),
)
