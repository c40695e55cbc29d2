"""Clearing up: the brush for metal, the vacuum for wood."""

from __future__ import annotations

from math import cos, radians, sin

from kiosk.drawings.outlines import (
    STROKE,
    THIN,
    Points,
    arrow,
    box,
    rounded,
    turned,
)
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted
from kiosk.drawings.values import Values


def brush(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """A brush that sweeps curls of swarf off the table."""
    curls = ((12, 36), (7, 38.5), (18, 38), (13, 31.5), (20.5, 33))
    return fitted(
        (
            Area(box(2, 41, 56, 5), "steel", "ink", STROKE),
            *(Line(_curl(x, y), "ink", 0.8) for x, y in curls),
            *_brush(30, 40),
            *arrow((34, 6), (16, 6)),
        ),
        sheet,
    )


def vacuum(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """A nozzle that takes up the dust."""
    dust = ((14, 37), (20, 38.6), (9, 38.8), (25, 36.5), (18, 33.5), (24, 31.5), (29, 33), (30, 38))
    return fitted(
        (
            Area(box(2, 41, 56, 5), "wood", "ink", STROKE),
            *(Disc(x, y, 1.0, "soft", "soft", THIN) for x, y in dust),
            *_nozzle(),
            *arrow((8, 14), (20, 26)),
        ),
        sheet,
    )


def _curl(x: float, y: float) -> Points:
    """A curl of swarf as a small spiral."""
    turns = ((radians(40 * i), 0.35 + 0.16 * i) for i in range(14))
    return tuple((x + r * cos(a), y + r * sin(a)) for a, r in turns)


def _brush(x: float, y: float) -> tuple[Shape, ...]:
    handle = rounded(x - 2.2, y - 33, 4.4, 19, 2.2)
    stock = rounded(x - 7, y - 15, 14, 4.6, 1)
    hairs = ((x - 6.6, y - 10.4), (x + 6.6, y - 10.4), (x + 7.6, y), (x - 9, y))
    lines = tuple(
        Line(turned(((x + d, y - 9.6), (x + d * 1.25, y - 1)), x, y, 24), "ink", THIN)
        for d in (-4.5, -1.5, 1.5, 4.5)
    )
    return (
        Area(turned(handle, x, y, 24), "action", "action", STROKE),
        Area(turned(hairs, x, y, 24), "wood", "ink", STROKE),
        *lines,
        Area(turned(stock, x, y, 24), "action", "action", STROKE),
    )


def _nozzle() -> tuple[Shape, ...]:
    mouth = ((26, 31), (46, 40), (49.5, 33), (38, 20), (34.5, 18.5))
    hose = ((37, 20), (42, 12), (49, 7), (58, 5.5))
    return (
        Line(hose, "action", 6.5),
        Line(hose, "paper", 0.8, dash=True),
        Area(mouth, "action", "action", STROKE),
        Line(((26, 31), (46, 40)), "ink", 1.6),
    )
