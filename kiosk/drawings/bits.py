"""Each kind of bit from the side: its width, its tip and the length of its point are exact.

`point` is how far the tip stands below the full width. A kind nobody knows is drawn as a twist
bit.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from kiosk.drawings.outlines import Points, arc
from kiosk.drawings.shapes import Area, Line, Shape
from kiosk.drawings.values import Values


@dataclass(frozen=True)
class Place:
    """Where a bit stands: its axis, top and tip, its width and its point's length."""

    x: float
    top: float
    tip: float
    wide: float
    point: float

    @property
    def half(self) -> float:
        """Half the width."""
        return self.wide / 2

    @property
    def shoulder(self) -> float:
        """Where the full width ends."""
        return max(self.top, self.tip - self.point)

    def both(self, right: Points) -> Points:
        """The right side from the top down to the tip, and its mirror image up again."""
        return (*right, *((2 * self.x - x, y) for x, y in reversed(right)))


def bit_shapes(
    kind: str, place: Place, fill: str = "bit", decor: str = "paper"
) -> tuple[Shape, ...]:
    """The outline, one area, and what marks the kind on it."""
    outline, marks = KINDS.get(kind, (_twist, _flutes))
    area = Area(outline(place), fill, fill, 0.2)
    return (area, *(Line(each, decor, max(0.3, place.wide * 0.09)) for each in marks(place)))


def bit(
    values: Values, x: float, top: float, tip: float, wide: float, scale: float = 0.0
) -> tuple[Shape, ...]:
    """The plan's bit; without a scale its point is as long as the kind's beside its width."""
    to_scale = scale or wide / values.bit_diameter
    point = values.point * to_scale if scale else min(values.point * to_scale, (tip - top) * 0.6)
    return bit_shapes(values.kind, Place(x, top, tip, wide, point))


def plain_bit(x: float, top: float, tip: float, wide: float) -> tuple[Shape, ...]:
    """A twist bit of no plan."""
    return bit_shapes("twist", Place(x, top, tip, wide, wide * 0.3))


def _twist(p: Place) -> Points:
    right = ((p.x + p.half, p.top), (p.x + p.half, p.shoulder), (p.x, p.tip))
    return (*right[:2], (p.x, p.tip), *((2 * p.x - x, y) for x, y in reversed(right[:2])))


def _flutes(p: Place) -> tuple[Points, ...]:
    rise, pitch, half = p.wide * 0.75, p.wide * 1.25, p.wide * 0.36
    count = max(0, int((p.shoulder - p.top - rise) / pitch + 0.4))
    starts = (p.shoulder - 0.15 * p.wide - i * pitch for i in range(count))
    return tuple(
        ((p.x - half, y), (p.x + half, y - rise)) for y in starts if y - rise > p.top + 0.3
    )


def _spurred(p: Place) -> Points:
    spur = p.point * 0.45
    right = (
        (p.x + p.half, p.top),
        (p.x + p.half, p.shoulder),
        (p.x + p.half * 0.66, max(p.top, p.shoulder - spur)),
        (p.x + p.half * 0.3, max(p.top, p.shoulder - spur)),
        (p.x, p.tip),
    )
    return p.both(right)


def _forstner(p: Place) -> Points:
    head, shank = max(p.top, p.shoulder - p.wide * 0.5), p.half * 0.36
    right = (
        (p.x + shank, p.top),
        (p.x + shank, head),
        (p.x + p.half * 0.92, head),
        (p.x + p.half, head + (p.shoulder - head) * 0.3),
        (p.x + p.half, p.shoulder),
        (p.x + p.half * 0.3, p.shoulder),
        (p.x, p.tip),
    )
    return p.both(right)


def _flat(p: Place) -> Points:
    blade, shank = max(p.top, p.shoulder - p.wide * 1.1), p.half * 0.28
    right = (
        (p.x + shank, p.top),
        (p.x + shank, blade),
        (p.x + p.half, min(p.shoulder, blade + p.wide * 0.22)),
        (p.x + p.half, p.shoulder),
        (p.x + p.half * 0.34, p.shoulder),
        (p.x, p.tip),
    )
    return p.both(right)


def _saw(p: Place) -> Points:
    cup, shank, tooth = max(p.top, p.shoulder - p.wide * 0.8), p.half * 0.3, p.wide * 0.06
    pilot = p.half * 0.22
    teeth = tuple(
        (p.x + p.half - (p.half - pilot) * i / 6, p.shoulder - (tooth if i % 2 else 0.0))
        for i in range(6)
    )
    right = (
        (p.x + shank, p.top),
        (p.x + shank, cup),
        (p.x + p.half, cup),
        *teeth,
        (p.x + pilot, p.shoulder - tooth),
        (p.x + pilot, max(p.shoulder, p.tip - pilot)),
        (p.x, p.tip),
    )
    return p.both(right)


def _cone(p: Place) -> Points:
    body, shank = max(p.top, p.shoulder - p.wide * 0.35), p.half * 0.5
    right = (
        (p.x + shank, p.top),
        (p.x + shank, body),
        (p.x + p.half, body),
        (p.x + p.half, p.shoulder),
        (p.x, p.tip),
    )
    return p.both(right)


def _steps(p: Place) -> Points:
    count, least = 5, p.half * 0.25
    long = (p.tip - p.shoulder) * 0.92 / count
    right = [(p.x + p.half, p.top), (p.x + p.half, p.shoulder)]
    for i in range(count):
        half = p.half + (least - p.half) * (i + 1) / count
        right += [(p.x + half, p.shoulder + long * i), (p.x + half, p.shoulder + long * (i + 1))]
    return p.both((*right, (p.x, p.tip)))


def _plain(p: Place) -> tuple[Points, ...]:
    return ()


def _slots(p: Place) -> tuple[Points, ...]:
    """The windows in a hole saw's side."""
    y = p.shoulder - p.wide * 0.42
    if y - p.wide * 0.1 - 0.3 < p.top:
        return ()
    return tuple(arc(p.x + way * p.half * 0.5, y, p.wide * 0.09, 0, 360) for way in (-1, 1))


Kind = tuple[Callable[[Place], Points], Callable[[Place], tuple[Points, ...]]]

KINDS: Mapping[str, Kind] = MappingProxyType(
    {
        "lip_and_spur": (_spurred, _flutes),
        "forstner": (_forstner, _plain),
        "flat": (_flat, _plain),
        "hole_saw": (_saw, _slots),
        "countersink": (_cone, _plain),
        "step_drill": (_steps, _plain),
    }
)
