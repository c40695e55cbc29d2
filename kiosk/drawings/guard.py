"""The chuck guard down over the chuck and bit."""

from __future__ import annotations

from kiosk.drawings.chuck import chuck_body
from kiosk.drawings.outlines import BOLD, STROKE, arrow, bit, box, rounded
from kiosk.drawings.shapes import Area, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted, moved
from kiosk.drawings.values import Values


def guard(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The clear guard in front of chuck and bit, an arrow down beside it."""
    inside = moved((*bit(18, 27, 38, 4.4), *chuck_body(18, 0)), 9.5, 0, 0.95)
    return fitted(
        (
            Area(rounded(12, 8, 29, 33, 2), "plastic", "action", BOLD),
            *inside,
            *_rim(),
            Area(box(4, 43.5, 45, 4), values.fill, "ink", STROKE),
            *arrow((52, 10), (52, 36)),
        ),
        sheet,
    )


def _rim() -> tuple[Shape, ...]:
    """Shine on the clear front, and the bar it swings on."""
    shine = ((14.5, 24), (14.5, 37.5)), ((38.5, 24), (38.5, 37.5))
    return (
        Area(rounded(8, 6.5, 37, 3.4, 1.7), "action", "action", STROKE),
        *(Line(each, "paper", 0.9) for each in shine),
    )
