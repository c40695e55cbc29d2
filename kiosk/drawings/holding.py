"""The work held on the table, seen from above, with its size; pushed; and taken out.

The work's width and length are to scale with each other.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.units import Length
from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_body
from kiosk.drawings.gripping import drawn_width
from kiosk.drawings.lettering import LEAST_TEXT, caption
from kiosk.drawings.marking import plate
from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arrow, box, oval, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Fit, Marks, Shapes, Sheet, fit, moved
from kiosk.drawings.signs import fist
from kiosk.drawings.values import Values

TABLE = (56.0, 40.0)
MIDDLE = (30.0, 21.0)
FOOT = 45.6  # where the length is written, under the table
ROUND = ("round bar", "tube")


@dataclass(frozen=True)
class Piece:
    """The work from above on the frame: how long (left to right) and how wide."""

    long: float
    wide: float
    fill: str
    is_round: bool = False


def clamps(values: Values, sheet: Sheet) -> Marks:
    """The work in the vice, under two clamps, or a round one in a V-block in the vice; its size."""
    at = fit(sheet)
    return (*at.place(_held(values)), *_size(values, at, sheet))


def push(values: Values, sheet: Sheet) -> Marks:
    """Two fists that push the held work from both sides."""
    x, y = MIDDLE
    half = _piece_of(values, 30.0, 24.0 if _is_clamped(values) else 17.0).long / 2
    pushing = (
        *fist(x - half - 3.3, y, 180, 0.62),
        *fist(x + half + 3.3, y, 0, 0.62),
        *arrow((x - half - 13, y + 9), (x - half - 3, y + 9), "action", 1.8, 5.0),
        *arrow((x + half + 13, y + 9), (x + half + 3, y + 9), "action", 1.8, 5.0),
    )
    return fit(sheet, (60.0, 42.0)).place((*_held(values, longest=30.0), *pushing))


def work_out(values: Values, sheet: Sheet) -> Marks:
    """The drilled work taken away from under the bit, which stands still, the guard lifted."""
    wide = drawn_width(values) * 0.7
    keyed = values.word("chuck", "keyed") != "keyless"
    still = (*bit(values, 13, 26, 38, wide), *chuck_body(13, 0, keyed, gap=wide))
    hole = (Area(oval(28, 33, 7.5, 4.2), "ink", "ink", THIN),)
    shapes = (
        Area(rounded(1, 42, 58, 4, 1), "steel", "ink", STROKE),
        *moved(still, 0, 1, 0.86),
        *moved((*plate(values.fill), *hole), 15.5, 14, 0.52),
        *fist(46.5, 31, 8, 0.76),
        *arrow((28, 17), (50, 17), "action", 1.8, 5.2),
    )
    return fit(sheet, (60.0, 47.0)).place(shapes)


def _held(values: Values, longest: float = 54.0) -> Shapes:
    piece = _piece_of(values, longest, 24.0 if _is_clamped(values) else 17.0)
    if _is_clamped(values):
        return (*_table(), *_outline(piece), *_straps(piece), *_mark())
    return (*_table(), *_vice(piece))


def _is_clamped(values: Values) -> bool:
    return values.word("way", "vice") == "clamps"


def _piece_of(values: Values, longest: float = 54.0, widest: float = 17.0) -> Piece:
    longest = min(longest, 44.0) if _is_clamped(values) else longest
    length = values.length("work_length", 120.0)
    width = values.length("work_width", 40.0)
    long, wide = max(length, width), min(length, width)
    scale = min(longest / long, widest / wide)
    is_round = values.word("shape", "bar") in ROUND
    return Piece(long * scale, wide * scale, values.fill, is_round)


def _size(values: Values, at: Fit, sheet: Sheet) -> Marks:
    """The work's length and width under the table, as `120 mm × 40 mm`."""
    sides = [values.maybe_length(f"work_{side}") for side in ("length", "width")]
    mm = sorted((side for side in sides if side is not None), reverse=True)
    texts = [sheet.number(Length(each), sheet.width * 0.4) for each in mm]
    x, y = at.at(MIDDLE[0], FOOT)
    low = min(y, sheet.height - LEAST_TEXT / 2 - 1.8)
    return caption(x, low, " × ".join(texts), sheet.width - 2, lines=1) if texts else ()


# --- the table, the work and its clamps ---


def _table() -> Shapes:
    left, top = MIDDLE[0] - TABLE[0] / 2, MIDDLE[1] - TABLE[1] / 2
    slots = tuple(
        Area(rounded(left + 4, top + y, TABLE[0] - 8, 2.6, 1.3), "line", "soft", THIN)
        for y in (2.4, TABLE[1] - 5.0)
    )
    return (Area(rounded(left, top, *TABLE, 2.5), "paper", "ink", STROKE), *slots)


def _outline(piece: Piece) -> Shapes:
    x, y = MIDDLE[0] - piece.long / 2, MIDDLE[1] - piece.wide / 2
    body = Area(box(x, y, piece.long, piece.wide), piece.fill, "ink", STROKE)
    if not piece.is_round:
        return (body,)
    shine = (MIDDLE[1] - piece.wide * 0.26, MIDDLE[1] + piece.wide * 0.3)
    ends = (x + 1, x + piece.long - 1)
    return (body, *(Line(((ends[0], s), (ends[1], s)), "soft", THIN) for s in shine))


def _mark() -> Shapes:
    x, y = MIDDLE
    return (
        Line(((x - 2.6, y), (x + 2.6, y)), "ink", STROKE),
        Line(((x, y - 2.6), (x, y + 2.6)), "ink", STROKE),
    )


def _straps(piece: Piece) -> Shapes:
    """Two clamps from the slots over the ends of the work, their nuts in the action colour."""
    inset = min(6.0, piece.long * 0.2)
    top, bottom = MIDDLE[1] - TABLE[1] / 2 + 3.7, MIDDLE[1] + TABLE[1] / 2 - 3.7
    found: Shapes = ()
    for x, slot, sign in (
        (MIDDLE[0] - piece.long / 2 + inset, top, 1),
        (MIDDLE[0] + piece.long / 2 - inset, bottom, -1),
    ):
        edge = MIDDLE[1] - sign * (piece.wide / 2 - min(4.0, piece.wide * 0.35))
        found += (*_strap(x, slot - sign * 2.5, edge), *_nut(x, slot + sign * 2.0))
    return found


def _strap(x: float, start: float, end: float) -> Shapes:
    top, tall = min(start, end), abs(end - start)
    return (Area(rounded(x - 2.8, top, 5.6, tall, 2.0), "soft", "ink", STROKE),)


def _nut(x: float, y: float) -> Shapes:
    return (Disc(x, y, 2.0, "action", "paper", 0.5), Disc(x, y, 0.7, "paper", "paper", THIN))


# --- the vice ---


def _vice(piece: Piece) -> Shapes:
    """Fixed jaw above, moving jaw below, the screw and its handle, bolts in the slots."""
    x, y = MIDDLE
    above, below = y - piece.wide / 2, y + piece.wide / 2
    return (
        Area(rounded(x - 17, above - 8, 34, piece.wide + 16, 1.5), "line", "ink", STROKE),
        *_lug(x - 20.5, above - 5.0),
        *_lug(x + 20.5, above - 5.0),
        Area(box(x - 15, above - 6.0, 30, 6.0), "soft", "ink", STROKE),
        Area(box(x - 15, below, 30, 5.5), "soft", "ink", STROKE),
        *(_v_block(piece) if piece.is_round else ()),
        Area(_screw(x, below + 5.5), "soft", "ink", STROKE),
        *_outline(piece),
        *_mark(),
        *_handle(x, min(39.6, below + 10.0)),
    )


def _v_block(piece: Piece) -> Shapes:
    """A V-block's two flanks beside the round work."""
    x, y = MIDDLE
    wide = min(piece.long * 0.7, 22.0)
    flanks = (box(x - wide / 2, y - piece.wide / 2 - 2.2, wide, piece.wide + 4.4),)
    return tuple(Area(flank, "paper", "ink", STROKE) for flank in flanks)


def _lug(x: float, y: float) -> Shapes:
    return (Area(rounded(x - 4.5, y - 3.2, 9, 6.4, 2.6), "line", "ink", STROKE), *_nut(x, y))


def _screw(x: float, top: float) -> Points:
    return box(x - 1.3, top, 2.6, 4.6)


def _handle(x: float, y: float) -> Shapes:
    return (
        Line(((x - 9, y), (x + 9, y)), "ink", BOLD),
        Disc(x - 9, y, 1.2, "ink", "ink", THIN),
        Disc(x + 9, y, 1.2, "ink", "ink", THIN),
    )
