"""What pupils in line do at the screen: number, job, and getting ready, before their turn.

The line is open while the drill is free and while the pupil before clears up. What was seen to
in line stands for ten minutes; the steps that it carries out need not be done again.
"""

from __future__ import annotations

from kiosk.core.events import (
    DeskCleared,
    Event,
    LeftLine,
    LinedUp,
    PageOpened,
    PassedOver,
    ReadyInLine,
    StepDone,
)
from kiosk.core.inputs import Choose, OpenPage, Touch
from kiosk.core.kiosk.asks import lesson_runs, pupil_numbered
from kiosk.core.kiosk.line import Waiting
from kiosk.core.kiosk.pupil_jobs import drillable, hole_choices
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, READY_FOR_S, Decided, Shop, refused, took
from kiosk.core.model import Fact, Needs, Pupil
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.units import Moment

READY = frozenset({Fact.EYES, Fact.HAIR, Fact.CLOTHES, Fact.NO_GLOVES})
IN_LINE = "line"
PAGES = ("line", "line_job", "line_ready")


def line_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about the line; None if it is about something else."""
    match touch:
        case OpenPage("line"):
            return (
                took(PageOpened("line")) if may_line_up(shop, kiosk, now) else refused("no_lesson")
            )
        case Choose("line", number):
            return _number(shop, kiosk, number, now)
        case Choose("line_job", said) if kiosk.desk.page == "line_job":
            return _job(shop, kiosk, said, now)
        case Choose("line_ready" | "line_leave" | "line_pass" as what, number):
            return _said(shop, kiosk, what, number, now)
    return None


def may_line_up(shop: Shop, kiosk: Kiosk, now: Moment) -> bool:
    """Whether the line is open: a lesson runs, and nobody needs the screen for the drill."""
    session, page = kiosk.session, kiosk.desk.page
    if (
        not lesson_runs(shop, kiosk, now)
        or kiosk.desk.signed
        or page not in ("", "finished", *PAGES)
    ):
        return False
    return session is None or (session.halt is None and session.step.part == "clear")


def in_line(shop: Shop, kiosk: Kiosk, number: str, now: Moment) -> Pupil | None:
    """The pupil with this number, if the line is open."""
    if not number.isdigit() or not may_line_up(shop, kiosk, now):
        return None
    pupil = pupil_numbered(shop, kiosk, int(number))
    at_the_drill = kiosk.session is not None and pupil and kiosk.session.pupil == pupil.ref
    return None if at_the_drill else pupil


def _number(shop: Shop, kiosk: Kiosk, number: str, now: Moment) -> Decided:
    pupil = in_line(shop, kiosk, number, now)
    if pupil is None or kiosk.lesson is None:
        return refused("no_lesson")
    if kiosk.lesson.line.find(pupil.ref):
        return took(PageOpened("line_ready", number))
    choices = hole_choices(shop, kiosk)
    if len(choices) != 1 or not drillable(kiosk, pupil.ref, choices[0][0], choices[0][1]):
        return took(PageOpened("line_job", number))
    return took(LinedUp(pupil.ref, choices[0][0].id, 0), PageOpened("line_ready", number))


def _job(shop: Shop, kiosk: Kiosk, said: str, now: Moment) -> Decided:
    number = kiosk.desk.about
    pupil = in_line(shop, kiosk, number, now)
    job, _, hole = said.partition(" ")
    found = [c for c in hole_choices(shop, kiosk) if (c[0].id, str(c[1])) == (job, hole)]
    if pupil is None or not found:
        return refused("no_lesson")
    if not drillable(kiosk, pupil.ref, found[0][0], found[0][1]):
        return refused("pilot_first")
    return took(LinedUp(pupil.ref, job, int(hole)), PageOpened("line_ready", number))


def _said(shop: Shop, kiosk: Kiosk, what: str, number: str, now: Moment) -> Decided:
    pupil = in_line(shop, kiosk, number, now)
    if pupil is None or kiosk.lesson is None or not kiosk.lesson.line.find(pupil.ref):
        return NOTHING
    event: dict[str, Event] = {
        "line_ready": ReadyInLine(pupil.ref),
        "line_leave": LeftLine(pupil.ref),
        "line_pass": PassedOver(pupil.ref),
    }
    return took(event[what], DeskCleared())


# --- at the start of the turn --------------------------------------------------------------------


def waits_before(kiosk: Kiosk, pupil: str) -> bool:
    """Whether somebody else is the next one in line."""
    next_one = kiosk.lesson.line.next if kiosk.lesson else None
    return next_one is not None and next_one.pupil != pupil


def place_of_next(kiosk: Kiosk, pupil: str) -> Waiting | None:
    """What the pupil said in line, if the pupil is the next one."""
    next_one = kiosk.lesson.line.next if kiosk.lesson else None
    return next_one if next_one is not None and next_one.pupil == pupil else None


def is_ready(place: Waiting | None, now: Moment) -> bool:
    """Whether eyes, hair, sleeves and cords were seen to in line, not too long ago."""
    passed = now.since(place.ready) if place and place.ready else None
    return passed is not None and passed.s <= READY_FOR_S


def done_in_line(place: Waiting | None, plan: Plan, path: str, now: Moment) -> tuple[Event, ...]:
    """The first steps of the path that the pupil has carried out in line."""
    done: list[Event] = []
    for step in plan.path(path):
        if not is_ready(place, now) or not is_in_line(step):
            break
        done.append(StepDone(step.id, IN_LINE))
    return tuple(done)


def is_in_line(step: PlanStep) -> bool:
    """Whether a step can be carried out away from the drill: only eyes, hair and clothes."""
    own = bool(step.makes) and frozenset(step.makes) <= READY
    return own and step.part == "ready" and step.needs is Needs.NOTHING and not step.touches
