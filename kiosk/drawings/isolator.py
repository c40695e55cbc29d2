"""The isolator: a little knob that points at O or at I."""

from __future__ import annotations

from kiosk.drawings.outlines import STROKE, THIN, arc, label, rounded
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted
from kiosk.drawings.values import Values

FRAME = (48.0, 48.0)
POINTS = {"off": (11.0, 27.0), "on": (27.0, 11.0)}  # where the knob points: O left, I up
EDGE = 1.3


def isolator(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The knob at the `position` given, at O where none is given.

    Any word but `off` and `on` shows the knob at neither, in broken lines: unknown is
    never drawn as off.
    """
    position = values.word("position", "off")
    plate = Area(rounded(2, 2, 44, 44, 5), "paper", "ink", EDGE)
    ring = Disc(27, 27, 13.5, "line", "ink", STROKE)
    return fitted((plate, ring, *_knob(position), *_signs(position, sheet)), sheet, FRAME)


def _knob(position: str) -> tuple[Shape, ...]:
    if position not in POINTS:
        return (Line(arc(27, 27, 10, 0, 360), "soft", 1.0, dash=True),)
    x, y = POINTS[position]
    stem = Line(((27, 27), (27 + (x - 27) * 0.72, 27 + (y - 27) * 0.72)), "ink", 6.0)
    return (stem, Disc(27, 27, 7, "ink", "ink", THIN))


def _signs(position: str, sheet: Sheet) -> tuple[Shape, ...]:
    """O and I as shapes, so that a small picture has them too; the chosen one stands out."""
    o = "ink" if position == "off" else "soft"
    i = "ink" if position == "on" else "soft"
    unknown = () if position in POINTS else (label(27, 27, "?", 8, bold=True),)
    return (
        Disc(8.2, 27, 2.6, "none", o, 1.4 if position == "off" else 0.8),
        Line(((27, 5.4), (27, 10.4)), i, 1.6 if position == "on" else 0.9),
        *unknown,
    )
