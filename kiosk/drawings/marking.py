"""The mark on the work, the bit on the mark, and the next mark under it."""

from __future__ import annotations

from kiosk.drawings.bits import bit
from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arrow, oval, rounded, turned
from kiosk.drawings.shapes import Area, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fit, fitted, moved
from kiosk.drawings.signs import divider, verdict
from kiosk.drawings.values import Values

MARK = (28.0, 33.0)  # where the lines cross on the frame
WIDE = 6.0  # of the bit on the frame


def mark(values: Values, sheet: Sheet) -> Marks:
    """The cross on the work with the tool the material wants: punch, pencil or felt pen."""
    way = values.word("marking", "centre punch")
    tool = punch() if way == "centre punch" else pen(way == "pencil")
    return fitted((*plate(values.fill), *crossed_lines(), *tool), sheet)


def on_mark(values: Values, sheet: Sheet) -> Marks:
    """The tip of the bit on the cross, right; beside it, wrong."""
    at, small = fit(sheet), 0.52
    shapes = (
        *moved(_under_bit(values, 0.0), -1.5, 11, small),
        *moved(_under_bit(values, 12.0), 29.5, 11, small),
        *arrow((5.6, 13), (5.6, 22), "action", 1.4, 4.0),
        *divider(30),
    )
    right, wrong = verdict(at, sheet, 14.5, 43, True), verdict(at, sheet, 45.5, 43, False)
    return (*at.place(shapes), *right, *wrong)


def _under_bit(values: Values, aside: float) -> Shapes:
    """The work with its mark, the bit's tip on it or aside of it."""
    x, y = MARK
    tip = (*bit(values, x + aside, -14, y, WIDE * 1.5),)
    return (*plate(values.fill), *crossed_lines(), *tip)


def plate(fill: str) -> Shapes:
    """The work as seen from above and in front."""
    top = ((12, 24), (58, 24), (48, 42), (2, 42))
    front = ((2, 42), (48, 42), (48, 46.5), (2, 46.5))
    side = ((48, 42), (58, 24), (58, 28.5), (48, 46.5))
    return (
        Area(front, fill, "ink", STROKE),
        Area(side, "line", "ink", STROKE),
        Area(top, fill, "ink", STROKE),
    )


def crossed_lines() -> Shapes:
    """Two lines that cross on the work, and the dent or dot where they do."""
    x, y = MARK
    return (
        Line(((x - 15, y), (x + 17, y)), "ink", STROKE * 1.4),
        Line(((x + 4.4, y - 8), (x - 4.4, y + 8)), "ink", STROKE * 1.4),
        Area(oval(x, y, 2.6, 1.7), "action", "action", THIN),
    )


def punch() -> Shapes:
    """A centre punch upright on the mark and a hammer over it."""
    x, y = MARK
    body = ((x, y), (x - 2, y - 5), (x - 2, y - 17), (x + 2, y - 17), (x + 2, y - 5))
    head = rounded(x - 4.5, 3.5, 9, 7.5, 1.2)
    handle = rounded(x + 4, 5.6, 26, 3.4, 1.6)
    return (
        Area(body, "action", "ink", STROKE),
        Area(turned(handle, x, 7, -8), "wood", "ink", STROKE),
        Area(turned(head, x, 7, -8), "soft", "ink", STROKE),
    )


def pen(is_pencil: bool) -> Shapes:
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
    return parts if is_pencil else (*parts, Line(turned(band, x, y, 32), "paper", BOLD))
