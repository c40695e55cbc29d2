"""Outlines that many pictures need: boxes, arcs, arrows, and dimension lines."""

from __future__ import annotations

from math import cos, pi, radians, sin

from kiosk.drawings.lettering import LEAST_TEXT
from kiosk.drawings.shapes import Area, Label, Line, Shape

Point = tuple[float, float]
Points = tuple[Point, ...]

THIN = 0.3
STROKE = 0.55
BOLD = 1.1


def box(x: float, y: float, width: float, height: float) -> Points:
    """A rectangle from its top left corner."""
    return ((x, y), (x + width, y), (x + width, y + height), (x, y + height))


def rounded(x: float, y: float, width: float, height: float, radius: float) -> Points:
    """A rectangle with round corners."""
    r = min(radius, width / 2, height / 2)
    return (
        *arc(x + width - r, y + r, r, -90, 0),
        *arc(x + width - r, y + height - r, r, 0, 90),
        *arc(x + r, y + height - r, r, 90, 180),
        *arc(x + r, y + r, r, 180, 270),
    )


def arc(x: float, y: float, radius: float, start: float, end: float, tall: float = 1.0) -> Points:
    """Points of an arc between two angles in degrees, 0 to the right, clockwise on the sheet.

    `tall` stretches it up and down.
    """
    steps = max(4, round(abs(end - start) / 9))
    angles = (radians(start + (end - start) * i / steps) for i in range(steps + 1))
    return tuple((x + radius * cos(a), y + radius * tall * sin(a)) for a in angles)


def oval(x: float, y: float, across: float, down: float) -> Points:
    """An ellipse about its middle."""
    return arc(x, y, across / 2, 0, 360, down / across)[:-1]


def wave(x: float, bottom: float, top: float, swing: float) -> Points:
    """A line that rises and sways, as smoke does."""
    steps = 24
    return tuple(
        (x + swing * sin(2 * pi * i / steps * 1.25), bottom + (top - bottom) * i / steps)
        for i in range(steps + 1)
    )


def turned(points: Points, x: float, y: float, degrees: float) -> Points:
    """Points turned clockwise about a point."""
    c, s = cos(radians(degrees)), sin(radians(degrees))
    return tuple(
        (x + (px - x) * c - (py - y) * s, y + (px - x) * s + (py - y) * c) for px, py in points
    )


def arrow(
    start: Point, end: Point, colour: str = "action", width: float = BOLD, head: float = 3.2
) -> tuple[Shape, ...]:
    """A bold arrow: a stroke and a filled head with its tip at `end`."""
    return bent_arrow((start, end), colour, width, head)


def bent_arrow(
    points: Points, colour: str = "action", width: float = BOLD, head: float = 3.2
) -> tuple[Shape, ...]:
    """An arrow along points, its head at the last one."""
    tip, before = points[-1], points[-2]
    dx, dy = tip[0] - before[0], tip[1] - before[1]
    length = (dx * dx + dy * dy) ** 0.5 or 1.0
    ux, uy = dx / length, dy / length
    neck = (tip[0] - ux * head, tip[1] - uy * head)
    half = head * 0.55
    wings = (
        tip,
        (neck[0] - uy * half, neck[1] + ux * half),
        (neck[0] + uy * half, neck[1] - ux * half),
    )
    kept = tuple(p for p in points[:-1] if _apart(p, tip) > head * 0.9) or points[:1]
    return (Line((*kept, neck), colour, width), Area(wings, colour, colour, THIN))


def _apart(one: Point, other: Point) -> float:
    return float(((one[0] - other[0]) ** 2 + (one[1] - other[1]) ** 2) ** 0.5)


def upright(x: float, top: float, bottom: float, colour: str, width: float) -> tuple[Shape, ...]:
    """A dimension line up and down: a tick at each end, and heads where they have room."""
    tick, head = 1.4, 1.5
    ends = tuple(Line(((x - tick, y), (x + tick, y)), colour, width) for y in (top, bottom))
    line = Line(((x, top), (x, bottom)), colour, width)
    if bottom - top < 3 * head:
        return (line, *ends)
    heads = tuple(
        Line(((x - 0.9, y + way), (x, y), (x + 0.9, y + way)), colour, width)
        for y, way in ((top, head), (bottom, -head))
    )
    return (line, *ends, *heads)


def label(
    x: float,
    y: float,
    text: str,
    size: float = LEAST_TEXT,
    anchor: str = "middle",
    colour: str = "ink",
    bold: bool = False,
) -> Label:
    """A text whose capitals stand centred on the height `y`."""
    return Label(x, y + size / 2, text, size, anchor, colour, bold)
