"""The walk: every state that touches, readings, time and power cuts can lead to.

Breadth first, so that the first counter-example is the shortest. The states of the room, and
those at a halt, depend on no plan; they are walked once, and where they lead into a session it
is begun on every ground.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from functools import cached_property, partial

from kiosk.core.inputs import Input
from kiosk.core.kiosk import EMPTY
from kiosk.core.model import Reading
from kiosk.core.rules import Past
from kiosk.core.rules.past import RUN_INPUTS
from kiosk.core.view import View, show
from kiosk.core.walk.beginning import begun
from kiosk.core.walk.giving import Done, attempt, settle
from kiosk.core.walk.grounds import Ground
from kiosk.core.walk.keys import Key, key_of
from kiosk.core.walk.likeness import (
    Found,
    Way,
    found_at,
    key_at,
    likeness,
    spot_at,
    tried_at,
    way_of,
)
from kiosk.core.walk.renewing import with_readings
from kiosk.core.walk.screens import screen_faults, touches_of
from kiosk.core.walk.spots import (
    NOW,
    Spot,
    replace_session,
    transplanted,
    was_drilling,
)
from kiosk.core.walk.tries import Try, tries
from kiosk.core.words import Words

SILENT = Words("en", {})
NEVER = Spot(EMPTY, Past())


@dataclass(frozen=True, eq=False)
class Node:
    """A state reached: where, from which one, by what; `made` gives the state itself."""

    number: int
    ground: Ground
    made: Callable[[], Spot]
    key: Key
    parent: int
    tried: Try | None

    @cached_property
    def spot(self) -> Spot:
        """The state, moved here from a place that is read alike only where it is asked for."""
        return self.made()

    @property
    def region(self) -> str:
        """Where it lies."""
        return str(self.key[0])


@dataclass(frozen=True)
class Fault:
    """What went wrong: which rule, how, and the try that led to it from a state reached."""

    found: str
    ground: Ground
    node: int
    tried: Try
    rule: str = ""


@dataclass
class Walk:
    """All states reached so far, and the first fault."""

    grounds: tuple[Ground, ...]
    office: bool = True
    first: tuple[Input, ...] = ()
    nodes: list[Node] = field(default_factory=list)
    known: dict[Key, int] = field(default_factory=dict)
    edges: list[tuple[int, int]] = field(default_factory=list)
    transitions: int = 0
    fault: Fault | None = None
    crossed: set[Key] = field(default_factory=set)
    found: dict[Key, Found] = field(default_factory=dict)

    @property
    def states(self) -> int:
        """How many states were reached."""
        return len(self.nodes)


def walk(
    grounds: tuple[Ground, ...],
    told: Callable[[int], None] = lambda n: None,
    first: tuple[Input, ...] = (),
    office: bool = True,
) -> Walk:
    """Walk every reachable state on all the grounds, up to the first fault.

    The grounds must have the same features; `told` hears how many states were dealt with.
    `first` is given before the walk begins, so that it can begin in an open lesson; without
    the `office` no adult goes to the menu.
    """
    walked = Walk(grounds, office, first)
    for number in dealt_with(walked):
        told(number)
    return walked


def dealt_with(walked: Walk) -> Iterator[int]:
    """Deal with one state after another, up to the first fault; gives each one's number."""
    queue = deque([_begin(walked)])
    while queue and walked.fault is None:
        number = queue.popleft()
        queue.extend(_around(walked, walked.nodes[number]))
        yield number


def _begin(walked: Walk) -> int:
    ground = walked.grounds[0]
    number = _reached(walked, ground, begun(ground, walked.first), -1, None)
    assert number is not None
    return number


def _around(walked: Walk, node: Node) -> Iterator[int]:
    """Every way on from a state; gives the states that are new."""
    alike = likeness(node.ground, node.key)
    found = walked.found.get(alike) if alike else None
    if found:
        yield from _taken_over(walked, node, found)
        return
    ways: list[Way] = []
    yield from _tried_out(walked, node, ways)
    if alike and not walked.fault:
        walked.found[alike] = found_at(node.ground, node.key, tuple(ways))


def _taken_over(walked: Walk, node: Node, found: Found) -> Iterator[int]:
    """The ways found at a place that is read alike, moved here."""
    for way in found.ways:
        if way.to is None:
            tried = tried_at(found, way.tried, node.ground, node.key[1])
            yield from _try(walked, node, tried, [])
        else:
            walked.transitions += 1
            key = key_at(found, way, node.ground, node.key)
            known = walked.known.get(key)
            if known is None:
                made = partial(spot_at, found, way, node.ground, key)
                yield _new(walked, node.ground, made, key, node.number, way.tried)
            elif way.tried.sensible:
                walked.edges.append((node.number, known))
        if walked.fault:
            return


def _tried_out(walked: Walk, node: Node, ways: list[Way]) -> Iterator[int]:
    """Every try at a state; the ways it leads are added."""
    ground, spot = node.ground, node.spot
    view: View = show(ground.shop, spot.kiosk, SILENT, NOW)
    shown = touches_of(view)
    found = screen_faults(ground.shop, spot, view)
    if found:
        walked.fault = Fault(found[0], ground, node.number, Try(()), "screen")
        return
    for tried in tries(ground, spot, shown, walked.office):
        yield from _try(walked, node, tried, ways)
        if walked.fault:
            return


def _try(walked: Walk, node: Node, tried: Try, ways: list[Way]) -> Iterator[int]:
    done = attempt(node.ground, node.spot, tried)
    if not done.events and not done.broken:
        return
    walked.transitions += 1
    new = _take(walked, node, node.ground, tried, done)
    if new is not None:
        yield new
    if walked.fault:
        return
    if node.region in ("step", "drilling"):
        ways.append(way_of(node.key, tried, done.key, done.spot))
    yield from _beside(walked, node, tried, done)


def _beside(walked: Walk, node: Node, tried: Try, done: Done) -> Iterator[int]:
    """Where what was forgotten makes a difference after all, it is tried each way."""
    came_from, region = node.region, done.key[0]
    if region in ("step", "drilling") and came_from in ("room", "halt"):
        yield from _cross(walked, node, tried, done)
    elif region == "drilling" and came_from == "step":
        yield from _with_lost_run(walked, node, tried)
    elif was_drilling(node.spot) and came_from == "step" == region:
        yield from _on_other_paths(walked, node, tried)


def _take(walked: Walk, node: Node, ground: Ground, tried: Try, done: Done) -> int | None:
    if done.broken:
        first = done.broken[0]
        walked.fault = Fault(str(first), ground, node.number, tried, first.rule.id)
        return None
    return _reached(walked, ground, done, node.number, tried)


def _reached(
    walked: Walk, ground: Ground, done: Done, parent: int, tried: Try | None
) -> int | None:
    """The number of the state if it is new."""
    before = walked.nodes[parent].spot if parent >= 0 else NEVER
    region = settle(ground, done, before)
    if done.broken and tried:
        first = done.broken[0]
        walked.fault = Fault(str(first), ground, parent, tried, first.rule.id)
        return None
    key = done.key = key_of(ground, done.spot, region)
    number = walked.known.get(key)
    if number is None:
        spot = done.spot
        return _new(walked, ground, lambda: spot, key, parent, tried)
    if tried is None or tried.sensible:
        walked.edges.append((parent, number))
    return None


def _new(
    walked: Walk,
    ground: Ground,
    made: Callable[[], Spot],
    key: Key,
    parent: int,
    tried: Try | None,
) -> int:
    number = walked.known[key] = len(walked.nodes)
    walked.nodes.append(Node(number, ground, made, key, parent, tried))
    if tried is None or tried.sensible:
        walked.edges.append((parent, number))
    return number


def _cross(walked: Walk, node: Node, tried: Try, done: Done) -> Iterator[int]:
    """A way from the room or a halt into a session leads there on every ground."""
    region, place, *others = done.key
    shared = (region, place[1:], *others)
    if shared in walked.crossed:
        return
    walked.crossed.add(shared)
    for ground in walked.grounds:
        for count in _counts(node, ground):
            if ground is node.ground and not count:
                continue
            spot = transplanted(node.spot, node.ground, ground, count)
            there = attempt(ground, spot, tried)
            new = _take(walked, node, ground, tried, there) if there.events else None
            if new is not None:
                yield new


def _counts(node: Node, ground: Ground) -> range:
    """How many holes may have been drilled before a halt."""
    session = node.spot.kiosk.session
    some = session is not None and session.done < session.plan.holes
    return range(ground.plan.holes) if some else range(1)


def _on_other_paths(walked: Walk, node: Node, tried: Try) -> Iterator[int]:
    """Drilling forgets the path that led to it; a slip taken back tells them apart."""
    for path in ("joining", "further"):
        at = len(node.ground.plan.path(path)) - 1
        done = attempt(node.ground, replace_session(node.spot, path=path, at=at), tried)
        new = _take(walked, node, node.ground, tried, done)
        if new is not None:
            yield new


def _with_lost_run(walked: Walk, node: Node, tried: Try) -> Iterator[int]:
    """At a step a run input that is lost looks like one that is off; drilling tells them apart."""
    for name in (n for n in node.ground.shape.features.inputs if n in RUN_INPUTS):
        now = node.spot.kiosk.machine.reading(name)
        other = Reading.OFF if now is not Reading.OFF else Reading.UNKNOWN
        done = attempt(node.ground, with_readings(node.spot, {name: other}), tried)
        new = _take(walked, node, node.ground, tried, done)
        if new is not None:
            yield new
