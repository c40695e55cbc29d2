"""Places that are read alike: what leads on from one of them leads on from all in the same way.

At a step the kiosk and the judge read that step, the one before and the one after it, and what
the steps still to come make sure of. `reads` names all that. Where two places read alike and the
rest of the state is the same, the walk takes over what it found at the first, moved to the second
place; only where a way leads elsewhere than one step on or back is it tried there again. A test
tries everything at both and compares.
"""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache
from typing import TypeAlias

from kiosk.core import inputs as given
from kiosk.core.inputs import Input
from kiosk.core.model import Fact
from kiosk.core.plan.going_back import mending_step, place_back
from kiosk.core.plan.shape import Plan, PlanStep
from kiosk.core.rules.past import READY, UNMADE, made_by, step_called
from kiosk.core.values import replace
from kiosk.core.walk.grounds import Ground
from kiosk.core.walk.keys import Key
from kiosk.core.walk.renewing import coming
from kiosk.core.walk.shapes import signed
from kiosk.core.walk.spots import Spot, moved_to
from kiosk.core.walk.tries import Try

Place: TypeAlias = tuple[int, str, int, int]  # ground, path, step, holes drilled


@dataclass(frozen=True)
class Way:
    """A way that a try led: `to`, or anew at each place if that is None.

    `by` is how many steps on it led, in the same path; or it led back to what stands in a `line`
    of the adult's, counted from 0, that was not right.
    """

    tried: Try
    to: Key | None = None
    spot: Spot | None = None
    by: int = 0
    line: int | None = None


@dataclass(frozen=True)
class Found:
    """What was found at one place: where, what was sure, what of that is asked, and the ways."""

    ground: Ground
    place: Place
    facts: frozenset[Fact]
    asked: frozenset[Fact]
    ways: tuple[Way, ...]

    @property
    def apart(self) -> frozenset[Fact]:
        """What was sure there and goes by nothing that is tried."""
        return self.facts - self.asked


def likeness(ground: Ground, key: Key) -> Key | None:
    """What states at places that are read alike share; None where nothing is taken over."""
    region, place, facts, rest = key
    if region not in ("step", "drilling"):
        return None
    plan, (_, path, at, done) = ground.plan, place
    drills = plan.path(path)[at].part == "drill"
    if drills and region == "step":
        return None  # *Something wrong?* stands where the drilling screen stood
    new = at == 0 and done == 0  # then a language may be chosen
    last = drills and done + 1 == plan.holes
    asked = facts & asked_at(ground, path, at)
    return region, read_alike(ground, path, at), new, last, asked, rest


@cache
def asked_at(ground: Ground, path: str, at: int) -> frozenset[Fact]:
    """The facts that a way from here goes by or changes: by the check, all.

    Those of getting ready outlast a halt; the others are those of this step and its neighbours.
    """
    plan, here = ground.plan, ground.plan.path(path)[at]
    steps = plan.path(path)[max(at - 1, 0) : at + 2]
    if here.part != "drill" and any(s.part in ("check", "drill") for s in steps):
        return frozenset(Fact)
    return READY.union({Fact.ISOLATOR_OFF}, *(_changed(s, plan) for s in steps))


def _changed(step: PlanStep, plan: Plan) -> frozenset[Fact]:
    return made_by(step, plan).union({Fact.ISOLATOR_OFF}, *(UNMADE[p] for p in step.touches))


@cache
def read_alike(ground: Ground, path: str, at: int) -> int:
    """A number that places have in common of which the same is read."""
    return _NUMBERS.setdefault(reads(ground.plan, path, at), len(_NUMBERS))


_NUMBERS: dict[Key, int] = {}


def reads(plan: Plan, path: str, at: int) -> Key:
    """All that is read of a place: the step, its neighbours, what comes after them."""
    around = tuple(_read_at(plan, path, n) for n in (at - 1, at, at + 1))
    return (path == "clear", *around, *_next_start(plan, path, at))


def _read_at(plan: Plan, path: str, at: int) -> Key | None:
    """What is read of one step, and what of its own the steps after it make sure of again."""
    steps = plan.path(path)
    if not 0 <= at < len(steps):
        return None
    later = coming(plan, path, at + 1) if path != "clear" else frozenset()
    made = made_by(steps[at], plan)
    return (*signed(steps[at], plan), made, made & later)


def _next_start(plan: Plan, path: str, at: int) -> Key:
    """At the check its lines; before it how often one is due."""
    here, after = ([step.part for step in plan.path(path)[at : at + 2]] + [""])[:2]
    if here == "check":
        lines = tuple(_line_at(plan, path, at, line) for line in plan.look_for)
        return (*lines, signed(mending_step(plan), plan))
    if after == "check":
        return (plan.checks_every,)
    return ()


def _line_at(plan: Plan, path: str, at: int, line: str) -> Key:
    """Whether the isolator is still known to be off once this line was not right."""
    places = (place_back(plan, path, at, line, is_off) for is_off in (False, True))
    return tuple(Fact.ISOLATOR_OFF in _unsure(plan, line, *place) for place in places)


def _unsure(plan: Plan, line: str, path: str, at: int) -> frozenset[Fact]:
    """What is not sure, or not kept, once a line was not right and the turn is back at a place."""
    step = step_called(plan, line)
    return coming(plan, path, at).union(made_by(step, plan) if step else ())


def way_of(here: Key, tried: Try, key: Key, spot: Spot) -> Way:
    """What is kept of a way that led from one state, by its key, to another."""
    if key[0] not in ("step", "drilling"):
        return Way(tried, key)
    what, session = tried.steps[-1].given, spot.kiosk.session
    lines = session.plan.look_for if session is not None else ()
    if isinstance(what, given.PickNotRight) and what.step in lines:
        return Way(tried, key, spot, line=lines.index(what.step))
    (ground, path, at, done), (*to, then, drilled) = here[1], key[1]
    by = then - at
    near = to == [ground, path] and drilled == done and abs(by) <= 1 and key[0] == here[0]
    return Way(tried, key, spot, by) if near else Way(tried)


def found_at(ground: Ground, key: Key, ways: tuple[Way, ...]) -> Found:
    """What is kept of a state where all was tried."""
    _, place, facts, _ = key
    return Found(ground, place, facts, asked_at(ground, place[1], place[2]), ways)


def key_at(found: Found, way: Way, ground: Ground, here: Key) -> Key:
    """The key of the state that a way leads to from another state read alike."""
    assert way.to is not None
    region, _, facts, rest = way.to
    if region not in ("step", "drilling"):
        return way.to
    if way.line is not None:
        return region, *_back_at(way, ground, way.line, here), rest
    _, (number, path, at, done), mine, _ = here
    if mine != found.facts:
        facts = (facts - found.apart) | (mine - found.asked)
    return region, (number, path, at + way.by, done), facts, rest


def _back_at(way: Way, ground: Ground, line: int, here: Key) -> tuple[Place, frozenset[Fact]]:
    """Where a line that is not right leads back to, and what is sure there."""
    assert way.spot is not None and way.spot.kiosk.session is not None
    _, (number, path, at, done), facts, _ = here
    step, is_off = ground.plan.look_for[line], way.spot.kiosk.session.is_off
    back = place_back(ground.plan, path, at, step, is_off)
    return (number, *back, done), facts - _unsure(ground.plan, step, *back)


def spot_at(found: Found, way: Way, ground: Ground, key: Key) -> Spot:
    """The state that a way leads to from another state read alike, by its key."""
    assert way.spot is not None
    _, (_, *place), facts, _ = key
    return moved_to(way.spot, found.ground, ground, tuple(place), facts)


def tried_at(found: Found, tried: Try, ground: Ground, place: Place) -> Try:
    """The same try at another place: the step that stands there, the same line of the adult's."""
    steps = tuple(
        replace(step, given=_at_place(found, step.given, ground, place)) for step in tried.steps
    )
    return Try(steps, tried.sensible, tried.before)


def _at_place(found: Found, what: Input, ground: Ground, place: Place) -> Input:
    there, here = found.ground.plan, ground.plan
    match what:
        case given.SeenRight(step) if step == there.path(found.place[1])[found.place[2]].id:
            return given.SeenRight(here.path(place[1])[place[2]].id)
        case given.PickNotRight(step) if step in there.look_for:
            return given.PickNotRight(here.look_for[there.look_for.index(step)])
    return what
