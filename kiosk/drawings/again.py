"""The next hole on one screen: on its mark, pushed, the trial stroke, the guard down."""

from __future__ import annotations

from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_body
from kiosk.drawings.lettering import LEAST_TEXT
from kiosk.drawings.marking import WIDE, crossed_lines, plate
from kiosk.drawings.outlines import BOLD, STROKE, arrow, box, label, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fit, moved
from kiosk.drawings.signs import up_and_down
from kiosk.drawings.values import Values

PANEL = (29.0, 23.0)


def next_hole(values: Values, sheet: Sheet) -> Marks:
    """Four small pictures, numbered in the order they are done."""
    parts = (_on_mark(values), _pushed(values), _stroke(values), _guarded(values))
    places = ((0.0, 0.0), (31.0, 0.0), (0.0, 25.0), (31.0, 25.0))
    at = fit(sheet)
    shapes = tuple(
        shape
        for part, (x, y) in zip(parts, places, strict=True)
        for shape in moved((_frame(), *part), x, y)
    )
    numbers: Marks = ()
    for count, (x, y) in enumerate(places, start=1):
        left, top = at.at(x + 3.6, y + 3.6)
        numbers += (Disc(left, top, 3.2, "action", "paper", 0.5),)
        numbers += (label(left, top, str(count), LEAST_TEXT, colour="paper", bold=True),)
    return (*at.place(shapes), *(numbers if not sheet.small else ()))


def _frame() -> Area:
    return Area(rounded(0, 0, *PANEL, 1.5), "paper", "soft", 0.4)


def _on_mark(values: Values) -> Shapes:
    x, y = 28.0, 33.0
    whole = (*plate(values.fill), *crossed_lines(), *bit(values, x, 2, y, WIDE * 1.3))
    return moved(whole, 3.0, 1.0, 0.44)


def _pushed(values: Values) -> Shapes:
    """The work seen from above with an arrow on it from each side."""
    return (
        Area(box(9.5, 7.5, 10, 9), values.fill, "ink", STROKE),
        Area(box(7.5, 4.2, 14, 3.3), "soft", "ink", STROKE),
        Area(box(7.5, 16.5, 14, 3.3), "soft", "ink", STROKE),
        *arrow((1.5, 12), (8.6, 12), "action", 1.6, 3.6),
        *arrow((27.5, 12), (20.4, 12), "action", 1.6, 3.6),
    )


def _stroke(values: Values) -> Shapes:
    return (
        Area(box(3, 17, 17, 4), values.fill, "ink", STROKE),
        *bit(values, 11.5, 2.5, 15.5, 3.6),
        *up_and_down(24.5, 3, 17),
    )


def _guarded(values: Values) -> Shapes:
    inside = moved((*bit(values, 0, 26, 36, 4.0), *chuck_body(0, 0)), 14.8, 2.0, 0.36)
    return (
        Area(box(5.3, 18.5, 19, 3), values.fill, "ink", STROKE),
        Area(rounded(8.8, 4.5, 12, 13.4, 1), "plastic", "action", 0.8),
        *inside,
        Line(((8.3, 4.5), (21.3, 4.5)), "action", BOLD),
        *arrow((26.2, 4), (26.2, 18.5), "action", 1.4, 3.6),
    )
