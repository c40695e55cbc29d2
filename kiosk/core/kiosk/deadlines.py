"""What time alone leads to. No ticks: the next deadline is asked for and handed back passed."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    DeskCleared,
    Interrupted,
    LessonClosed,
    SessionEnded,
    SilenceEnded,
    SpellEnded,
    StillThereAsked,
)
from kiosk.core.kiosk.asks import is_known_off
from kiosk.core.kiosk.fitted import fitted
from kiosk.core.kiosk.hours import next_turn_of_hours
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import (
    ASK_AFTER_S,
    DESK_FOR_S,
    FINISHED_FOR_S,
    GONE_AFTER_S,
    NOTHING,
    SPELL_FOR_S,
    STANDS_FOR_S,
    Decided,
    Shop,
    took,
)
from kiosk.core.session import Session
from kiosk.core.units import Moment

_STAYING = ("download", "wrong", "")  # pages that no time closes
_OPEN_FOR_S = {
    "finished": FINISHED_FOR_S,
    "secret": 300,  # until it is written down
    "question": 180,  # until it is read and thought about
    "reason": 180,
    "package": 300,  # until it is read
    "sheet": 300,
}


@dataclass(frozen=True, order=True)
class Deadline:
    """When (microseconds since boot) and what for. A `look` only has the screen drawn anew."""

    us: int
    kind: str


def next_deadline(shop: Shop, kiosk: Kiosk, now: Moment) -> Deadline | None:
    """The nearest deadline from now on, or None if only a touch or reading can change things."""
    shop = fitted(shop, kiosk)
    found = [*_session_deadlines(shop, kiosk), *_desk_deadlines(kiosk), *_lesson_deadlines(kiosk)]
    found += [d for d in _looks(shop, kiosk, now) if d.us > now.us]
    return min(found, default=None)


def _after(moment: Moment | None, seconds: float, kind: str) -> tuple[Deadline, ...]:
    return (Deadline(moment.us + round(seconds * 1_000_000), kind),) if moment else ()


def _session_deadlines(shop: Shop, kiosk: Kiosk) -> tuple[Deadline, ...]:
    """Nobody is asked while an adult is waited for, or does a step."""
    session = kiosk.session
    if session is None or session.halt or session.step.who == "adult":
        return ()
    since = session.touched
    if session.is_drilling:
        if session.off_since is None or not is_known_off(shop, kiosk):
            return ()
        since = max(session.off_since, session.touched, key=lambda m: m.us)
    kind, seconds = ("gone", GONE_AFTER_S) if session.asked else ("ask", ASK_AFTER_S)
    return _after(since, seconds, kind)


def _desk_deadlines(kiosk: Kiosk) -> tuple[Deadline, ...]:
    desk = kiosk.desk
    if desk.page in _STAYING and not (desk.page == "wrong" and kiosk.session is None):
        return ()
    return _after(desk.since, _OPEN_FOR_S.get(desk.page, DESK_FOR_S), "desk")


def _lesson_deadlines(kiosk: Kiosk) -> tuple[Deadline, ...]:
    lesson, quiet = kiosk.lesson, kiosk.care.silence
    silence = _after(quiet.since, quiet.for_s, "silence") if quiet else ()
    if lesson is None:
        return silence
    spell = _after(lesson.spell.last, SPELL_FOR_S, "spell") if lesson.spell else ()
    if kiosk.session or not lesson.confirmed:
        return (*spell, *silence)  # no lesson's end replaces a pupil's screen
    return (*spell, *silence, *_after(lesson.opened, lesson.length_s, "lesson"))


def _looks(shop: Shop, kiosk: Kiosk, now: Moment) -> tuple[Deadline, ...]:
    session = kiosk.session
    found: list[Deadline] = []
    if session and session.off_since:
        found += _after(session.off_since, shop.machine.run_down.s + 0.05, "look")
    if session and session.stood:
        found += _after(session.touched, STANDS_FOR_S + 0.05, "look")
    if kiosk.desk.page == "pin":
        adult = kiosk.adults.find(kiosk.desk.adult)
        found += _after(adult.last, adult.wait.s + 0.05, "look") if adult else ()
    turn = next_turn_of_hours(shop, now)
    return (*found, Deadline(turn, "look")) if turn is not None else tuple(found)


def deadline_passed(shop: Shop, kiosk: Kiosk, kind: str, now: Moment) -> Decided:
    """What follows when a deadline has passed; nothing if it no longer stands."""
    due = [*_session_deadlines(shop, kiosk), *_desk_deadlines(kiosk), *_lesson_deadlines(kiosk)]
    if not any(d.kind == kind and d.us <= now.us for d in due):
        return NOTHING
    match kind:
        case "ask":
            return took(StillThereAsked())
        case "gone" if kiosk.session:
            return _gone(kiosk.session)
        case "desk":
            return took(DeskCleared())
        case "spell":
            return took(SpellEnded("time"))
        case "lesson":
            return took(LessonClosed("time"))
        case "silence":
            return took(SilenceEnded("time"))
    return NOTHING


def _gone(session: Session) -> Decided:
    """Nobody answered: a set-up is given up; at the drilling screen an adult must look."""
    return took(Interrupted("gone") if session.is_drilling else SessionEnded("closed"))
