"""Pictures of trouble, touched as buttons: few bold shapes, no text.

They are made on a low frame so that they fill a button.
"""

from __future__ import annotations

from kiosk.drawings.bits import plain_bit
from kiosk.drawings.isolator import plug, socket
from kiosk.drawings.outlines import Points, arc, bent_arrow, box, rounded, turned, wave
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted
from kiosk.drawings.values import Values

FRAME = (52.0, 36.0)
EDGE = 1.2
HEAVY = 2.2


def bit_broken(values: Values, sheet: Sheet) -> Marks:
    """A bit in two pieces."""
    upper: Points = ((19, 1), (27, 1), (27, 13), (24.5, 10.5), (22, 15.5), (19, 12))
    lower = ((19, 15), (22, 18.5), (24.5, 13.5), (27, 16), (27, 28), (23, 32), (19, 28))
    dropped = turned(tuple((x + 8, y + 2) for x, y in lower), 31, 24, 34)
    marks = (((15, 15), (10, 12)), ((15, 19), (9, 20)), ((31, 10), (36, 7)))
    return _fit(
        (
            Area(upper, "bit", "bit", 0.4),
            Area(dropped, "bit", "bit", 0.4),
            *(Line(each, "stop", HEAVY) for each in marks),
        ),
        sheet,
    )


def bit_jammed(values: Values, sheet: Sheet) -> Marks:
    """A bit stuck fast in the work, its turning struck out."""
    turn = arc(26, 9, 15, 150, 372, 0.42)
    return _fit(
        (
            Area(box(3, 18, 46, 16), "steel", "ink", EDGE),
            *plain_bit(26, 1, 31, 9),
            *bent_arrow(turn, "ink", 1.8, 5),
            Line(((12, 2), (40, 16)), "stop", HEAVY),
            Line(((40, 2), (12, 16)), "stop", HEAVY),
        ),
        sheet,
    )


def work_spun(values: Values, sheet: Sheet) -> Marks:
    """The work torn round with the bit, clockwise from above."""
    plate = rounded(8, 12, 36, 12, 0.6)
    return _fit(
        (
            Area(plate, "paper", "soft", EDGE * 0.6),
            Area(turned(plate, 26, 18, 28), "steel", "ink", EDGE),
            Disc(26, 18, 4, "bit", "bit", 0.4),
            *bent_arrow(arc(26, 18, 16.5, -62, -8), "stop", HEAVY, 5),
            *bent_arrow(arc(26, 18, 16.5, 118, 172), "stop", HEAVY, 5),
        ),
        sheet,
    )


def smoke(values: Values, sheet: Sheet) -> Marks:
    """A bit in the work with smoke beside it."""
    return _fit(
        (
            Area(box(3, 24, 46, 10), "wood", "ink", EDGE),
            *plain_bit(26, 1, 32, 8),
            *(Line(wave(x, 22.5, 3, 2.4), "soft", HEAVY) for x in (11, 17.5, 35.5, 42)),
        ),
        sheet,
    )


def hurt(values: Values, sheet: Sheet) -> Marks:
    """A hand with a cut finger."""
    tops = ((15.2, 9), (21.0, 4.5), (26.8, 3.5), (32.6, 6.5))
    fingers = tuple(Area(rounded(x, top, 5.0, 22, 2.5), "paper", "ink", EDGE) for x, top in tops)
    thumb = turned(rounded(32, 14, 5.6, 16, 2.8), 35, 29, 48)
    palm = rounded(15.2, 17, 22.4, 17.5, 4.5)
    inside = rounded(16.2, 14, 20.4, 16, 3)
    return _fit(
        (
            Area(thumb, "paper", "ink", EDGE),
            *fingers,
            Area(palm, "paper", "ink", EDGE),
            Area(inside, "paper", "none", 0),
            Line(((21.2, 9.5), (26.0, 12)), "stop", HEAVY),
            Area(_drop(10, 13), "stop", "stop", 0.4),
        ),
        sheet,
    )


def alarm(values: Values, sheet: Sheet) -> Marks:
    """A bell that rings."""
    bell = (
        *arc(26, 14, 9.5, 180, 360),
        (37, 25),
        (39.5, 28),
        (12.5, 28),
        (15, 25),
    )
    waves = tuple(
        Line(arc(26, 15, r, a, b), "stop", HEAVY)
        for r in (16, 22)
        for a, b in ((152, 200), (-20, 28))
    )
    return _fit(
        (
            Disc(26, 3.5, 2.2, "caution", "ink", EDGE),
            Disc(26, 29.6, 3.4, "ink", "ink", 0.4),
            Area(bell, "caution", "ink", EDGE),
            *waves,
        ),
        sheet,
    )


def power(values: Values, sheet: Sheet) -> Marks:
    """A plug apart from its socket: no power."""
    return _fit(
        (
            *plug(12, 16, 0.9),
            *socket(32, 8, 0.9),
            *(Line(each, "stop", HEAVY) for each in (((24, 8), (28.5, 26)), ((28.5, 8), (24, 26)))),
        ),
        sheet,
    )


def gone(values: Values, sheet: Sheet) -> Marks:
    """An empty place where the pupil was, and the way they went."""
    body = (*arc(16, 24, 8, 180, 360), (24, 34.5), (8, 34.5), (8, 24))
    head = arc(16, 8.5, 5.4, 0, 360)
    return _fit(
        (
            Line(body, "soft", 1.5, dash=True),
            Line(head, "soft", 1.5, dash=True),
            *bent_arrow(((27, 20), (47, 20)), "stop", HEAVY, 6),
        ),
        sheet,
    )


def _drop(x: float, top: float) -> Points:
    return ((x, top), *arc(x, top + 7, 3.4, -25, 205))


def _fit(shapes: Shapes, sheet: Sheet) -> Shapes:
    return fitted(shapes, sheet, FRAME)
