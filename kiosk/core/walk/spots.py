"""A state as the walk keeps it, and where it lies.

Times, counts and ids are *tale*: `renewing` sets them to one moment, so that only whether a time
has passed is left. `keys` names the finite part. What no decision asks for just now is left out;
where that is so is said beside it, and a property test holds equal keys to equal behaviour.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from kiosk.core.kiosk.asks import wants_isolator_off
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.model import Fact, Level, Reading
from kiosk.core.plan.shape import Plan
from kiosk.core.rules import Past
from kiosk.core.rules.past import in_turn
from kiosk.core.session import Session
from kiosk.core.units import Moment
from kiosk.core.values import replace
from kiosk.core.walk.grounds import Ground

NOW = Moment("walk", 10**13, 1_700_000_000_000_000, 1)
LESSON_S = 3600
LOST = (Reading.UNKNOWN, Reading.FAULT)


@dataclass(frozen=True, eq=False)
class Spot:
    """The kiosk as it stands, and what the judge remembers."""

    kiosk: Kiosk
    past: Past


def earlier(seconds: float) -> Moment:
    """A moment before now."""
    return replace(NOW, us=NOW.us - round(seconds * 1_000_000))


def later(moment: Moment, seconds: float, boot: str = "") -> Moment:
    """A moment after another, perhaps after a power cut."""
    us = moment.us + round(seconds * 1_000_000)
    return replace(moment, us=us, wall_us=moment.wall_us + us - moment.us, boot=boot or moment.boot)


def region_of(kiosk: Kiosk) -> str:
    """Where the state lies: in the `room`, at a `halt`, `drilling`, or at a `step`.

    Only a step depends on the plan's shape. *Something wrong?* just touched is still a step,
    since it can be taken back.
    """
    session = kiosk.session
    if session is None:
        return "room"
    if session.halt is None:
        return "drilling" if session.is_drilling else "step"
    naming = session.halt.why == "wrong" and not session.halt.trouble
    busy = kiosk.desk.page or kiosk.desk.signed or kiosk.adults.trying or not naming
    return "halt" if busy else "step"


def replace_session(spot: Spot, **changes: Any) -> Spot:
    """The spot with its session changed."""
    assert spot.kiosk.session is not None
    session = replace(spot.kiosk.session, **changes)
    return Spot(replace(spot.kiosk, session=session), spot.past)


def hands_in(spot: Spot) -> bool:
    """Whether the step that stands asks for the isolator."""
    session = spot.kiosk.session
    return session is not None and session.halt is None and wants_isolator_off(session.step)


def was_drilling(spot: Spot) -> bool:
    """Whether *Something wrong?* stands where the drilling screen stood."""
    session = spot.kiosk.session
    return session is not None and session.halt is not None and session.step.part == "drill"


# --- where a session stands when its place does not matter ---------------------------------------


def place_at(session: Session) -> str:
    """What of the place matters at a halt: getting ready, all done, or else."""
    if session.done >= session.plan.holes:
        return "done"
    return "ready" if session.step.part == "ready" else "else"


def stand(session: Session, place: str) -> tuple[str, int]:
    """One path and step for each place."""
    fresh = session.plan.fresh
    if place == "done":
        return "clear", 0
    if place == "drill":
        return "fresh", len(fresh) - 1
    return "fresh", 0 if place == "ready" else session.plan.first_set_up


def transplanted(spot: Spot, old: Ground, new: Ground, done: int = 0) -> Spot:
    """A spot whose place does not matter, as it would be on another ground."""
    if old is new and not done:
        return spot
    session = spot.kiosk.session
    if session is None:
        return _on(spot, old, new)
    place = place_at(session)
    moved = _on(spot, old, new)
    assert moved.kiosk.session is not None
    count = moved.kiosk.session.plan.holes if place == "done" else done
    return _placed(moved, (*stand(moved.kiosk.session, place), count))


def moved_to(
    spot: Spot, old: Ground, new: Ground, place: tuple[str, int, int], facts: frozenset[Fact]
) -> Spot:
    """A spot on another ground, at a path and step there, after so many holes, and this sure."""
    moved = _placed(_on(spot, old, new), place)
    return Spot(moved.kiosk, in_turn(moved.past, facts=facts))


def _on(spot: Spot, old: Ground, new: Ground) -> Spot:
    """The spot with the other ground's plans, set-ups and training level."""
    specs = dict(zip((p.set_up for p in old.plans), (p.set_up for p in new.plans), strict=True))
    kiosk, past, kept = spot.kiosk, spot.past, spot.kiosk.machine.set_up
    if kept:
        kept = replace(kept, spec=specs.get(kept.spec, kept.spec))
    kiosk = replace(kiosk, machine=replace(kiosk.machine, set_up=kept))
    past = replace(past, kept=specs.get(past.kept, past.kept) if past.kept else None)
    plans = dict(zip((p.digest for p in old.plans), new.plans, strict=True))
    return _with_plan(_at_level(Spot(kiosk, past), new.shape.trial.level), plans)


def _at_level(spot: Spot, level: Level) -> Spot:
    """The spot with its one pupil at another training level."""
    kiosk, past = spot.kiosk, spot.past
    grants = tuple(replace(grant, level=level) for grant in kiosk.pupils.grants)
    pupils = replace(kiosk.pupils, grants=grants)
    levels = tuple((ref, level.word) for ref, _ in past.levels)
    return Spot(replace(kiosk, pupils=pupils), replace(past, levels=levels))


def _with_plan(spot: Spot, plans: dict[str, Plan]) -> Spot:
    session, turn = spot.kiosk.session, spot.past.turn
    if session is None or turn is None:
        return spot
    plan = plans[session.plan.digest]
    past = replace(spot.past, turn=replace(turn, plan=plan))
    return replace_session(Spot(spot.kiosk, past), plan=plan, level=plan.level.word)


def _placed(spot: Spot, place: tuple[str, int, int]) -> Spot:
    """The spot at a path and step, after so many holes."""
    session, turn = spot.kiosk.session, spot.past.turn
    assert session is not None and turn is not None
    path, at, done = place
    past = replace(spot.past, turn=replace(turn, done=turn.done - session.done + done))
    return replace_session(Spot(spot.kiosk, past), path=path, at=at, done=done)
