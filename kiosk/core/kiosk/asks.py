"""Questions about the state that several decisions ask, and that the view asks too."""

from __future__ import annotations

from kiosk.core.kiosk.hours import is_silent
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import KEPT_FOR_S, PRE_USE_FOR_S, Shop, is_lost
from kiosk.core.machining.timing import cutting_time
from kiosk.core.model import Fact, Needs, Pupil, Reading
from kiosk.core.plan.compiling import compile_recovery
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.session import Halt, Session
from kiosk.core.units import Duration, Feed, Length, Moment, SpindleSpeed

LEAST_HOLE_S = 3.0  # to the start button, up to speed and back to the stop


def is_running(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether a contact says that the drill runs. No contact, no answer: then false."""
    return any(kiosk.machine.reading(n) is Reading.ON for n in shop.run_inputs)


def is_running_down(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether the starter is off and the spindle's contact says that it still turns."""
    turning = "spindle" in shop.run_inputs and kiosk.machine.reading("spindle") is Reading.ON
    return turning and kiosk.machine.reading("starter") is Reading.OFF


def is_known_off(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether a contact says that the drill does not run."""
    said = [kiosk.machine.reading(n) for n in shop.run_inputs]
    return bool(said) and all(r is Reading.OFF for r in said)


def pre_use_holds(kiosk: Kiosk, now: Moment) -> bool:
    """Whether the pre-use check was passed since power-on and is not too old."""
    if kiosk.machine.pre_use is None:
        return False
    passed = now.since(kiosk.machine.pre_use)
    return passed is not None and passed.s <= PRE_USE_FOR_S


def may_drill(shop: Shop, kiosk: Kiosk, now: Moment) -> bool:
    """Whether a pupil may begin: a lesson is open and confirmed, the machine is in use."""
    return lesson_runs(shop, kiosk, now) and not kiosk.machine.own_use and pre_use_holds(kiosk, now)


def is_tightened(kiosk: Kiosk, what: str) -> bool:
    """Whether the lesson's adult asks for more than the school does."""
    return kiosk.lesson is not None and what in kiosk.lesson.tighter


def spells_allowed(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether an adult may stay at the drill and give the OK by one touch a hole."""
    return shop.machine.spell_allowed and not is_tightened(kiosk, "no_spell")


def lesson_runs(shop: Shop, kiosk: Kiosk, now: Moment) -> bool:
    """Whether a lesson is open and confirmed, and nothing is wrong with the machine."""
    lesson, machine = kiosk.lesson, kiosk.machine
    if lesson is None or not lesson.confirmed or lesson.stopped or lesson.is_over(now):
        return False
    if "no_more" in lesson.tighter or is_silent(shop, kiosk, now):
        return False
    return not (machine.out_of_use or machine.ask_still or machine.halt)


def pupil_numbered(shop: Shop, kiosk: Kiosk, number: int) -> Pupil | None:
    """The pupil with this number in the lesson's group."""
    group = shop.roster.group(kiosk.lesson.group) if kiosk.lesson else None
    if group is None:
        return None
    return next((p for p in group.pupils if p.number == number), None)


def kept_fits(kiosk: Kiosk, plan: Plan, now: Moment) -> bool:
    """Whether the kept set-up is the one this plan needs and is fresh enough."""
    kept = kiosk.machine.set_up
    if kept is None or kept.spec != plan.set_up:
        return False
    gap = now.since(kept.used)
    return gap is not None and gap.s <= KEPT_FOR_S


def check_is_due(session: Session, kept_is_checked: bool) -> bool:
    """Whether an adult must look before the next start.

    A change to the set-up asks for it at every level; else the plan says how often.
    """
    every = session.plan.checks_every
    if session.changed or every == "hole":
        return True
    if every == "session":
        return not session.checked
    return not (session.checked or kept_is_checked)


def asks_check(kiosk: Kiosk, session: Session) -> bool:
    """Whether an adult must look before the session's next start."""
    if is_tightened(kiosk, "every_hole"):
        return True
    kept = kiosk.machine.set_up
    return check_is_due(session, kept is not None and kept.spec == session.plan.set_up)


def wants_isolator_off(step: PlanStep) -> bool:
    """Whether the isolator must be off at this step."""
    return step.needs is Needs.ISOLATOR_OFF or Fact.ISOLATOR_OFF in step.makes


def hands_off(shop: Shop, kiosk: Kiosk, session: Session, step: PlanStep) -> str:
    """Why hands must not go in at this step now; empty if nothing speaks against it."""
    if is_running(shop, kiosk):
        return "still_running"
    reading = kiosk.machine.reading("isolator")
    if session.way != "sensed" or not wants_isolator_off(step) or reading is Reading.OFF:
        return ""
    return "isolator_unread" if is_lost(reading) else "isolator_not_off"


def run_down_left(shop: Shop, session: Session, now: Moment) -> Duration:
    """How much of the machine's run-down time is left since the starter went off.

    Nothing is left once the spindle's contact has said *turning* and then, after the stop, *off*.
    """
    if session.spindle == "still":
        return Duration(0)
    passed = now.since(session.off_since) if session.off_since else None
    if passed is None:
        return Duration(0)
    return Duration(max(0.0, shop.machine.run_down.s - passed.s))


def is_too_soon(session: Session, now: Moment) -> bool:
    """Whether less time has gone by since the OK than the hole takes at its feed."""
    values = dict(session.plan.values)
    travel, feed, speed = values.get("travel"), values.get("feed"), values.get("speed")
    least = LEAST_HOLE_S
    if isinstance(travel, Length) and isinstance(feed, Feed) and isinstance(speed, SpindleSpeed):
        least = max(least, cutting_time(travel, feed, speed).s)
    passed = now.since(session.touched)
    return passed is not None and passed.s < least


def halt_of(kiosk: Kiosk) -> Halt | None:
    """What is wrong now: the session's halt, or a trouble named with no session open."""
    return kiosk.session.halt if kiosk.session else kiosk.machine.halt


def recovery_step(shop: Shop, halt: Halt) -> PlanStep | None:
    """The recovery step now due; None when only the adult is left, or nothing is named."""
    return next(iter(recovery_left(shop, halt)), None)


def recovery_left(shop: Shop, halt: Halt) -> tuple[PlanStep, ...]:
    """The recovery steps from the one now due on."""
    return compile_recovery(shop.content, shop.machine, halt.trouble)[halt.at :]


def is_adults_turn(shop: Shop, halt: Halt) -> bool:
    """Whether nothing of the recovery is the pupil's any more."""
    due = recovery_step(shop, halt)
    return due is None or due.who == "adult"


def is_off_awaited(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether the isolator reads on, and a recovery's next hands go in only once it is off.

    An adult's steps are read as one. Where nothing reads the isolator, people look; so they do
    where an adult has taken over from the contact.
    """
    halt, session = halt_of(kiosk), kiosk.session
    if halt is None or kiosk.machine.reading("isolator") is not Reading.ON:
        return False
    if session is not None and session.way == "said":
        return False
    left = recovery_left(shop, halt)
    due = left if left and left[0].who == "adult" else left[:1]
    return any(wants_isolator_off(step) for step in due)
