"""Rules for the room: when a session or lesson may begin, and what must not disturb one."""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Entry
from kiosk.core.rules.past import House, Past
from kiosk.core.rules.rule import Rule

PRE_USE_FOR_S = 14 * 3600.0


def _pre_use_due(house: House, past: Past, entry: Entry) -> str:
    gone = entry.at.since(past.pre_use) if past.pre_use else None
    holds = gone is not None and gone.s <= PRE_USE_FOR_S
    return "" if holds else "the check of the day was not passed since power-on"


def _no_lesson(house: House, past: Past, entry: Entry) -> str:
    if not past.is_open:
        return "no lesson is open"
    if not past.confirmed:
        return "after the restart no adult has taken the lesson up again"
    if past.stopped:
        return "an adult has stopped everyone"
    if "no_more" in past.tighter:
        return "the lesson's adult lets nobody begin any more"
    if past.silent or _is_quiet(house, past, entry):
        return "these are silent hours"
    gone = entry.at.since(past.opened) if past.opened else None
    return "the lesson's time is over" if gone and gone.s >= past.length_s else ""


def _is_quiet(house: House, past: Past, entry: Entry) -> bool:
    """By the timetable, as far as the clock was ever set and nobody says that it is wrong."""
    if not house.quiet or entry.at.quality == 0:
        return False
    second = entry.at.wall_us // 1_000_000
    until = 0 if entry.at.quality == 2 else past.overruled_s
    return any(start <= second < end != until for start, end in house.quiet)


def _not_free(house: House, past: Past, entry: Entry) -> str:
    if past.out_of_use:
        return "the machine is out of use"
    if past.own_use:
        return "an adult is drilling"
    if past.unsure:
        return "after the cut nobody has seen the drill still"
    return "a trouble stands" if past.trouble else ""


def _second_session(house: House, past: Past, entry: Entry) -> str:
    """An adult who has come to a trouble may take the drill out of use over it."""
    if past.turn is None or (past.turn.halted and isinstance(entry.event, ev.TakenOutOfUse)):
        return ""
    return "another pupil's session is open"


def _unfinished(house: House, past: Past, entry: Entry) -> str:
    event, turn = entry.event, past.turn
    assert isinstance(event, ev.SessionEnded)
    short = event.how == "finished" and turn is not None and turn.done < turn.plan.holes
    return "the session counts as finished, and holes are missing" if short else ""


def _lesson_out_of_use(house: House, past: Past, entry: Entry) -> str:
    return "the machine is out of use" if past.out_of_use else ""


def _still_unsure(house: House, past: Past, entry: Entry) -> str:
    return "after the cut nobody has seen the drill still" if past.unsure else ""


ROOM = (
    Rule(
        "pre_use",
        (ev.SessionStarted, ev.LessonOpened),
        "a fault found before use hurts nobody",
        "PUWER 1998 reg 5 and 6; BS 4163",
        _pre_use_due,
    ),
    Rule(
        "in_a_lesson",
        (ev.SessionStarted,),
        "no pupil drills with no adult in charge",
        "PUWER 1998 reg 9; MHSWR 1999 reg 3",
        _no_lesson,
    ),
    Rule(
        "machine_free",
        (ev.SessionStarted,),
        "a machine that is out of use, in use or in doubt is not begun on",
        "PUWER 1998 reg 5 and 14",
        _not_free,
    ),
    Rule(
        "one_at_a_time",
        (
            ev.SessionStarted,
            ev.LessonOpened,
            ev.LessonClosed,
            ev.LessonLengthened,
            ev.LessonTightened,
            ev.LessonConfirmed,
            ev.OwnUseStarted,
            ev.TakenOutOfUse,
            ev.PreUsePassed,
            ev.PreUseFailed,
        ),
        "nothing takes a pupil's screen away",
        "BS 4163: one operator at a machine; project's safety position",
        _second_session,
    ),
    Rule(
        "finished",
        (ev.SessionEnded,),
        "the record tells what happened",
        "project's record",
        _unfinished,
    ),
    Rule(
        "lesson_in_use",
        (ev.LessonOpened,),
        "a machine that is out of use opens no lesson",
        "PUWER 1998 reg 5",
        _lesson_out_of_use,
    ),
    Rule(
        "seen_still",
        (ev.LessonConfirmed, ev.LessonOpened, ev.OwnUseStarted),
        "after a cut the drill may start again by itself",
        "EN 60204-1 7.5; PUWER 1998 reg 14",
        _still_unsure,
    ),
)
