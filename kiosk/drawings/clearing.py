"""Dust and swarf: the brush for metal, the vacuum for wood, the hose or hood at the bit."""

from __future__ import annotations

from math import cos, radians, sin

from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_body
from kiosk.drawings.outlines import (
    STROKE,
    THIN,
    Points,
    arc,
    arrow,
    bent_arrow,
    box,
    rounded,
    turned,
)
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted, moved
from kiosk.drawings.signs import cross, flat_hand, tick
from kiosk.drawings.values import Values


def brush(values: Values, sheet: Sheet) -> Marks:
    """A brush that sweeps curls of swarf off the table, never a hand."""
    curls = ((7, 36), (3.5, 38.5), (13, 38), (9, 31.5), (16.5, 33))
    again = ((36, 38.3), (41, 38.8), (38.5, 34.6))
    return fitted(
        (
            Area(box(1, 41, 58, 5), "steel", "ink", STROKE),
            *(swarf(x, y) for x, y in (*curls, *again)),
            *_brush(22, 40),
            *arrow((27, 4), (8, 4), "action", 1.6, 4.6),
            *tick(6, 12),
            *flat_hand(43, 36, 0.95),
            *cross(53, 12),
        ),
        sheet,
    )


def vacuum(values: Values, sheet: Sheet) -> Marks:
    """A nozzle that takes up the dust."""
    spots = ((14, 37), (20, 38.6), (9, 38.8), (25, 36.5), (18, 33.5), (24, 31.5), (29, 33))
    return fitted(
        (
            Area(box(2, 41, 56, 5), "wood", "ink", STROKE),
            *dust((*spots, (30, 38))),
            *_nozzle(),
            *bent_arrow(arc(20, 18, 11, 190, 75), "action", 1.5, 4.2),
        ),
        sheet,
    )


def extraction(values: Values, sheet: Sheet) -> Marks:
    """The hose's end, or the hood with its gate open, close by the bit; dust goes in."""
    is_fixed = values.word("extraction", "vacuum") == "fixed extraction"
    shapes = (
        *bit(values, 15, 26, 40, 4.4),
        *moved(chuck_body(0, 0, values.word("chuck", "keyed") != "keyless"), 15, 0, 0.9),
        Area(box(2, 40.5, 46, 5), "wood", "ink", STROKE),
        *dust(((21, 38.4), (19.6, 35), (24, 36), (26.4, 33.6), (23, 32.6), (28.6, 36.4))),
        *(_hood() if is_fixed else nozzle_at(31, 39)),
        *bent_arrow(arc(23, 33, 9, 205, 330, 0.7), "action", 1.4, 4.0),
    )
    return fitted(shapes, sheet)


def dust(places: tuple[tuple[float, float], ...]) -> Shapes:
    """Grains of dust."""
    return tuple(Disc(x, y, 0.9, "soft", "soft", THIN) for x, y in places)


def swarf(x: float, y: float, width: float = 0.8) -> Line:
    """A curl of swarf as a small spiral."""
    turns = ((radians(40 * i), 0.35 + 0.16 * i) for i in range(14))
    return Line(tuple((x + r * cos(a), y + r * sin(a)) for a, r in turns), "ink", width)


def _brush(x: float, y: float) -> Shapes:
    handle = rounded(x - 2.2, y - 33, 4.4, 19, 2.2)
    stock = rounded(x - 7, y - 15, 14, 4.6, 1)
    hairs = ((x - 6.6, y - 10.4), (x + 6.6, y - 10.4), (x + 7.6, y), (x - 9, y))
    lines = tuple(
        Line(turned(((x + d, y - 9.6), (x + d * 1.25, y - 1)), x, y, 24), "ink", THIN)
        for d in (-4.5, -1.5, 1.5, 4.5)
    )
    return (
        Area(turned(handle, x, y, 24), "action", "ink", STROKE),
        Area(turned(hairs, x, y, 24), "wood", "ink", STROKE),
        *lines,
        Area(turned(stock, x, y, 24), "action", "ink", STROKE),
    )


def fluid_brush(x: float, y: float) -> Shapes:
    """A thin brush and the drop of cutting fluid at its end."""
    drop: Points = ((x, y - 4.4), *arc(x, y - 1.4, 1.6, -20, 200))
    handle = turned(rounded(x - 1.3, y - 30, 2.6, 18, 1.3), x, y, -38)
    hairs = turned(((x - 1.9, y - 12), (x + 1.9, y - 12), (x, y - 4)), x, y, -38)
    return (
        Area(handle, "paper", "ink", STROKE),
        Area(hairs, "wood", "ink", STROKE),
        Area(drop, "action", "ink", STROKE),
    )


def nozzle_at(x: float, y: float) -> Shapes:
    """The end of a hose with its mouth's lower lip at a point, coming from above right."""
    mouth = ((x, y - 8.6), (x, y), (x + 13, y - 3.4), (x + 13, y - 9.6))
    hose = ((x + 12.5, y - 6.5), (x + 19, y - 9), (x + 22, y - 16), (x + 22.4, y - 24))
    return (
        Line(hose, "action", 6.0),
        Line(hose, "paper", 0.8, dash=True),
        Area(mouth, "action", "ink", STROKE),
        Line(((x, y - 8.6), (x, y)), "ink", 1.6),
    )


def _hood() -> Shapes:
    """A hood on its pipe, the gate's plate drawn out."""
    mouth = ((31, 24), (31, 40), (43, 35.5), (43, 29.5))
    return (
        Area(box(43, 29.5, 6, 6), "steel", "ink", STROKE),
        Area(box(49, 4, 7, 31.5), "steel", "ink", STROKE),
        Area(mouth, "action", "ink", STROKE),
        Line(((31, 24), (31, 40)), "ink", 1.6),
        Area(box(37.5, 13, 20, 3.2), "caution", "ink", STROKE),
        *arrow((46, 9.5), (36.5, 9.5), "ink", 1.1, 3.4),
    )


def _nozzle() -> Shapes:
    mouth = ((26, 31), (46, 40), (49.5, 33), (38, 20), (34.5, 18.5))
    hose = ((37, 20), (42, 12), (49, 7), (57, 5.5))
    return (
        Line(hose, "action", 6.5),
        Line(hose, "paper", 0.8, dash=True),
        Area(mouth, "action", "ink", STROKE),
        Line(((26, 31), (46, 40)), "ink", 1.6),
    )
