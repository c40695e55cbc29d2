"""The mark on the work, and the bit on the mark."""

from __future__ import annotations

from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arrow, bit, oval, rounded, turned
from kiosk.drawings.shapes import Area, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted
from kiosk.drawings.values import Values

MARK = (28.0, 33.0)  # where the lines cross on the frame


def mark(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The cross on the work with the tool the material wants: punch, pencil or felt pen."""
    way = values.word("marking", "centre punch")
    tool = _punch() if way == "centre punch" else _pen(way == "pencil")
    return fitted((*_plate(values.fill), *_cross(), *tool), sheet)


def on_mark(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The tip of the bit on the cross, with the line it comes down."""
    x, y = MARK
    return fitted(
        (
            *_plate(values.fill),
            *_cross(),
            *bit(x, 1, y, 7, values.point_angle),
            *arrow((x + 12, 6), (x + 12, 18)),
        ),
        sheet,
    )


def _plate(fill: str) -> tuple[Shape, ...]:
    """The work as seen from above and in front."""
    top = ((12, 24), (58, 24), (48, 42), (2, 42))
    front = ((2, 42), (48, 42), (48, 46.5), (2, 46.5))
    side = ((48, 42), (58, 24), (58, 28.5), (48, 46.5))
    return (
        Area(front, fill, "ink", STROKE),
        Area(side, "line", "ink", STROKE),
        Area(top, fill, "ink", STROKE),
    )


def _cross() -> tuple[Shape, ...]:
    x, y = MARK
    return (
        Line(((x - 15, y), (x + 17, y)), "ink", STROKE),
        Line(((x + 4.4, y - 8), (x - 4.4, y + 8)), "ink", STROKE),
        Area(oval(x, y, 2.6, 1.7), "action", "action", THIN),
    )


def _punch() -> tuple[Shape, ...]:
    """A centre punch upright on the mark and a hammer over it."""
    x, y = MARK
    body = ((x, y), (x - 2, y - 5), (x - 2, y - 17), (x + 2, y - 17), (x + 2, y - 5))
    head = rounded(x - 4.5, 3.5, 9, 7.5, 1.2)
    handle = rounded(x + 4, 5.6, 26, 3.4, 1.6)
    return (
        Area(body, "action", "action", STROKE),
        Area(turned(handle, x, 7, -8), "wood", "ink", STROKE),
        Area(turned(head, x, 7, -8), "soft", "ink", STROKE),
    )


def _pen(is_pencil: bool) -> tuple[Shape, ...]:
    """A pencil, or a felt pen, that points at the mark from above right."""
    x, y = MARK
    tip = ((x, y), (x - 2.4, y - 6), (x + 2.4, y - 6))
    lead = ((x, y), (x - 0.9, y - 2.2), (x + 0.9, y - 2.2))
    body = rounded(x - 2.4, y - 26, 4.8, 20.2, 0.6 if is_pencil else 1.6)
    parts = (
        Area(turned(body, x, y, 32), "action" if is_pencil else "soft", "ink", STROKE),
        Area(turned(tip, x, y, 32), "wood" if is_pencil else "paper", "ink", STROKE),
        Area(turned(lead, x, y, 32), "ink", "ink", THIN),
    )
    band: Points = ((x - 2.4, y - 10), (x + 2.4, y - 10))
    return parts if is_pencil else (*parts, Line(turned(band, x, y, 32), "ink", BOLD))
