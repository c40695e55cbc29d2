"""The chuck close to: the bit in its three jaws, and the key on its hook."""

from __future__ import annotations

from kiosk.core.units import Length
from kiosk.drawings.outlines import (
    BOLD,
    STROKE,
    THIN,
    Points,
    arc,
    bit,
    box,
    label,
    rounded,
    turned,
)
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted
from kiosk.drawings.values import Values


def chuck(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The bit straight in the chuck, and from below with a jaw on every third of it."""
    wide = min(7.0, max(2.2, values.bit_diameter * 0.6))
    text = sheet.number(Length(values.bit_diameter))
    return fitted(
        (
            *bit(18, 27, 46, wide, values.point_angle),
            *chuck_body(18, 2),
            *_from_below(45, 16, wide),
            label(45, 37, text, 3.6, colour="action", bold=True),
        ),
        sheet,
    )


def key_hook(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The chuck empty of its key, and the key hanging on its hook."""
    board = Area(rounded(35, 2, 22, 44, 2), "wood", "ink", STROKE)
    return fitted(
        (*bit(16, 27, 42, 4.4), *chuck_body(16, 2), board, *_key(46, 15), *_hook(46, 10)), sheet
    )


def chuck_body(x: float, top: float) -> tuple[Shape, ...]:
    """A keyed chuck from the side, 20 wide and 27 tall."""
    sleeve = box(x - 10, top + 8, 20, 9)
    teeth = tuple(
        Line(((x + dx, top + 17), (x + dx, top + 19.6)), "ink", STROKE)
        for dx in (-7.5, -4.5, -1.5, 1.5, 4.5, 7.5)
    )
    nose = ((x - 9, top + 17), (x + 9, top + 17), (x + 4.6, top + 26), (x - 4.6, top + 26))
    return (
        Area(box(x - 3.5, top, 7, 4), "soft", "ink", STROKE),
        Area(rounded(x - 8.5, top + 3, 17, 6, 1), "steel", "ink", STROKE),
        *_jaws(x, top + 26),
        Area(nose, "steel", "ink", STROKE),
        *teeth,
        Area(sleeve, "line", "ink", STROKE),
        Disc(x, top + 5.8, 1.4, "ink", "ink", THIN),
    )


def _jaws(x: float, y: float) -> tuple[Shape, ...]:
    left = ((x - 4.0, y), (x - 0.6, y), (x - 1.2, y + 3), (x - 2.6, y + 3))
    right = tuple((2 * x - px, py) for px, py in left)
    return (Area(left, "soft", "ink", STROKE), Area(right, "soft", "ink", STROKE))


def _from_below(x: float, y: float, wide: float) -> tuple[Shape, ...]:
    jaw = box(x - 2.2, y - 11, 4.4, 11 - wide / 2)
    jaws = tuple(Area(turned(jaw, x, y, a), "soft", "ink", STROKE) for a in (0, 120, 240))
    return (
        Disc(x, y, 13, "line", "ink", STROKE),
        Disc(x, y, 11.4, "steel", "ink", THIN),
        *jaws,
        Disc(x, y, wide / 2, "bit", "ink", STROKE),
    )


def _hook(x: float, y: float) -> tuple[Shape, ...]:
    curl = (*((x, y - 3.6), (x, y + 2.5)), *arc(x + 2, y + 2.5, 2, 180, 20)[1:])
    return (Disc(x, y - 4, 2.0, "ink", "ink", THIN), Line(curl, "ink", 1.2))


def _key(x: float, top: float) -> tuple[Shape, ...]:
    """A chuck key: bar across, shaft, ring of teeth, and the ring it hangs by."""
    return (
        Disc(x, top - 1.2, 2.6, "none", "action", BOLD),
        Area(rounded(x - 8, top + 2.0, 16, 3.2, 1.6), "action", "action", THIN),
        Area(box(x - 1.7, top + 5, 3.4, 13), "action", "action", THIN),
        Area(_gear(x, top + 17), "action", "action", THIN),
        Area(box(x - 1.2, top + 22, 2.4, 4), "action", "action", THIN),
    )


def _gear(x: float, y: float) -> Points:
    teeth: list[tuple[float, float]] = []
    for i in range(5):
        left = x - 5 + i * 2
        teeth += [(left, y + 5), (left + 1, y + 3.6), (left + 2, y + 5)]
    return ((x - 2.4, y), (x + 2.4, y), *reversed(teeth))
