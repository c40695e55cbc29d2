"""The finite part of a state: two states with one key behave alike."""

from __future__ import annotations

from functools import cache
from typing import Any, TypeAlias

from kiosk.core.kiosk.root import Kiosk
from kiosk.core.model import Fact, Needs
from kiosk.core.plan.shape import PlanStep, SetUp
from kiosk.core.rules import Past, Turn
from kiosk.core.session import Halt, Session
from kiosk.core.walk.grounds import Ground
from kiosk.core.walk.spots import LOST, Spot, place_at

Key: TypeAlias = tuple[Any, ...]


def key_of(ground: Ground, spot: Spot, region: str) -> Key:
    """The finite part of a state: its region, its place, and all the rest.

    Only steps and drilling depend on the ground, and only they have a place of their own. What
    the judge is sure of stands apart, and each rest is known by a number.
    """
    turn = spot.past.turn
    facts = turn.facts if turn else None
    rest = rest_of(ground, spot, region)
    return region, place_of(ground, spot, region), facts, _RESTS.setdefault(rest, len(_RESTS))


_RESTS: dict[Key, int] = {}


def place_of(ground: Ground, spot: Spot, region: str) -> Key:
    """On which ground, at which step of which path, and after how many holes."""
    session = spot.kiosk.session
    if session is None:
        return ()
    if region == "halt":
        return session.path, place_at(session)
    return ground.number, session.path, session.at, session.done


def rest_of(ground: Ground, spot: Spot, region: str) -> Key:
    """The finite part of a state apart from its place."""
    kiosk, past, session = spot.kiosk, spot.past, spot.kiosk.session
    wanted = session.plan.set_up if session else None
    return (
        _room_key(ground, kiosk, wanted),
        _session_key(ground, session),
        _desk_key(kiosk, past),
        _readings_key(ground, spot, region),
        _past_key(ground, spot, wanted, region),
    )


def _fit(kept: SetUp | None, wanted: SetUp | None) -> str:
    if kept is None or wanted is None:
        return "some" if kept else ""
    return "fits" if kept == wanted else "other"


# --- troubles ------------------------------------------------------------------------------------


def _halt_key(ground: Ground, halt: Halt | None) -> Key | None:
    return (halt.is_unnamed, _trouble_key(ground, halt.trouble, halt.at)) if halt else None


@cache
def _trouble_key(ground: Ground, trouble: str, done: int) -> Key:
    """What is read of a trouble: whether one is named, and what is left of its recovery."""
    return bool(trouble), *left_of(ground.judge.house.recovery(trouble)[done:])


def left_of(steps: tuple[PlanStep, ...]) -> Key:
    """What is read of recovery steps still to come; of the adult's, if the isolator must be off."""
    if steps and all(step.who == "adult" for step in steps):
        return ("adult", any(step.needs is Needs.ISOLATOR_OFF for step in steps))
    return tuple((s.who, s.needs, Fact.ISOLATOR_OFF in s.makes) for s in steps)


def _room_key(ground: Ground, kiosk: Kiosk, wanted: SetUp | None) -> Key:
    machine, lesson = kiosk.machine, kiosk.lesson
    return (
        (lesson.confirmed, lesson.stopped, bool(lesson.spell)) if lesson else None,
        bool(machine.out_of_use),
        machine.pre_use is not None,
        _fit(machine.set_up.spec if machine.set_up else None, wanted),
        bool(machine.own_use),
        machine.ask_still,
        _halt_key(ground, machine.halt),
    )


def _session_key(ground: Ground, session: Session | None) -> Key | None:
    if session is None:
        return None
    return (
        session.way,
        session.allowed,
        session.changed,
        session.checked,
        session.is_off,
        session.run_seen,
        session.off_since,
        session.spindle,
        session.trouble and (session.trouble == "wrong" or "other"),
        session.still_asked,
        session.mending,
        session.asked,
        bool(session.stood),
        _halt_key(ground, session.halt),
    )


def _desk_key(kiosk: Kiosk, past: Past) -> Key:
    """Who an adult is matters only for what a technician alone may do: return it to use."""
    desk, trying, tried = kiosk.desk, kiosk.adults.trying, past.tried
    spell = kiosk.lesson.spell if kiosk.lesson else None
    purpose = desk.purpose if desk.page in ("names", "pin") else ""
    asked = desk.adult if purpose == "menu" else ""
    by_role = bool(kiosk.machine.out_of_use)
    roles = (desk.signed, asked) if by_role else (bool(desk.signed), bool(asked))
    about = (
        desk.about
        if desk.page in ("pre_use", "job", "language") or desk.page.startswith("note")
        else ""
    )
    return (
        desk.page,
        about,
        purpose,
        roles if kiosk.session is None else bool(desk.signed),
        desk.answers if desk.signed else (),
        desk.why,
        (trying.purpose, trying.stay and trying.purpose == "ok", trying.way) if trying else None,
        (tried.purpose, tried.stands, trying is not None and trying.adult == tried.adult)
        if tried
        else None,
        bool(desk.adult) and trying is not None and desk.adult == trying.adult,
        past.signed == desk.signed or bool(past.signed),
        past.spell == (spell.adult if spell else "") or bool(past.spell),
    )


def _readings_key(ground: Ground, spot: Spot, region: str) -> Key:
    """At a step, off and lost of a run input are told apart only once the drill starts."""
    machine = spot.kiosk.machine
    found = []
    for name in ground.shape.features.inputs:
        reading = machine.reading(name)
        lost = reading in LOST
        word = "lost" if lost else reading.value
        if region == "step" and name != "isolator" and word == "lost":
            word = "off"
        found.append(word)
    return tuple(found)


def _past_key(ground: Ground, spot: Spot, wanted: SetUp | None, region: str) -> Key:
    past, turn, session = spot.past, spot.past.turn, spot.kiosk.session
    return (
        past.isolator,
        past.running,
        past.resting if region == "drilling" else (),
        past.is_open,
        past.confirmed,
        past.stopped,
        past.out_of_use,
        past.own_use,
        past.pre_use is not None,
        past.unsure,
        _trouble_key(ground, past.trouble, past.recovered),
        _fit(past.kept, wanted),
        _turn_key(ground, turn, session, region) if turn else None,
    )


def _turn_key(ground: Ground, turn: Turn, session: Session | None, region: str) -> Key:
    """The holes that the judge counts are told from those that the session does."""
    all_done, apart = turn.done >= turn.plan.holes, turn.done - (session.done if session else 0)
    return (
        turn.way,
        Fact.ISOLATOR_OFF in turn.facts,
        all_done if region == "halt" else apart,
        turn.ok,
        turn.drilling,
        turn.run_seen,
        turn.off_at,
        turn.troubled,
        turn.is_slip or (bool(turn.halted) and "halted"),
        _trouble_key(ground, turn.trouble, turn.recovered),
        turn.ran,
        turn.lost,
        bool(turn.stood),
    )
