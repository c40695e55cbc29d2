"""The isolator, a little knob that points at O or at I; the plug and its socket."""

from __future__ import annotations

from kiosk.drawings.outlines import (
    STROKE,
    THIN,
    arc,
    arrow,
    bent_arrow,
    label,
    rounded,
)
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted
from kiosk.drawings.values import Values

FRAME = (48.0, 48.0)
POINTS = {"off": (11.0, 27.0), "on": (27.0, 11.0)}  # where the knob points: O left, I up
EDGE = 1.3


def isolator(values: Values, sheet: Sheet) -> Marks:
    """The knob at the `position` given; where none is, at O with the way from I to it.

    Any word but `off` and `on` shows the knob at neither, in broken lines: unknown is
    never drawn as off.
    """
    position = values.word("position", "off")
    turn = () if values.get("position") else bent_arrow(arc(27, 27, 17, -62, -152), "action", 2, 5)
    plate = Area(rounded(2, 2, 44, 44, 5), "paper", "ink", EDGE)
    ring = Disc(27, 27, 13.5, "line", "ink", STROKE)
    shapes = (plate, ring, *_knob(position), *_signs(position), *turn)
    return fitted(shapes, sheet, FRAME)


def isolator_at_o() -> Shapes:
    """The knob at O on the frame, with no way to turn it."""
    plate = Area(rounded(2, 2, 44, 44, 5), "paper", "ink", EDGE)
    ring = Disc(27, 27, 13.5, "line", "ink", STROKE)
    return (plate, ring, *_knob("off"), *_signs("off"))


def _knob(position: str) -> Shapes:
    if position not in POINTS:
        return (Line(arc(27, 27, 10, 0, 360), "soft", 1.0, dash=True),)
    x, y = POINTS[position]
    stem = Line(((27, 27), (27 + (x - 27) * 0.72, 27 + (y - 27) * 0.72)), "ink", 6.0)
    return (stem, Disc(27, 27, 7, "ink", "ink", THIN))


def _signs(position: str) -> Shapes:
    """O and I as shapes, so that a small picture has them too; the chosen one stands out."""
    o = "ink" if position == "off" else "soft"
    i = "ink" if position == "on" else "soft"
    unknown = () if position in POINTS else (label(27, 27, "?", 8, bold=True),)
    return (
        Disc(8.2, 27, 2.6, "none", o, 1.4 if position == "off" else 0.8),
        Line(((27, 5.4), (27, 10.4)), i, 1.6 if position == "on" else 0.9),
        *unknown,
    )


def plug_out(values: Values, sheet: Sheet) -> Marks:
    """The plug pulled out of its socket and lying in sight."""
    return fitted(
        (
            *socket(38, 9, 1.15),
            *plug(20, 21, 1.15),
            *arrow((36, 40), (12, 40), "action", 1.8, 5.2),
        ),
        sheet,
        (60.0, 46.0),
    )


def plug(x: float, y: float, size: float = 1.0) -> Shapes:
    """A plug seen from the side, its pins to the right, its cord to the left."""
    s = size
    body = (*arc(x, y, 8 * s, 90, 270), (x + 4 * s, y - 8 * s), (x + 4 * s, y + 8 * s))
    return (
        Line(((x - 15 * s, y), (x - 8 * s, y)), "ink", 2.2),
        Line(((x + 5 * s, y - 4 * s), (x + 11 * s, y - 4 * s)), "ink", 2.2),
        Line(((x + 5 * s, y + 4 * s), (x + 11 * s, y + 4 * s)), "ink", 2.2),
        Area(body, "soft", "ink", 1.2),
    )


def socket(x: float, y: float, size: float = 1.0) -> Shapes:
    """A socket in the wall, its slots at the height of the plug's pins."""
    s = size
    return (
        Area(rounded(x, y, 13 * s, 20 * s, 2.5), "paper", "ink", 1.2),
        Line(((x + 3.5 * s, y + 6.4 * s), (x + 8 * s, y + 6.4 * s)), "ink", 2.0),
        Line(((x + 3.5 * s, y + 14.4 * s), (x + 8 * s, y + 14.4 * s)), "ink", 2.0),
    )
