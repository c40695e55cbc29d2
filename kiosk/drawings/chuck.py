"""The chuck from the side and from below, with a key's teeth or a ring turned by hand; its key."""

from __future__ import annotations

from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arc, box, rounded, turned
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Shapes

NOSE = 29.0  # from a chuck's top to the ends of its jaws


def chuck_body(x: float, top: float, keyed: bool = True, gap: float = 1.2) -> Shapes:
    """A chuck from the side, 20 wide and 29 tall; its jaws leave `gap` between them."""
    lower = (-9, 17), (9, 17), (4.6 + gap / 2, 26), (-4.6 - gap / 2, 26)
    nose = tuple((x + dx, top + dy) for dx, dy in lower)
    return (
        Area(box(x - 3.5, top, 7, 4), "soft", "ink", STROKE),
        Area(rounded(x - 8.5, top + 3, 17, 6, 1), "steel", "ink", STROKE),
        *_jaws(x, top + 26, gap),
        Area(nose, "steel", "ink", STROKE),
        *(_teeth(x, top + 17) if keyed else ()),
        Area(box(x - 10, top + 8, 20, 9), "line", "ink", STROKE),
        *(_key_hole(x, top + 5.8) if keyed else _knurls(x, top + 8)),
    )


def _teeth(x: float, top: float) -> Shapes:
    return tuple(
        Line(((x + dx, top), (x + dx, top + 2.6)), "ink", STROKE)
        for dx in (-7.5, -4.5, -1.5, 1.5, 4.5, 7.5)
    )


def _key_hole(x: float, y: float) -> Shapes:
    return (Disc(x, y, 1.4, "ink", "ink", THIN),)


def _knurls(x: float, top: float) -> Shapes:
    """The ridges of a ring that is turned by hand."""
    return tuple(
        Line(((x + dx, top + 1.2), (x + dx, top + 7.8)), "ink", STROKE)
        for dx in (-8.4, -6.3, -3.6, -0.9, 1.8, 4.5, 6.9, 8.7)
    )


def _jaws(x: float, y: float, gap: float) -> Shapes:
    left = (
        (x - 3.6 - gap / 2, y),
        (x - gap / 2, y),
        (x - gap / 2, y + 3),
        (x - 1.8 - gap / 2, y + 3),
    )
    right = tuple((2 * x - px, py) for px, py in left)
    return (Area(left, "soft", "ink", STROKE), Area(right, "soft", "ink", STROKE))


def chuck_below(x: float, y: float, radius: float, bit: float, aside: bool = False) -> Shapes:
    """From below: three jaws on the bit; `aside`, the bit sits between two of them."""
    r = radius / 13
    reach = bit / 2
    jaws = tuple(_jaw(x, y, 11 * r, reach, 4.4 * r, angle) for angle in (0, 120, 240))
    off = (reach + 2.4 * r) if aside else 0.0
    return (
        Disc(x, y, radius, "line", "ink", STROKE),
        Disc(x, y, 11.4 * r, "paper", "ink", THIN),
        *jaws,
        Disc(x, y + off, reach, "bit", "ink", STROKE),
    )


def _jaw(x: float, y: float, out: float, reach: float, wide: float, degrees: float) -> Shape:
    blade = box(x - wide / 2, y - out, wide, out - reach)
    return Area(turned(blade, x, y, degrees), "soft", "ink", STROKE)


def key(x: float, top: float, fill: str = "action") -> Shapes:
    """A chuck key upright: a bar across its top, shaft, ring of teeth and pilot, 26 tall."""
    return (
        Area(rounded(x - 8, top, 16, 3.2, 1.6), fill, "ink", STROKE),
        Area(box(x - 1.7, top + 3, 3.4, 13), fill, "ink", STROKE),
        Area(box(x - 1.2, top + 20, 2.4, 4), fill, "ink", STROKE),
        Area(_gear(x, top + 15), fill, "ink", STROKE),
    )


def key_in(x: float, y: float, fill: str = "action") -> Shapes:
    """A key put into a chuck's hole at a point, seen along its shaft: its bar stands across."""
    bar = turned(rounded(x - 9, y - 1.6, 18, 3.2, 1.6), x, y, 24)
    return (Area(bar, fill, "ink", STROKE), Disc(x, y, 2.6, fill, "ink", STROKE))


def key_hung(x: float, top: float, fill: str = "action") -> Shapes:
    """The key on its hook by the ring on its bar."""
    curl = (*((x, top), (x, top + 6)), *arc(x + 2, top + 6, 2, 180, 20)[1:])
    return (
        Disc(x, top - 0.4, 2.0, "ink", "ink", THIN),
        Disc(x, top + 8.4, 2.6, "none", "ink", BOLD),
        *key(x, top + 11, fill),
        Line(curl, "ink", 1.4),
    )


def _gear(x: float, y: float) -> Points:
    """The key's toothed cone, its teeth below."""
    teeth: list[tuple[float, float]] = []
    for i in range(5):
        left = x - 5 + i * 2
        teeth += [(left, y + 5), (left + 1, y + 3.6), (left + 2, y + 5)]
    return ((x - 2.4, y), (x + 2.4, y), *reversed(teeth))
