"""One try at one state: through the real `decide` and `advance`, with the judge looking on."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from kiosk.core.events import Entry
from kiosk.core.inputs import BadgeChecked, Input, PinChecked
from kiosk.core.kiosk import advance, decide
from kiosk.core.kiosk.adults import Trying
from kiosk.core.kiosk.asks import halt_of
from kiosk.core.model import Reading
from kiosk.core.rules import Broken
from kiosk.core.rules.past import RUN_INPUTS
from kiosk.core.units import Moment
from kiosk.core.walk.grounds import TEACHER, Ground
from kiosk.core.walk.renewing import collapsed, renewed, with_readings
from kiosk.core.walk.spots import NOW, Spot, hands_in, later, region_of
from kiosk.core.walk.tries import Step, Try


@dataclass
class Done:
    """What came of a try. `key`: the finite part of the state, once it is settled."""

    spot: Spot
    now: Moment
    events: int = 0
    refusal: str = ""
    broken: tuple[Broken, ...] = ()
    key: tuple[Any, ...] = ()


def give(ground: Ground, done: Done, what: Input) -> None:
    """Hand one input to the real `decide` and `advance`, with the judge looking on."""
    kiosk, past, now = done.spot.kiosk, done.spot.past, done.now
    decided = decide(ground.shop, kiosk, what, now)
    done.refusal = decided.refusal
    if not decided.events:
        return
    for event in decided.events:
        entry = Entry(int(event.recorded), now, event, decided.plan)
        session = kiosk.session
        here = session.step if session and not session.halt else None
        past, broken = ground.judge.judge(past, entry, here)
        done.broken += broken
        kiosk = advance(kiosk, entry)
    past, broken = ground.judge.rested(past)
    done.broken += broken
    done.events += len(decided.events)
    done.spot = Spot(kiosk, past)


def attempt(ground: Ground, spot: Spot, tried: Try) -> Done:
    """All inputs of a try, one after the other; what came before it is not counted with it."""
    done = _begun(ground, spot, tried.before) if tried.before else Done(spot, NOW)
    for step in tried.steps:
        if done.broken:
            break
        done.now = after(done.now, step)
        give(ground, done, step.given)
    return done


_LAST: list[tuple[Spot, Try, Done]] = []


def _begun(ground: Ground, spot: Spot, before: Try) -> Done:
    """What comes before several tries at one state, worked out once."""
    if not _LAST or _LAST[0][0] is not spot or _LAST[0][1] is not before:
        _LAST[:] = [(spot, before, attempt(ground, spot, before))]
    begun = _LAST[0][2]
    return Done(begun.spot, begun.now)


_SOON: dict[tuple[float, str], Moment] = {}


def after(now: Moment, step: Step) -> Moment:
    """When a step of a try comes. Most come soon after now, so those moments are kept."""
    if now is not NOW:
        return later(now, step.after_s, step.boot)
    key = (step.after_s, step.boot)
    if key not in _SOON:
        _SOON[key] = later(now, step.after_s, step.boot)
    return _SOON[key]


# --- what is left of a state ---------------------------------------------------------------------


def settle(ground: Ground, done: Done, before: Spot) -> str:
    """Bring a state to the one that stands for all like it; gives the region it lies in."""
    answer_left(ground, done)
    region = region_of(done.spot.kiosk)
    spot = renewed(ground.shop, done.spot, before, done.now)
    done.spot = collapsed(with_readings(spot, _resting(ground, spot, region)), region)
    return region


def answer_left(ground: Ground, done: Done) -> None:
    """A try whose page was left has its answer, from which nothing follows."""
    trying = done.spot.kiosk.adults.trying
    if trying and not done.spot.kiosk.desk.typed:
        give(ground, done, _let_in(trying))


def _let_in(trying: Trying) -> Input:
    if trying.way == "badge":
        return BadgeChecked(TEACHER.ref)
    return PinChecked(trying.adult, True)


def _resting(ground: Ground, spot: Spot, region: str) -> dict[str, Reading]:
    """Readings that nothing goes by just now, and that may change at any time: the usual ones.

    Where a touch goes by one of them, the touch is tried with each.
    """
    found = {}
    halted = region == "step" and halt_of(spot.kiosk) is not None
    for name in ground.shape.features.inputs:
        if name in RUN_INPUTS:
            if region in ("room", "halt") or halted:
                found[name] = Reading.OFF
        elif region != "step" or not (_goes_by(spot) and hands_in(spot)):
            found[name] = Reading.ON
    return found


def _goes_by(spot: Spot) -> bool:
    return spot.kiosk.session is not None and spot.kiosk.session.way == "sensed"
