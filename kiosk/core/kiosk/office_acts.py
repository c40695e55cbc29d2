"""What a signed-in adult does at the desk: lesson, checks, out of use, notes."""

from __future__ import annotations

from kiosk.core.events import (
    Chosen,
    DeskCleared,
    Event,
    InterruptionCleared,
    LessonClosed,
    LessonOpened,
    OwnHoleCounted,
    OwnUseEnded,
    OwnUseStarted,
    PageOpened,
    PreUseFailed,
    PreUsePassed,
    ReturnedToUse,
    SessionEnded,
    TakenOutOfUse,
)
from kiosk.core.inputs import (
    Act,
    Choose,
    LeavePage,
    OpenPage,
    PickLanguage,
    Touch,
    TurnHabit,
)
from kiosk.core.kiosk.asks import halt_of, is_off_awaited, is_running, pre_use_holds
from kiosk.core.kiosk.everyone import can_resume, resumed, stopped_again
from kiosk.core.kiosk.hours import is_silent
from kiosk.core.kiosk.language_acts import back_from_languages, habit_turned, open_languages
from kiosk.core.kiosk.returning import KINDS, is_check_owed, may_return
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, is_lost, refused, took
from kiosk.core.model import Reading
from kiosk.core.units import Moment

LENGTHS_MIN = (20, 30, 40, 50, 60, 90, 120)
NOTE_KINDS = ("near_miss", "incident", "note")


def office_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch at the desk; None if the touch is something else."""
    match touch:
        case PickLanguage() | LeavePage() if kiosk.desk.page == "language":
            return back_from_languages(kiosk)
        case LeavePage():
            return took(DeskCleared())
        case OpenPage("not_right") if kiosk.session and kiosk.session.is_waiting_for_adult:
            return took(PageOpened("not_right"))
        case OpenPage("language"):
            return open_languages(shop, kiosk)
        case TurnHabit():
            return habit_turned(kiosk)
        case Act("own_hole") if kiosk.machine.own_use:
            return took(OwnHoleCounted(kiosk.machine.own_use))
        case Act("own_use_end") if kiosk.machine.own_use:
            return took(OwnUseEnded(kiosk.machine.own_use))
        case Act(what, about) if kiosk.desk.signed:
            return _act(shop, kiosk, what, about, now)
        case Choose(what, value) if kiosk.desk.signed:
            return _choose(shop, kiosk, what, value, now)
    return None


def _act(shop: Shop, kiosk: Kiosk, what: str, about: str, now: Moment) -> Decided:
    if halt_of(kiosk):
        return _clear(shop, kiosk, what, about)
    if kiosk.session:
        return refused("session_open")
    done = _act_on_lesson(shop, kiosk, what, now)
    return done if done is not None else _act_on_machine(shop, kiosk, what, about, now)


def _clear(shop: Shop, kiosk: Kiosk, what: str, about: str) -> Decided:
    """At an interruption: it ends, or the drill goes out of use, or it is noted first."""
    adult = kiosk.desk.signed
    if is_running(shop, kiosk):
        return refused("still_running")
    match what:
        case "again" | "look" | "end":
            return _cleared(shop, kiosk, adult, what)
        case "out":
            return took(PageOpened("out", "clear"))
        case "out_why" if about in KINDS:
            return took(TakenOutOfUse(about, adult), *_ended(kiosk, adult), DeskCleared())
        case "note":
            return took(PageOpened("note_what", "clear"))
        case "help_start":
            return took(PageOpened("help_start", "clear"))
        case "note_done" | "clear":
            return took(PageOpened("clear"))
    return NOTHING


def _cleared(shop: Shop, kiosk: Kiosk, adult: str, what: str) -> Decided:
    """Set up again, go on by looking, or end the session; not before the isolator is off.

    A sensed session whose isolator can't be read goes on by looking, or not at all.
    """
    session = kiosk.session
    if is_off_awaited(shop, kiosk):
        return refused("isolator_not_off")
    if what == "end":
        return took(*_ended(kiosk, adult))
    unread = session is not None and session.way == "sensed" and is_lost(_isolator(kiosk))
    if what == "again" and unread:
        return refused("isolator_unread")
    return took(InterruptionCleared(adult, what), *stopped_again(kiosk))


def _ended(kiosk: Kiosk, adult: str) -> tuple[Event, ...]:
    ended = (SessionEnded("ended"),) if kiosk.session else ()
    return (InterruptionCleared(adult, "end"), *ended)


def _isolator(kiosk: Kiosk) -> Reading:
    return kiosk.machine.reading("isolator")


# --- the lesson ----------------------------------------------------------------------------------


def _act_on_lesson(shop: Shop, kiosk: Kiosk, what: str, now: Moment) -> Decided | None:
    adult, lesson = kiosk.desk.signed, kiosk.lesson
    match what:
        case "open" if lesson is None:
            return _open(kiosk, now) if shop.reads_all else refused("newer_record")
        case "jobs_done" if kiosk.desk.picked("jobs"):
            return took(PageOpened("length"))
        case "close" if lesson:
            return took(LessonClosed(adult))
        case "resume" if can_resume(kiosk):
            return took(*resumed(kiosk, adult))
    return None


def _open(kiosk: Kiosk, now: Moment) -> Decided:
    """The pre-use check comes first if it does not hold; out of use, no lesson opens."""
    if kiosk.machine.out_of_use:
        return refused("out_of_use")
    if not pre_use_holds(kiosk, now):
        return took(PageOpened("pre_use", "open"))
    return took(PageOpened("group"))


def _choose(shop: Shop, kiosk: Kiosk, what: str, value: str, now: Moment) -> Decided:
    if kiosk.desk.page != what:
        return NOTHING
    match what:
        case "group" if shop.roster.group(value):
            return took(Chosen("group", value), PageOpened("jobs"))
        case "jobs" if shop.content.job(value):
            return took(Chosen("jobs", _toggled(kiosk.desk.picked("jobs"), value)))
        case "length" if value.isdigit() and int(value) in LENGTHS_MIN:
            return _opened(kiosk, int(value), now)
        case "note_what" if value in NOTE_KINDS:
            return took(Chosen("what", value), PageOpened("note_hazard", kiosk.desk.about))
        case "note_hazard":
            return took(Chosen("hazard", value), PageOpened("note_text", kiosk.desk.about))
    return NOTHING


def _toggled(picked: tuple[str, ...], value: str) -> str:
    left = tuple(p for p in picked if p != value)
    return ",".join(left if value in picked else (*picked, value))


def _opened(kiosk: Kiosk, minutes: int, now: Moment) -> Decided:
    if not pre_use_holds(kiosk, now):
        return _open(kiosk, now)
    group, jobs = kiosk.desk.answer("group"), kiosk.desk.picked("jobs")
    if not group or not jobs or kiosk.lesson:
        return NOTHING
    return took(LessonOpened(kiosk.desk.signed, group, jobs, minutes * 60))


# --- the machine, notes --------------------------------------------------------------------------


def _act_on_machine(shop: Shop, kiosk: Kiosk, what: str, about: str, now: Moment) -> Decided:
    adult = kiosk.desk.signed
    match what:
        case "pre_use" | "pre_use_wrong" | "out" | "help_start":
            return took(PageOpened(what, kiosk.desk.about))
        case "pre_use_right" if kiosk.desk.page == "pre_use":
            then = "group" if kiosk.desk.about == "open" else "menu"
            return took(PreUsePassed(adult), PageOpened(then))
        case "pre_use_item" if about in [i.id for i in shop.machine.pre_use]:
            return took(PreUseFailed(adult, about), DeskCleared())
        case "out_why" if about in KINDS:
            return took(TakenOutOfUse(about, adult), DeskCleared())
        case "return":
            return _return_to_use(shop, kiosk, adult, now)
        case "own_use" if is_silent(shop, kiosk, now):
            return refused("silent")
        case "own_use" if kiosk.lesson is None or not kiosk.machine.out_of_use:
            return took(OwnUseStarted(adult), DeskCleared())
        case "note":
            return took(PageOpened("note_what", "menu"))
        case "note_done":
            return took(PageOpened("menu"))
        case "menu":
            return took(PageOpened("menu"))
    return NOTHING


def _return_to_use(shop: Shop, kiosk: Kiosk, adult: str, now: Moment) -> Decided:
    if not kiosk.machine.out_of_use:
        return NOTHING
    if not may_return(shop, kiosk, adult, now):
        return refused("technician_only")
    if is_check_owed(shop, kiosk):
        return refused("check_first")
    return took(ReturnedToUse(adult), PageOpened("pre_use"))
