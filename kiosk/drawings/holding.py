"""The work held on the table, seen from above: in the vice or under clamps, and the table itself.

The work's width and length are to scale with each other.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.drawings.machine import column_view
from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arrow, box, rounded
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted
from kiosk.drawings.values import Values

TABLE = (56.0, 44.0)
MIDDLE = (30.0, 24.0)


@dataclass(frozen=True)
class Piece:
    """The work from above on the frame: how long (left to right) and how wide."""

    long: float
    wide: float
    fill: str


def clamps(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The work in the vice, or under two clamps, with the hole's mark in the middle."""
    if values.word("way", "vice") == "clamps":
        piece = _piece(values, longest=44.0, widest=24.0)
        return fitted((*_table(), *_outline(piece), *_straps(piece), *_mark()), sheet)
    piece = _piece(values, longest=54.0, widest=17.0)
    return fitted((*_table(), *_vice(piece)), sheet)


def table(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The table on its column, up and down, and its handle."""
    return fitted(column_view(), sheet)


def _piece(values: Values, longest: float, widest: float) -> Piece:
    length = values.length("work_length", 120.0)
    width = values.length("work_width", 40.0)
    long, wide = max(length, width), min(length, width)
    scale = min(longest / long, widest / wide)
    return Piece(long * scale, wide * scale, values.fill)


def _table() -> tuple[Shape, ...]:
    left, top = MIDDLE[0] - TABLE[0] / 2, MIDDLE[1] - TABLE[1] / 2
    slots = tuple(
        Area(rounded(left + 4, top + y, TABLE[0] - 8, 2.6, 1.3), "line", "line", THIN)
        for y in (3.2, TABLE[1] - 5.8)
    )
    return (Area(rounded(left, top, *TABLE, 2.5), "paper", "ink", STROKE), *slots)


def _outline(piece: Piece) -> tuple[Shape, ...]:
    x, y = MIDDLE[0] - piece.long / 2, MIDDLE[1] - piece.wide / 2
    return (Area(box(x, y, piece.long, piece.wide), piece.fill, "ink", STROKE),)


def _mark() -> tuple[Shape, ...]:
    x, y = MIDDLE
    return (
        Line(((x - 2.6, y), (x + 2.6, y)), "ink", STROKE),
        Line(((x, y - 2.6), (x, y + 2.6)), "ink", STROKE),
    )


def _straps(piece: Piece) -> tuple[Shape, ...]:
    """Two clamps from the slots over the ends of the work, their nuts in the action colour."""
    inset = min(6.0, piece.long * 0.2)
    shapes: list[Shape] = []
    for x, slot_y, sign in (
        (MIDDLE[0] - piece.long / 2 + inset, 6.5, 1),
        (MIDDLE[0] + piece.long / 2 - inset, 41.5, -1),
    ):
        edge = MIDDLE[1] - sign * (piece.wide / 2 - min(4.0, piece.wide * 0.35))
        shapes += _strap(x, slot_y - sign * 2.5, edge)
        shapes += _nut(x, slot_y + sign * 2.4)
    return tuple(shapes)


def _strap(x: float, start: float, end: float) -> tuple[Shape, ...]:
    top, tall = min(start, end), abs(end - start)
    return (Area(rounded(x - 2.8, top, 5.6, tall, 2.0), "soft", "ink", STROKE),)


def _nut(x: float, y: float) -> tuple[Shape, ...]:
    return (
        Disc(x, y, 2.0, "action", "paper", 0.5),
        Disc(x, y, 0.7, "paper", "paper", THIN),
    )


def _vice(piece: Piece) -> tuple[Shape, ...]:
    """Fixed jaw above, moving jaw below, the screw and its handle, bolts in the slots."""
    x, y = MIDDLE
    half = piece.wide / 2
    above, below = y - half, y + half
    return (
        Area(rounded(x - 17, above - 9, 34, piece.wide + 17, 1.5), "line", "ink", STROKE),
        *_lug(x - 20.5, above - 5.6),
        *_lug(x + 20.5, above - 5.6),
        Area(box(x - 15, above - 6.5, 30, 6.5), "soft", "ink", STROKE),
        Area(box(x - 15, below, 30, 5.5), "soft", "ink", STROKE),
        Area(_screw(x, below + 5.5), "soft", "ink", STROKE),
        *_outline(piece),
        *_mark(),
        *_handle(x, min(46.6, below + 10.6)),
    )


def _lug(x: float, y: float) -> tuple[Shape, ...]:
    return (Area(rounded(x - 4.5, y - 3.2, 9, 6.4, 2.6), "line", "ink", STROKE), *_nut(x, y))


def _screw(x: float, top: float) -> Points:
    return box(x - 1.3, top, 2.6, 5.0)


def _handle(x: float, y: float) -> tuple[Shape, ...]:
    return (
        Line(((x - 9, y), (x + 9, y)), "ink", BOLD),
        Disc(x - 9, y, 1.2, "ink", "ink", THIN),
        Disc(x + 9, y, 1.2, "ink", "ink", THIN),
    )


def push(x: float, y: float) -> tuple[Shape, ...]:
    """Two arrows that push the work from both sides."""
    return (*arrow((x - 12, y), (x - 4, y)), *arrow((x + 12, y), (x + 4, y)))
