"""A variable-speed drill's dial, its hand on the speed asked for."""

from __future__ import annotations

from math import cos, radians, sin

from kiosk.core.units import SpindleSpeed
from kiosk.drawings.lettering import caption
from kiosk.drawings.outlines import STROKE, arrow
from kiosk.drawings.shapes import Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fit
from kiosk.drawings.values import Values

MIDDLE, RADIUS = (30.0, 20.0), 16.0
FIRST, SWEEP = 135.0, 270.0  # degrees clockwise from the right: the first mark, and to the last
MARKS = 9


def dial(values: Values, sheet: Sheet) -> Marks:
    """The knob between its slowest and fastest mark, and the speed under it."""
    speed, at = values.get("speed"), fit(sheet)
    share = _share(values, speed)
    shapes: Shapes = (
        *_marks(),
        Disc(*MIDDLE, RADIUS * 0.72, "steel", "ink", STROKE),
        *arrow(_at(share, 0.1), _at(share, 0.95), "action", 2.0, 5.0),
    )
    text = "" if speed is None else sheet.number(speed).replace("\u00a0", " ")
    x, y = at.at(30.0, 41.0)
    words = caption(x, y, text, sheet.width - 2, "middle", "action")
    return (*at.place(shapes), *(words if text else ()))


def _share(values: Values, speed: object) -> float:
    """How far round the hand stands, 0 at the slowest mark; half-way where it is not known."""
    slowest, fastest = values.get("slowest"), values.get("fastest")
    given = (speed, slowest, fastest)
    found = [each.rpm for each in given if isinstance(each, SpindleSpeed)]
    if len(found) < 3 or found[2] <= found[1]:
        return 0.5
    return min(1.0, max(0.0, (found[0] - found[1]) / (found[2] - found[1])))


def _marks() -> Shapes:
    ends = ((_at(i / (MARKS - 1), 0.84), _at(i / (MARKS - 1), 1.0)) for i in range(MARKS))
    return tuple(Line(each, "ink", STROKE) for each in ends)


def _at(share: float, out: float) -> tuple[float, float]:
    """A point so far round the dial and so far out of its middle."""
    angle = radians(FIRST + SWEEP * share)
    return MIDDLE[0] + RADIUS * out * cos(angle), MIDDLE[1] + RADIUS * out * sin(angle)
