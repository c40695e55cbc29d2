"""Holds a record against what was shown: nothing shown that it does not say, no step left out."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Sequence
from itertools import pairwise

from demo.hand import Sight
from kiosk.core.events import (
    DrillingShown,
    Entry,
    HoleDrilled,
    InterruptionCleared,
    MistakeCleared,
    NotRight,
    OkGiven,
    ReadyInLine,
    SessionEnded,
    SessionStarted,
    StepDone,
    SteppedBack,
)
from kiosk.core.kiosk import EMPTY, Kiosk, Shop, advance
from kiosk.core.plan.going_back import is_mended
from kiosk.core.plan.shape import Plan
from kiosk.core.session import Session
from kiosk.core.view.scene import Scene
from kiosk.core.words import Words

STEPS = ("step", "already_set")
MOVES = (SessionStarted, SteppedBack, NotRight, HoleDrilled, InterruptionCleared, MistakeCleared)
"""After these a session may stand at another step than the one that follows."""


def states(entries: Sequence[Entry]) -> list[Kiosk]:
    """The kiosk after each number of entries, from none on."""
    found = [EMPTY]
    for entry in entries:
        found.append(advance(found[-1], entry))
    return found


def not_borne_out(
    shop: Shop, words: Words, entries: Sequence[Entry], sights: Sequence[Sight]
) -> list[str]:
    """Every screen of a turn that the record, as far as it went then, tells otherwise."""
    at = states(entries)
    found = []
    for sight in sights:
        if sight.seq >= len(at):
            found.append(
                f"{sight.screen} stands on event {sight.seq}, the record has {len(entries)}"
            )
        elif not sight.raw["unsaved"]:
            wrong = _told_otherwise(shop, words, at[sight.seq], sight)
            found += [f"event {sight.seq}: {sight.title!r} was shown, {wrong}"] if wrong else []
    return found


def _told_otherwise(shop: Shop, words: Words, kiosk: Kiosk, sight: Sight) -> str:
    session = kiosk.session
    if sight.screen not in (*STEPS, "adult_check", "drilling"):
        drilling = session is not None and session.is_drilling and not kiosk.machine.ask_still
        return "the record is drilling" if drilling else ""
    in_line = sight.screen == "already_set" and _waiting(kiosk)
    if session is None:
        return "" if in_line else "the record knows of no turn"
    if sight.screen == "drilling":
        return "" if session.is_drilling else "the record is not drilling"
    if sight.screen == "adult_check":
        return "" if session.is_waiting_for_adult else "the record waits for no adult"
    titles = _titles(shop, words, kiosk, session)
    told = in_line or sight.title in titles
    return "" if told else f"the record stands at {session.step.id!r}"


def _waiting(kiosk: Kiosk) -> bool:
    """Whether somebody waits in line, and may look at what is set up already."""
    return kiosk.lesson is not None and bool(kiosk.lesson.line.waiting)


def _titles(shop: Shop, words: Words, kiosk: Kiosk, session: Session) -> set[str]:
    """The title of the step where a session stands, in each language."""
    spoken = [words, *(words.of(code) for code in words.others)]
    return {
        own.say(
            f"step.{session.step.id}.title",
            **Scene(shop, kiosk, own, session.touched).step_values(session.step),
        )
        for own in spoken
    }


def not_seen(
    shop: Shop, words: Words, entries: Sequence[Entry], sights: Sequence[Sight]
) -> list[str]:
    """Every step that was recorded as done and was not the last that stood on the screen."""
    at, found = states(entries), []
    steps = [sight for sight in sights if sight.screen in STEPS]
    seqs = [sight.seq for sight in steps]
    for before, entry in enumerate(entries):
        session = at[before].session
        if session is None or not isinstance(entry.event, StepDone):
            continue
        last = bisect_right(seqs, before)
        if entry.event.by == "line" and _looked_in_line(entries[:before], steps, session.pupil):
            continue
        if not last or steps[last - 1].title not in _titles(shop, words, at[before], session):
            found.append(f"event {entry.seq}: {entry.event.step!r} was done and not shown")
    return found


def _looked_in_line(entries: Sequence[Entry], steps: Sequence[Sight], pupil: str) -> bool:
    """Whether the pupil said ready in line, with eyes, hair and clothes on the screen then."""
    said = (n for n, e in enumerate(entries) if e.event == ReadyInLine(pupil))
    at = max(said, default=None)
    return at is not None and any(s.seq == at and s.screen == "already_set" for s in steps)


def skipped(entries: Sequence[Entry]) -> list[str]:
    """Every step of a turn that was passed over, from the plan's own order and the events alone."""
    found: list[str] = []
    for plan, turn in _turns(entries):
        marks = [e for e in turn if isinstance(e.event, (StepDone, OkGiven, DrillingShown, *MOVES))]
        for one, two in pairwise(_without_mended(plan, marks)):
            if not isinstance(one.event, MOVES) and not _follows(plan, one, two):
                found.append(f"event {two.seq}: {_mark(plan, two)!r} after {_mark(plan, one)!r}")
    return found


def _without_mended(plan: Plan, marks: list[Entry]) -> list[Entry]:
    """What a pupil wears is put right in front of the check, on no path of its own."""
    mended = [
        two
        for one, two in pairwise(marks)
        if isinstance(one.event, NotRight) and is_mended(plan, one.event.step)
    ]
    return [e for e in marks if not (e in mended and isinstance(e.event, StepDone))]


def _turns(entries: Sequence[Entry]) -> Iterator[tuple[Plan, list[Entry]]]:
    turn: list[Entry] = []
    for entry in entries:
        if isinstance(entry.event, SessionStarted):
            turn = []
        turn.append(entry)
        if isinstance(entry.event, SessionEnded) and turn[0].plan is not None:
            yield turn[0].plan, turn
            turn = []
    if turn and turn[0].plan is not None:
        yield turn[0].plan, turn


def _follows(plan: Plan, one: Entry, two: Entry) -> bool:
    """Whether the second stands right after the first on a path of the plan."""
    if isinstance(two.event, MOVES):
        return not isinstance(two.event, HoleDrilled) or isinstance(one.event, DrillingShown)
    if isinstance(one.event, OkGiven):
        return isinstance(two.event, DrillingShown)
    if isinstance(two.event, DrillingShown) and two.event.ok == "again":
        return isinstance(one.event, DrillingShown) and one.event.hole == two.event.hole
    stands = isinstance(two.event, DrillingShown) and two.event.ok != "check"
    pair = (_mark(plan, one), _mark(plan, two))
    return any(pair in pairwise(path) for path in _paths(plan, stands))


def _paths(plan: Plan, ok_stands: bool) -> Iterator[list[str]]:
    """Steps in their order; an adult's check is passed where an earlier OK stands for it."""
    for name in ("fresh", "joining", "further", "clear"):
        yield [s.id for s in plan.path(name) if not (ok_stands and s.part == "check")]


def _mark(plan: Plan, entry: Entry) -> str:
    """The step that an event stands for."""
    event = entry.event
    if isinstance(event, StepDone):
        return event.step
    part = "check" if isinstance(event, OkGiven) else "drill"
    return next(s.id for s in plan.fresh if s.part == part)
