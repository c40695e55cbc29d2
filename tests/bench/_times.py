"""How long people take, stated once: for reading, touching, walking and the work at the drill.

Published figures name their source. The others are assumptions from common practice; they are
the same with and without a kiosk, so they decide whether a lesson fits, not what a kiosk adds.
"""

from __future__ import annotations

from kiosk.core.machining.timing import LIFT_TIME, cutting_time
from kiosk.core.model import Fact
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.units import Feed, Length, SpindleSpeed
from kiosk.core.view import View

# Middle reader of the 7th school year, silently and with understanding: Spichtig and others,
# Reading Research Quarterly 51 (2016), 239-259: the middle lies at 158 words a minute.
READING_WPM = 158
# Card, Moran, Newell: The keystroke-level model, Communications of the ACM 23 (1980), 396-410.
KNOWN_SCREEN_S = 1.35  # to recognise a screen that one knows (their M)
TOUCH_S = 1.1  # to bring the hand to a target (their P)
DIGIT_S = 0.5  # one of six random digits (their K for random letters)

WALKING_M_S = 1.3  # common practice: an adult walking through a room
ROOM_M = 6.0  # assumption: from anywhere in the workshop to the drill
STEP_UP_S = 3.0  # assumption: from the line, which stands beside the drill
LOOK_S = 1.0  # assumption: an adult's look at one line of the check
START_S = 5.0  # assumption: isolator, start, full speed
STOP_S = 2.0  # assumption: lift right up, red stop

# Assumptions, seconds for what a step makes sure of; what is left out takes none of its own.
MAKING_S = {
    Fact.EYES: 4.0,
    Fact.HAIR: 4.0,
    Fact.CLOTHES: 4.0,
    Fact.ISOLATOR_OFF: 3.0,
    Fact.SPEED_SET: 60.0,
    Fact.TABLE_SET: 30.0,
    Fact.BIT_FITTED: 15.0,
    Fact.BIT_TRUE: 10.0,
    Fact.KEY_OUT: 3.0,
    Fact.DEPTH_SET: 30.0,
    Fact.SET_UP_SEEN: 4.0,
    Fact.HELD: 10.0,
    Fact.ON_MARK: 6.0,
    Fact.PUSHED: 3.0,
    Fact.TRIAL_STROKE: 4.0,
    Fact.GUARD_DOWN: 2.0,
}
# ... and for what a step carries out while clearing up.
CLEARING_S = {"hot_work": 6.0, "brush": 10.0, "wipe_up": 5.0, "kept_seen": 2.0}


def act_s(step: PlanStep) -> float:
    """Seconds that the step's own work takes."""
    if step.part == "clear":
        return sum(CLEARING_S.get(control, 0.0) for control in step.controls)
    return sum(MAKING_S.get(fact, 0.0) for fact in step.makes)


def cut_s(plan: Plan) -> float:
    """Seconds in the cut, with the lifts, from the plan's own numbers."""
    values = dict(plan.values)
    way = values.get("travel") or values.get("stop") or values.get("depth")
    feed, speed, lifts = values["feed"], values["speed"], values.get("lifts", 0)
    assert isinstance(way, Length) and isinstance(feed, Feed) and isinstance(speed, SpindleSpeed)
    assert isinstance(lifts, int)
    return cutting_time(way, feed, speed).s + lifts * LIFT_TIME.s


def words_of(view: View) -> int:
    """Words that a screen asks to be read: title, lines, note, and the button to touch."""
    wide = [b.label for b in view.buttons if b.look in ("main", "adult", "still")]
    texts = (view.title, *view.lines, view.note, *wide)
    return sum(len(text.split()) for text in texts)


def reading_s(view: View, step: PlanStep | None, every_word: bool) -> float:
    """Seconds for reading a screen, where the step stands that it shows.

    Who has been through the steps before recognises each screen, and reads only the lines of a
    set-up that another pupil has left: its numbers are others each time.
    """
    if every_word:
        return words_of(view) * 60 / READING_WPM
    lines = view.lines if step and Fact.SET_UP_SEEN in step.makes else ()
    return KNOWN_SCREEN_S + sum(len(line.split()) for line in lines) * 60 / READING_WPM
