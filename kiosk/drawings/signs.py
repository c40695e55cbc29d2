"""Signs that many pictures need: right and wrong, an eye, hands, a double arrow."""

from __future__ import annotations

from math import cos, radians, sin

from kiosk.drawings.lettering import LEAST_TEXT, caption, text_width
from kiosk.drawings.outlines import STROKE, THIN, Point, Points, arc, arrow, box, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Fit, Marks, Shapes, Sheet

SIGN = 3.6  # radius of a tick or a cross


def tick(x: float, y: float, radius: float = SIGN) -> Shapes:
    """Right: a tick on a round plate."""
    r = radius
    stroke = (
        (x - 0.48 * r, y + 0.04 * r),
        (x - 0.12 * r, y + 0.42 * r),
        (x + 0.5 * r, y - 0.4 * r),
    )
    return (Disc(x, y, r, "action", "paper", 0.6), Line(stroke, "paper", 0.28 * r))


def cross(x: float, y: float, radius: float = SIGN) -> Shapes:
    """Wrong: a cross on a plate with eight corners."""
    r, reach = radius, 0.42 * radius
    corners = tuple(
        (x + 1.06 * r * cos(radians(a)), y + 1.06 * r * sin(radians(a)))
        for a in (22.5 + 45 * i for i in range(8))
    )
    strokes = (
        Line(((x - reach, y - reach), (x + reach, y + reach)), "paper", 0.28 * r),
        Line(((x - reach, y + reach), (x + reach, y - reach)), "paper", 0.28 * r),
    )
    return (Area(corners, "stop", "paper", 0.6), *strokes)


def verdict(at: Fit, sheet: Sheet, x: float, y: float, is_right: bool, room: float = 29.0) -> Marks:
    """Right or wrong under a picture: the sign, and its word where `room` of the frame is enough.

    Sign and word stand in the middle about a point of the frame.
    """
    radius, gap = min(SIGN * at.scale, SIGN), 1.4
    text = sheet.say("right" if is_right else "wrong")
    wide, (left, middle) = text_width(text, LEAST_TEXT), at.at(x, y)
    widest = max(text_width(sheet.say(word), LEAST_TEXT) for word in ("right", "wrong"))
    has_room = bool(text) and 2 * radius + gap + widest <= room * at.scale
    whole = 2 * radius + (gap + wide if has_room else 0.0)
    start = left - whole / 2
    sign = (tick if is_right else cross)(start + radius, middle, radius)
    if not has_room:
        return sign
    words = caption(start + 2 * radius + gap, middle, text, wide + 1, "left", lines=1)
    return (*sign, *words)


def struck(left: float, top: float, right: float, bottom: float) -> Shapes:
    """Two strokes corner to corner, edged in white: not this."""
    pair = (((left, top), (right, bottom)), ((left, bottom), (right, top)))
    under = tuple(Line(each, "paper", 2.6) for each in pair)
    return (*under, *(Line(each, "stop", 1.5) for each in pair))


def up_and_down(x: float, top: float, bottom: float, colour: str = "action") -> Shapes:
    """An arrow with a head at both ends."""
    middle = (x, (top + bottom) / 2)
    return (
        *arrow(middle, (x, top), colour, 1.3, 3.6),
        *arrow(middle, (x, bottom), colour, 1.3, 3.6),
    )


def ring(x: float, y: float, radius: float) -> Shapes:
    """A ring in the action colour round what matters, edged in white."""
    return (
        Disc(x, y, radius, "none", "paper", 2.2),
        Disc(x, y, radius, "none", "action", 1.2),
    )


def eye(x: float, y: float, wide: float = 12.0) -> Shapes:
    """An eye that looks."""
    half = wide / 2
    upper = arc(x, y + half * 0.75, half * 1.25, 217, 323)
    lower = arc(x, y - half * 0.75, half * 1.25, 37, 143)
    return (
        Area((*upper, *lower), "paper", "ink", STROKE * 1.4),
        Disc(x, y, half * 0.42, "action", "ink", STROKE),
        Disc(x, y, half * 0.17, "ink", "ink", THIN),
    )


def along(points: Points, tip: Point, degrees: float, size: float = 1.0) -> Points:
    """Points made about the origin, turned, scaled and moved to `tip`."""
    c, s = cos(radians(degrees)) * size, sin(radians(degrees)) * size
    return tuple((tip[0] + x * c - y * s, tip[1] + x * s + y * c) for x, y in points)


POINTING: Points = (
    *arc(1.7, 0, 1.7, 180, 270),
    (9.5, -1.7),
    (12.0, -3.4),
    (15.5, -3.6),
    (19.5, -1.2),
    (19.5, 6.4),
    (16.5, 8.4),
    *arc(10.8, 7.0, 1.5, 90, 180),
    *arc(10.0, 4.4, 1.5, 120, 220),
    *arc(9.6, 2.2, 1.0, 120, 180),
    (9.4, 1.7),
    *arc(1.7, 0, 1.7, 90, 180),
)
FOLDS = (((9.4, 1.7), (13.5, 1.7)), ((9.2, 4.2), (13.2, 4.2)), ((10.2, 6.4), (13.0, 6.4)))
CUFF: Points = box(19.5, -2.6, 5.0, 10.4)


def finger(x: float, y: float, degrees: float, size: float = 1.0) -> Shapes:
    """A hand whose forefinger ends at a point; 0 degrees comes from the right."""
    at = (x, y)
    return (
        Area(along(CUFF, at, degrees, size), "soft", "ink", STROKE),
        Area(along(POINTING, at, degrees, size), "paper", "ink", STROKE * 1.3),
        *(Line(along(fold, at, degrees, size), "ink", STROKE) for fold in FOLDS),
    )


def fist(x: float, y: float, degrees: float, size: float = 1.0) -> Shapes:
    """A hand closed round something in front of it; 0 degrees comes from the right."""
    at = (x, y)
    fingers = tuple(rounded(-5.0, -6.4 + 3.2 * i, 9.0, 3.4, 1.6) for i in range(4))
    back = rounded(0.5, -6.6, 11.0, 13.4, 3.4)
    return (
        Area(along(box(11.0, -4.6, 6.0, 9.4), at, degrees, size), "soft", "ink", STROKE),
        Area(along(back, at, degrees, size), "paper", "ink", STROKE * 1.3),
        *(Area(along(each, at, degrees, size), "paper", "ink", STROKE * 1.3) for each in fingers),
    )


FLAT: Points = (
    *arc(-7.2, 0.2, 1.3, 90, 270),
    *arc(-9.0, -2.2, 1.2, 90, 270),
    *arc(-8.4, -4.6, 1.2, 90, 270),
    *arc(-6.2, -6.8, 1.1, 90, 270),
    (3.0, -8.6),
    (10.0, -9.8),
    (12.6, -3.4),
    (5.0, 1.5),
)


def flat_hand(x: float, y: float, size: float = 1.0) -> Shapes:
    """A flat hand that sweeps to the left, its fingertips at a point."""
    at, knuckles = (x, y), ((-2.0, -0.9), (-2.4, -3.3), (-1.8, -5.6))
    folds = (((px, py), (px - 4.5, py)) for px, py in knuckles)
    return (
        Area(along(((9.4, -10.4), (13.6, -2.2), (17.6, -4.2), (13.6, -12.6)), at, 0, size), "soft"),
        Area(along(FLAT, at, 0, size), "paper", "ink", STROKE * 1.3),
        *(Line(along(fold, at, 0, size), "ink", STROKE) for fold in folds),
    )


def divider(x: float, top: float = 4.0, bottom: float = 44.0) -> Shapes:
    """A line between two pictures."""
    return (Line(((x, top), (x, bottom)), "soft", STROKE),)
