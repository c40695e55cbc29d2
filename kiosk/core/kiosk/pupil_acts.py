"""What a pupil's touches lead to: who, job, steps, still, leaving."""

from __future__ import annotations

from kiosk.core.events import (
    CheckAsked,
    DeskCleared,
    DrillingShown,
    Entry,
    Event,
    HoleDrilled,
    Interrupted,
    NotRight,
    PageOpened,
    SessionEnded,
    SessionStarted,
    StepDone,
    SteppedBack,
    StillAsked,
    StillConfirmed,
    StillThereSaid,
)
from kiosk.core.inputs import (
    GoBack,
    Leave,
    NotDrilled,
    PickJob,
    PickNotRight,
    PickPupil,
    SeenRight,
    Still,
    StillThere,
    Touch,
)
from kiosk.core.kiosk.asks import (
    asks_check,
    hands_off,
    is_known_off,
    is_running,
    is_running_down,
    is_too_soon,
    kept_fits,
    may_drill,
    pupil_numbered,
    run_down_left,
)
from kiosk.core.kiosk.levels import level_now, owes_questions
from kiosk.core.kiosk.line_acts import done_in_line, place_of_next, waits_before
from kiosk.core.kiosk.pupil_jobs import drillable, hole_choices, pilots_drilled, with_count
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, is_lost, refused, took
from kiosk.core.model import Job, Pupil
from kiosk.core.plan.compiling import compile_plan
from kiosk.core.plan.shape import Plan
from kiosk.core.session import Session, advance_session, step_back
from kiosk.core.units import Moment


def pupil_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a pupil's touch; None if the touch is not a pupil's."""
    match touch:
        case PickPupil(number):
            return _pick_pupil(shop, kiosk, number, now)
        case PickJob(job, hole):
            return _pick_job(shop, kiosk, job, hole, now)
        case Still():
            return _still(shop, kiosk, now)
        case StillThere() if kiosk.session:
            return took(StillThereSaid())
    if kiosk.session and isinstance(touch, SeenRight | GoBack | NotDrilled | Leave | PickNotRight):
        return _in_session(shop, kiosk, kiosk.session, touch, now)
    return None


def _in_session(
    shop: Shop, kiosk: Kiosk, session: Session, touch: Touch, now: Moment
) -> Decided | None:
    match touch:
        case SeenRight(step) if session.halt is None:
            return _seen_right(shop, kiosk, session, step, now)
        case GoBack() if session.halt is None:
            return _go_back(session)
        case NotDrilled() if session.is_drilling and session.still_asked:
            return took(_not_drilled(session))
        case PickNotRight(step) if session.is_waiting_for_adult:
            return took(NotRight(step)) if step in session.plan.look_for else NOTHING
        case Leave():
            return refused("drilling") if session.is_drilling else _leave(session)
    return None


def _not_drilled(session: Session) -> Event:
    """The same start stands again, unless something happened meanwhile."""
    if session.trouble:
        return Interrupted(session.trouble)
    return DrillingShown(session.done + 1, "again")


def _leave(session: Session) -> Decided:
    if session.halt and (not session.halt.is_unnamed or session.run_seen):
        return refused("adult_first")
    return took(SessionEnded("left"))


# --- who and what ------------------------------------------------------------------------------


def _pick_pupil(shop: Shop, kiosk: Kiosk, number: int, now: Moment) -> Decided:
    pupil = pupil_numbered(shop, kiosk, number)
    if pupil is None or kiosk.session or not may_drill(shop, kiosk, now):
        return refused("no_lesson")
    if waits_before(kiosk, pupil.ref):
        return refused("in_line")
    choice = _chosen(shop, kiosk, pupil)
    if choice and not owes_questions(shop, kiosk, pupil.ref):
        return _start(shop, kiosk, pupil, choice[0], choice[1], now)
    return took(PageOpened("job", str(number)))


def _chosen(shop: Shop, kiosk: Kiosk, pupil: Pupil) -> tuple[Job, int] | None:
    """What was chosen in line, or all there is to choose."""
    choices = [(job, index) for job, index, _ in hole_choices(shop, kiosk)]
    place = place_of_next(kiosk, pupil.ref)
    said = [(j, i) for j, i in choices if place and (j.id, i) == (place.job, place.hole)]
    found = said or choices
    return found[0] if len(found) == 1 else None


def _pick_job(shop: Shop, kiosk: Kiosk, job: str, hole: int, now: Moment) -> Decided:
    if kiosk.session or kiosk.desk.page != "job" or not may_drill(shop, kiosk, now):
        return refused("no_lesson")
    pupil = pupil_numbered(shop, kiosk, int(kiosk.desk.about))
    found = [c for c in hole_choices(shop, kiosk) if c[0].id == job and c[1] == hole]
    if pupil is None or not found:
        return refused("no_lesson")
    if waits_before(kiosk, pupil.ref):
        return refused("in_line")
    return _start(shop, kiosk, pupil, found[0][0], hole, now)


def _start(shop: Shop, kiosk: Kiosk, pupil: Pupil, job: Job, hole: int, now: Moment) -> Decided:
    if is_running(shop, kiosk):
        return refused("still_running")
    level = level_now(shop, kiosk, pupil, job.holes[hole].bit, now)
    count = drillable(kiosk, pupil.ref, job, hole)
    if not count:
        return refused("pilot_first")
    plan = compile_plan(shop.content, shop.machine, with_count(job, hole, count), hole, level)
    if not isinstance(plan, Plan):
        return refused("no_plan")
    fits = kept_fits(kiosk, plan, now)
    relied = kiosk.machine.set_up.entry if fits and kiosk.machine.set_up else 0
    started = SessionStarted(
        pupil=pupil.ref,
        level=level.word,
        job=job.id,
        hole=hole,
        plan=plan.digest,
        path="joining" if fits else "fresh",
        set_up=relied,
        way=_way(shop, kiosk),
    )
    place = place_of_next(kiosk, pupil.ref)
    return Decided((started, *done_in_line(place, plan, started.path, now)), plan=plan)


def _way(shop: Shop, kiosk: Kiosk) -> str:
    """Whether this session goes by the contact, by a person's word, or must ask first."""
    if not shop.reads_isolator:
        return "said"
    return "unread" if is_lost(kiosk.machine.reading("isolator")) else "sensed"


# --- steps -------------------------------------------------------------------------------------


def _seen_right(shop: Shop, kiosk: Kiosk, session: Session, step: str, now: Moment) -> Decided:
    here = session.step
    if step != here.id or here.part in ("check", "drill") or not session.allowed:
        return NOTHING
    if here.who == "adult":
        return refused("adult_step")
    why = hands_off(shop, kiosk, session, here)
    return refused(why) if why else took(*step_done(kiosk, session, "pupil", now))


def step_done(kiosk: Kiosk, session: Session, by: str, now: Moment) -> tuple[Event, ...]:
    """The step is done, and what comes next: a further step, the check, the drill, or the end."""
    done = StepDone(session.step.id, by)
    path = session.plan.path(session.path)
    if session.at + 1 >= len(path):
        return (done, SessionEnded("finished"))
    after = advance_session(session, Entry(0, now, done))
    if after is None or after.step.part != "check":
        return (done,)
    hole = session.done + 1
    if asks_check(kiosk, after):
        return (done, CheckAsked(hole))
    return (done, DrillingShown(hole, "earlier"))


def _go_back(session: Session) -> Decided:
    before = step_back(session)
    return took(SteppedBack(before.id)) if before else refused("no_way_back")


# --- stopped and still ---------------------------------------------------------------------------


def _still(shop: Shop, kiosk: Kiosk, now: Moment) -> Decided:
    if is_running(shop, kiosk):
        return refused("run_down" if is_running_down(shop, kiosk) else "still_running")
    if kiosk.machine.ask_still:
        by = "sensed" if is_known_off(shop, kiosk) else "said"
        return took(StillConfirmed(by), DeskCleared())
    session = kiosk.session
    if session is None or not session.is_drilling:
        return NOTHING
    if run_down_left(shop, session, now).s > 0:
        return refused("run_down")
    return took(*_hole_events(shop, kiosk, session, now))


def _hole_events(shop: Shop, kiosk: Kiosk, session: Session, now: Moment) -> tuple[Event, ...]:
    """A hole counts as sensed when a contact saw it run and stop, else as said.

    Where none can have seen it, a touch that comes sooner than a hole is asked about once.
    """
    unseen = is_known_off(shop, kiosk) and not session.run_seen
    slip = unseen or (not session.run_seen and is_too_soon(session, now))
    if session.trouble and (session.trouble == "wrong" or unseen):
        return (Interrupted(session.trouble),)
    if slip and not session.still_asked:
        return (StillAsked(session.done + 1),)
    sensed = session.run_seen and is_known_off(shop, kiosk)
    hole = HoleDrilled(session.done + 1, "sensed" if sensed else "said")
    done = (hole, *pilots_drilled(shop, session))
    return (*done, Interrupted(session.trouble)) if session.trouble else done
