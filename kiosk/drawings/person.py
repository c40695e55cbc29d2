"""People: eyes, hair and the adult who looks."""

from __future__ import annotations

from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arc, oval, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted
from kiosk.drawings.values import Values


def goggles(values: Values, sheet: Sheet) -> Marks:
    """A face with goggles on."""
    lens = rounded(16, 17, 28, 12, 5)
    return fitted(
        (
            *_shoulders(30, "line"),
            *_face(30, 22),
            Area(_cap(30, 22), "soft", "ink", STROKE),
            Line(((12.8, 21.5), (47.2, 21.5)), "action", 2.4),
            Area(lens, "plastic", "action", 1.6),
            Disc(24, 23, 1.3, "ink", "ink", THIN),
            Disc(36, 23, 1.3, "ink", "ink", THIN),
            Line(((20.5, 27), (25.5, 19)), "paper", 0.9),
            Line(arc(30, 32.5, 4, 25, 155), "ink", BOLD),
        ),
        sheet,
    )


def hair(values: Values, sheet: Sheet) -> Marks:
    """A head from the side, its long hair tied behind and its end under the collar."""
    skull = (*arc(28, 20, 15, 100, 305), (34, 15), (24, 17), (21, 24), (22, 31))
    tail = ((41.5, 21), (44.5, 25), (44, 32), (41.5, 38), (36, 41), (36.5, 34), (38, 26))
    collar = ((22, 40), (24, 36.4), (31, 39), (37, 37.4), (44.5, 33.6), (46.5, 40), (35, 44.4))
    return fitted(
        (
            *_shoulders(29, "line"),
            Area(_profile(), "paper", "ink", STROKE),
            Area(_flip(skull, 28), "soft", "ink", STROKE),
            Area(tail, "soft", "ink", STROKE),
            Line(((37.4, 25.6), (44.6, 24.2)), "action", 2.6),
            Area(collar, "line", "ink", STROKE * 1.6),
            Disc(20, 20, 1.2, "ink", "ink", THIN),
            Line(((15.4, 28.6), (19.4, 28.2)), "ink", BOLD),
        ),
        sheet,
    )


def adult(values: Values, sheet: Sheet) -> Marks:
    """An adult beside a pupil with a hand up."""
    return fitted((*figure(40, 2, 46, "adult"), *figure(18, 15, 33, "soft", hand_up=True)), sheet)


def figure(x: float, top: float, tall: float, colour: str, hand_up: bool = False) -> Shapes:
    """A person as head and body, `tall` in all."""
    r = tall * 0.15
    body_top = top + 2 * r + tall * 0.05
    wide = tall * 0.42
    body = (
        *arc(x, body_top + wide / 2, wide / 2, 180, 360),
        (x + wide / 2, top + tall),
        (x - wide / 2, top + tall),
    )
    shapes: Shapes = (
        Disc(x, top + r, r, colour, colour, THIN),
        Area(body, colour, colour, STROKE),
    )
    if hand_up:
        start = (x - wide / 2 + tall * 0.06, body_top + wide * 0.5)
        arm = (start, (x - wide * 0.62, top + r * 2), (x - wide * 0.56, top - r * 1.2))
        shapes = (*shapes, Line(arm, colour, tall * 0.12))
    return shapes


def _face(x: float, y: float) -> Shapes:
    return (
        Disc(x - 15.6, y + 1, 2.6, "paper", "ink", STROKE),
        Disc(x + 15.6, y + 1, 2.6, "paper", "ink", STROKE),
        Area(oval(x, y, 31, 36), "paper", "ink", STROKE),
    )


def _cap(x: float, y: float) -> Points:
    outer = arc(x, y - 1, 16.2, 188, 352, 1.1)
    return (*outer, (x + 11, y - 7), (x + 3, y - 9), (x - 8, y - 6))


def _shoulders(x: float, fill: str) -> Shapes:
    body = (*arc(x, 47.5, 22, 180, 360, 0.42),)
    neck = rounded(x - 5, 33, 10, 9, 2)
    return (Area(body, fill, "ink", STROKE), Area(neck, "paper", "ink", STROKE))


def _profile() -> Points:
    """A face that looks to the left."""
    return (
        (28, 5),
        (18, 8),
        (14.5, 14),
        (14.6, 18),
        (12, 23),
        (11.6, 24.6),
        (14.4, 25.2),
        (14.2, 27.6),
        (15.2, 29.2),
        (14.6, 32),
        (16.8, 35),
        (23, 35.4),
        (24, 39),
        (36, 39),
        (36, 30),
        (40, 20),
        (38, 9),
    )


def _flip(points: Points, x: float) -> Points:
    return tuple((2 * x - px, py) for px, py in points)
