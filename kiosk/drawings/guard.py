"""The chuck guard down over the chuck and bit, with the fluid's brush or the hose where asked."""

from __future__ import annotations

from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_body
from kiosk.drawings.clearing import fluid_brush, nozzle_at
from kiosk.drawings.gripping import drawn_width
from kiosk.drawings.outlines import BOLD, STROKE, arrow, box, rounded
from kiosk.drawings.shapes import Area, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted, moved
from kiosk.drawings.values import Values


def guard(values: Values, sheet: Sheet) -> Marks:
    """The clear guard in front of chuck and bit, an arrow down beside it."""
    wide = drawn_width(values) * 0.8
    keyed, x = values.word("chuck", "keyed") != "keyless", 5.0 if _is_dusty(values) else 54.0
    inside = (*bit(values, 18, 26, 41, wide), *chuck_body(18, -1, keyed, gap=wide))
    return fitted(
        (
            Area(rounded(12, 8, 29, 34, 2), "plastic", "action", BOLD),
            *moved(inside, 9.5, 0, 0.95),
            *_rim(),
            Area(box(4, 43, 45, 4.4), values.fill, "ink", STROKE),
            *_beside(values),
            *arrow((x, 12), (x, 38), "action", 1.8, 5.2),
        ),
        sheet,
    )


def _beside(values: Values) -> Shapes:
    """What else is done at the work: a drop of cutting fluid, or the hose at the bit."""
    if values.word("fluid", "none") == "cutting fluid":
        return fluid_brush(20, 42.6)
    return moved(nozzle_at(0, 0), 42, 42.2, 0.68) if _is_dusty(values) else ()


def _is_dusty(values: Values) -> bool:
    return values.word("dust", "no") == "yes"


def _rim() -> Shapes:
    """Shine on the clear front, and the bar it swings on."""
    shine = ((14.5, 24), (14.5, 37.5)), ((38.5, 24), (38.5, 37.5))
    return (
        Area(rounded(8, 6.5, 37, 3.4, 1.7), "action", "ink", STROKE),
        *(Line(each, "paper", 0.9) for each in shine),
    )
