"""States made new: times set to one moment, readings that nothing goes by to the usual ones."""

from __future__ import annotations

from kiosk.core.kiosk.adults import Adults
from kiosk.core.kiosk.asks import pre_use_holds, run_down_left
from kiosk.core.kiosk.desk import Desk
from kiosk.core.kiosk.lesson import Lesson
from kiosk.core.kiosk.machine import KeptSetUp, MachineState
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import Fact, Reading
from kiosk.core.plan.shape import Plan
from kiosk.core.rules import Past, Turn
from kiosk.core.rules.past import READY, RUN_INPUTS, made_by
from kiosk.core.rules.room import PRE_USE_FOR_S
from kiosk.core.session import Session
from kiosk.core.units import Moment
from kiosk.core.values import replace
from kiosk.core.walk.grounds import OTHER, WORK
from kiosk.core.walk.spots import (
    LESSON_S,
    LOST,
    NOW,
    Spot,
    earlier,
    place_at,
    replace_session,
    stand,
)


def renewed(shop: Shop, spot: Spot, before: Spot, now: Moment) -> Spot:
    """The same state as if all had happened just now; `before` was made new already."""
    kiosk, old = spot.kiosk, before.kiosk
    in_session = kiosk.session is not None
    session = kiosk.session
    after = replace(
        kiosk,
        machine=_machine(kiosk, old.machine, now, in_session),
        lesson=kiosk.lesson if kiosk.lesson is old.lesson else _lesson(kiosk.lesson),
        session=session if session is old.session else _session(shop, session, now),
        adults=kiosk.adults if kiosk.adults is old.adults else _adults(kiosk.adults),
        care=old.care,  # none of it, nor of incidents, goes by a step, a reading or a plan
        incidents=old.incidents,
        made=old.made,
        desk=kiosk.desk if kiosk.desk is old.desk else _desk(kiosk.desk),
    )
    past = spot.past
    timed = past.turn and (past.turn.off_at or past.turn.stood_at)
    same = past is before.past and not timed
    return Spot(after, past if same else _past(shop, past, now, in_session))


def _machine(kiosk: Kiosk, old: MachineState, now: Moment, in_session: bool) -> MachineState:
    """A check of the day may run out at any time; no session asks for it."""
    machine, kept = kiosk.machine, kiosk.machine.set_up
    holds = in_session or pre_use_holds(kiosk, now)
    if machine is old and holds == (machine.pre_use is not None):
        return machine
    return replace(
        machine,
        pre_use=NOW if holds else None,
        set_up=KeptSetUp(kept.spec, 1, NOW) if kept else None,
        void_why="",
        out_by="",
        own_holes=0,
        cut=None,
    )


def _lesson(lesson: Lesson | None) -> Lesson | None:
    if lesson is None:
        return None
    spell = replace(lesson.spell, last=NOW) if lesson.spell else None
    jobs, length = (WORK, OTHER), LESSON_S
    return replace(lesson, number=1, jobs=jobs, length_s=length, opened=NOW, spell=spell)


def _session(shop: Shop, session: Session | None, now: Moment) -> Session | None:
    if session is None:
        return None
    off = None
    if session.off_since:
        left = run_down_left(shop, session, now).s > 0
        off = NOW if left else earlier(shop.machine.run_down.s + 1)
    return replace(session, number=1, touched=NOW, off_since=off)


def _adults(adults: Adults) -> Adults:
    """A wait after a wrong PIN or badge only takes a way for a while; it is walked in one try."""
    known = tuple(replace(a, wrong=0, last=None) for a in adults.known)
    return replace(adults, known=known, slipped=None)


def with_no_wait(spot: Spot) -> Spot:
    """The same state with no wrong PIN or badge behind it: each wait is walked in one try."""
    kiosk = replace(spot.kiosk, adults=_adults(spot.kiosk.adults))
    return Spot(kiosk, replace(spot.past, wrong=()))


def _desk(desk: Desk) -> Desk:
    answers = tuple(
        (what, f"{WORK},{OTHER}" if what == "jobs" and value else value)
        for what, value in sorted(desk.answers)
        if what in ("group", "jobs")
    )
    since = NOW if desk.since else None
    return replace(desk, answers=answers, since=since, done=0, whole=0, why=desk.why and "done")


def _past(shop: Shop, past: Past, now: Moment, in_session: bool) -> Past:
    gone = now.since(past.pre_use) if past.pre_use else None
    holds = in_session or (gone is not None and gone.s <= PRE_USE_FOR_S)
    return replace(
        past,
        opened=NOW if past.opened else None,
        length_s=LESSON_S,
        pre_use=NOW if holds else None,
        used=NOW if past.used else None,
        spell_last=NOW if past.spell_last else None,
        wrong=(),
        turn=_past_turn(shop, past.turn, now),
    )


def _past_turn(shop: Shop, turn: Turn | None, now: Moment) -> Turn | None:
    if turn is not None and turn.stood_at:
        turn = replace(turn, stood_at=NOW)
    if turn is None or turn.off_at is None:
        return turn
    passed = now.since(turn.off_at)
    left = passed is not None and passed.s < shop.machine.run_down.s
    return replace(turn, off_at=NOW if left else earlier(shop.machine.run_down.s + 1))


def with_readings(spot: Spot, wanted: dict[str, Reading]) -> Spot:
    """The state with these readings, and all readings made new."""
    machine, past = spot.kiosk.machine, spot.past
    said = sum(wanted.get(name) is reading for name, reading, _ in machine.readings)
    if said == len(wanted) and all(at is NOW for _, _, at in machine.readings):
        return spot
    readings = {name: reading for name, reading, _ in machine.readings} | wanted
    listed = tuple((name, readings[name], NOW) for name in sorted(readings))
    kiosk = replace(spot.kiosk, machine=replace(machine, readings=listed))
    runs = {name: reading for name, reading in readings.items() if name in RUN_INPUTS}
    word = readings.get("isolator", Reading.UNKNOWN)
    past = replace(
        past,
        isolator="lost" if word in LOST else word.value,
        running=tuple(sorted(n for n, r in runs.items() if r is Reading.ON)),
        resting=tuple(sorted(n for n, r in runs.items() if r is Reading.OFF)),
    )
    return Spot(kiosk, past)


# --- what is forgotten ---------------------------------------------------------------------------


def collapsed(spot: Spot, region: str) -> Spot:
    """At a halt and at the drilling screen the way that led there is forgotten."""
    session = spot.kiosk.session
    if session is None:
        return spot
    if region == "step":
        return _forgetful(spot)
    place = place_at(session) if region == "halt" else "drill"
    path, at = stand(session, place)
    moved = replace_session(spot, path=path, at=at)
    return _halted(moved, place) if region == "halt" else moved


def _forgetful(spot: Spot) -> Spot:
    """At a step: the judge forgets what the steps still to come make sure of anyway.

    That only makes the judge stricter. What the drilling screen saw is over.
    """
    session, turn = spot.kiosk.session, spot.past.turn
    assert session is not None and turn is not None
    facts = frozenset() if session.path == "clear" else turn.facts - coming_in(session)
    if session.off_since or session.spindle or session.redo or session.still_asked:
        spot = replace_session(spot, off_since=None, spindle="", redo=False, still_asked=False)
    if turn.stood and not session.stood:
        turn = replace(turn, stood="", stood_at=None)
    turn = replace(turn, facts=facts, off_at=None)
    return spot if turn == spot.past.turn else Spot(spot.kiosk, replace(spot.past, turn=turn))


_COMING: dict[tuple[str, str, int], frozenset[Fact]] = {}


def coming_in(session: Session) -> frozenset[Fact]:
    """What the steps from here to the start make sure of."""
    return coming(session.plan, session.path, session.at)


def coming(plan: Plan, path: str, at: int) -> frozenset[Fact]:
    """What the steps of a path from this one on make sure of."""
    key = (plan.digest, path, at)
    if key not in _COMING:
        steps = plan.path(path)[at:]
        _COMING[key] = frozenset(f for step in steps for f in made_by(step, plan))
    return _COMING[key]


def _halted(spot: Spot, place: str) -> Spot:
    """After an interruption all is done again, so what had been done before it is forgotten."""
    session, turn = spot.kiosk.session, spot.past.turn
    assert session is not None and turn is not None
    run = session.run_seen if turn.is_slip else False
    spot = replace_session(
        spot,
        changed=False,
        checked=False,
        is_off=False,
        run_seen=run,
        trouble="",
        still_asked=False,
        off_since=None,
        spindle="",
        redo=False,
        mending=False,
        asked=False,
    )
    facts = turn.facts & READY if place == "else" else frozenset()
    turn = replace(turn, facts=facts, off_at=None)
    if not turn.is_slip:
        turn = replace(turn, ran=False, run_seen=False, lost=turn.way == "unread")
    return Spot(spot.kiosk, replace(spot.past, turn=turn))
