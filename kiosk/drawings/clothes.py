"""What may hang down: a sleeve rolled up and a bare hand, and what is taken off."""

from __future__ import annotations

from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arc, rounded, turned
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted
from kiosk.drawings.signs import cross, tick
from kiosk.drawings.values import Values


def clothes(values: Values, sheet: Sheet) -> Marks:
    """A bare hand under a rolled sleeve; tie, cord, ring and glove struck out."""
    away = (
        *tie(33, 1),
        *cord(50, 1),
        *ring_on(33, 36),
        *glove(51.5, 36),
        *(
            s
            for x, y in ((39.4, 18.5), (56.6, 18.5), (39.4, 44), (56.6, 44))
            for s in cross(x, y, 3.0)
        ),
    )
    return fitted((*bare_arm(13, 2), *tick(23.5, 15, 3.4), *away), sheet)


def bare_arm(x: float, top: float) -> Shapes:
    """An arm that hangs down, its sleeve rolled up to the elbow."""
    fingers = tuple(
        Area(rounded(x - 6.4 + 3.2 * i, top + 32, 3.2, 11 - abs(i - 1.6), 1.6), "paper", "ink", 0.7)
        for i in range(4)
    )
    thumb = turned(rounded(x + 5.0, top + 26, 3.4, 10, 1.7), x + 6, top + 27, -22)
    return (
        Area(rounded(x - 4.6, top + 12, 9.2, 18, 2), "paper", "ink", STROKE * 1.3),
        Area(thumb, "paper", "ink", STROKE * 1.3),
        *fingers,
        Area(rounded(x - 6.6, top + 24, 13, 11.4, 3.4), "paper", "ink", STROKE * 1.3),
        Area(rounded(x - 5.9, top + 29, 11.6, 5.6, 2), "paper", "none", 0.0),
        Area(rounded(x - 7, top, 14, 13, 1.5), "action", "ink", STROKE),
        Area(rounded(x - 8.2, top + 10, 16.4, 4.6, 2), "action", "paper", 0.7),
    )


def tie(x: float, top: float) -> Shapes:
    """A tie."""
    blade: Points = ((x - 1.6, top + 4), (x + 1.6, top + 4), (x + 3.4, top + 16), (x, top + 20))
    knot: Points = ((x - 2.8, top), (x + 2.8, top), (x + 1.7, top + 4), (x - 1.7, top + 4))
    return (
        Area((*blade, (x - 3.4, top + 16)), "soft", "ink", STROKE),
        Area(knot, "soft", "ink", STROKE),
    )


def cord(x: float, top: float) -> Shapes:
    """A lanyard with its card."""
    loop = (*arc(x, top + 5.5, 4.6, 150, 390, 1.2), (x, top + 13.6))
    return (
        Line((*loop, loop[0]), "ink", BOLD),
        Area(rounded(x - 4, top + 12.4, 8, 7, 1), "paper", "ink", STROKE * 1.3),
        Disc(x, top + 15.2, 1.2, "soft", "soft", THIN),
    )


def ring_on(x: float, y: float) -> Shapes:
    """A finger ring with its stone."""
    stone: Points = ((x - 2.4, y - 8.2), (x + 2.4, y - 8.2), (x, y - 4.6))
    return (
        Disc(x, y, 4.6, "none", "ink", 2.2),
        Area(stone, "paper", "ink", STROKE),
    )


def glove(x: float, y: float) -> Shapes:
    """A thick glove."""
    fingers = tuple(
        Area(rounded(x - 5.6 + 2.9 * i, y - 10, 2.9, 9, 1.4), "soft", "ink", STROKE)
        for i in range(4)
    )
    thumb = turned(rounded(x - 9.4, y - 3, 3.6, 8, 1.8), x - 6, y + 3, -20)
    return (
        Area(thumb, "soft", "ink", STROKE),
        *fingers,
        Area(rounded(x - 5.8, y - 3.4, 11.8, 9.4, 1.6), "soft", "ink", STROKE),
        Area(rounded(x - 6.4, y + 4.6, 13, 3.6, 1.2), "line", "ink", STROKE),
    )
