"""The proof: every reachable state of every shape of plan, with the rules' judge looking on.

`shape_of` says what of a plan matters, `prove` walks all shapes of machines with the same
features, and says what it found in counts or as a counter-example in plain words.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from kiosk.core.inputs import Input
from kiosk.core.model import Content
from kiosk.core.rules import RULES, Rule
from kiosk.core.walk.beginning import OPEN_LESSON
from kiosk.core.walk.finishing import stuck
from kiosk.core.walk.grounds import ground_for, grounds_of
from kiosk.core.walk.shapes import Features, Shape, features_of, shape_of, shapes_among, size_of
from kiosk.core.walk.telling import story
from kiosk.core.walk.tries import Try
from kiosk.core.walk.walking import Fault, Walk, walk
from kiosk.core.words import Words

STUCK = "from here no finish can be reached: a pupil or an adult is left before a screen"


@dataclass(frozen=True)
class Proof:
    """What a walk came to. `story` is the counter-example, empty if there is none."""

    shapes: int
    states: int
    transitions: int
    story: tuple[str, ...] = ()
    rule: str = ""


def prove(
    content: Content,
    words: Words,
    shapes: tuple[Shape, ...],
    office: bool = True,
    rules: tuple[Rule, ...] = RULES,
    told: Callable[[int], None] = lambda n: None,
    first: tuple[Input, ...] | None = None,
) -> Proof:
    """Walk the shapes, which must have the same features.

    `office`: begin with the kiosk's first start and go through all that adults do at the desk;
    without it the walk begins in an open lesson. `first`: what is given before it begins instead.
    """
    if first is None:
        first = () if office else OPEN_LESSON
    walked = walk(grounds_of(content, shapes, rules), told, first, office)
    fault = walked.fault or _stuck(walked)
    if fault is None:
        return Proof(len(shapes), walked.states, walked.transitions)
    return _told(content, words, walked, fault, rules)


def _stuck(walked: Walk) -> Fault | None:
    number = stuck(walked)
    if number is None:
        return None
    return Fault(STUCK, walked.nodes[number].ground, number, Try(()), "finish")


def _told(
    content: Content, words: Words, walked: Walk, fault: Fault, rules: tuple[Rule, ...]
) -> Proof:
    """The counter-example on its own ground alone, where every step of the way is its own."""
    if len(walked.grounds) > 1:
        ground = ground_for(content, fault.ground.shape, 0, rules)
        alone = walk((ground,), first=walked.first, office=walked.office)
        found = alone.fault or _stuck(alone)
        if found:
            walked, fault = alone, found
    lines = story(walked, fault, words)
    return Proof(len(walked.grounds), walked.states, walked.transitions, lines, fault.rule)


def by_features(shapes: Iterable[Shape]) -> tuple[tuple[Shape, ...], ...]:
    """The shapes in groups with the same features, the largest group first."""
    groups: dict[Features, list[Shape]] = {}
    for shape in shapes:
        groups.setdefault(shape.features, []).append(shape)
    return tuple(sorted((tuple(g) for g in groups.values()), key=len, reverse=True))


__all__ = [
    "OPEN_LESSON",
    "Features",
    "Proof",
    "Shape",
    "by_features",
    "features_of",
    "prove",
    "shape_of",
    "shapes_among",
    "size_of",
]
