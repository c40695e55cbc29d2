"""The isolator, a little knob that points at O or at I; the plug and its socket."""

from __future__ import annotations

from kiosk.drawings.outlines import (
    STROKE,
    THIN,
    arc,
    arrow,
    bent_arrow,
    box,
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
            *socket(34, 4, 1.15),
            *plug(14, 15.5, 1.15),
            *arrow((46, 40), (20, 40), "action", 1.8, 5.2),
        ),
        sheet,
        (60.0, 46.0),
    )


def plug(x: float, y: float, size: float = 1.0) -> Shapes:
    """A three-pin plug seen on its pins, earth on top, and its cord below."""
    s = size
    body = (
        *arc(x - 5 * s, y - 4 * s, 4 * s, 180, 270),
        *arc(x + 5 * s, y - 4 * s, 4 * s, 270, 360),
        (x + 9 * s, y + 4 * s),
        (x + 5 * s, y + 9 * s),
        (x - 5 * s, y + 9 * s),
        (x - 9 * s, y + 4 * s),
    )
    return (
        Line(((x, y + 8 * s), (x, y + 14 * s)), "ink", 2.4 * s),
        Area(body, "soft", "ink", 1.2),
        *_three(x, y, s, "paper"),
    )


def socket(x: float, y: float, size: float = 1.0) -> Shapes:
    """A socket in the wall with its three slots, from its top left corner."""
    s = size
    plate = Area(rounded(x, y, 20 * s, 20 * s, 2.5 * s), "paper", "ink", 1.2)
    return (plate, *_three(x + 10 * s, y + 10 * s, s, "ink"))


def _three(x: float, y: float, s: float, fill: str) -> Shapes:
    """Three pins or slots about a point: earth upright on top, the other two level."""
    return (
        Area(box(x - 1.4 * s, y - 7 * s, 2.8 * s, 5.4 * s), fill, "ink", THIN),
        *(
            Area(box(x + way * 4.8 * s - 2.1 * s, y + 2.2 * s, 4.2 * s, 2.8 * s), fill, "ink", THIN)
            for way in (-1, 1)
        ),
    )
