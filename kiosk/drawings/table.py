"""How high the table stands: chuck, bit, a little room, work, scrap and vice, all to one scale."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.units import Length
from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import NOSE, chuck_body
from kiosk.drawings.lettering import LEADING, LEAST_TEXT, caption, wrapped
from kiosk.drawings.machine import Look, drill
from kiosk.drawings.outlines import STROKE, THIN, box, rounded, upright
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fitted, moved
from kiosk.drawings.signs import up_and_down
from kiosk.drawings.values import Values

CLEAR = 10.0  # mm between tip and work, which slides in under it
REACH = 60.0  # mm that a bit stands out where it is not known
LOCK = 9.2  # mm of the sheet that the lock is wide
FOOT = 11.0  # mm of the sheet under the table's top


@dataclass(frozen=True)
class Stand:
    """Heights on the sheet: chuck's nose, tip, the work's top and foot, what it lies on, table."""

    x: float
    nose: float
    tip: float
    work: float
    scrap: float
    bed: float  # the vice's, or the table's top where there is none
    table: float
    scale: float


def table(values: Values, sheet: Sheet) -> Marks:
    """The table under the chuck with the gap between them, its way up and down and its lock."""
    if sheet.small:
        return fitted(up_and_down_drill(), sheet)
    stand, wide = _stand(values, sheet), sheet.width
    thick = max(2.0, min(14.0, values.bit_diameter * stand.scale))
    return (
        *bit(values, stand.x, stand.nose - 1, stand.tip, thick, stand.scale),
        *_chuck(values, stand),
        *_vice(stand, wide),
        *_work(values, stand, wide),
        *_table(stand, wide),
        *_gap(values, stand, sheet),
    )


def up_and_down_drill() -> Shapes:
    """The whole drill with its table in the action colour, an arrow up and down beside it."""
    return (*moved(drill(Look(table=True)), 8, 1), *up_and_down(52, 18, 42))


def _chuck(values: Values, stand: Stand) -> Shapes:
    """The chuck, its nose where it stands; it is not to scale."""
    size, keyed = (stand.nose - 0.8) / NOSE, values.word("chuck", "keyed") != "keyless"
    return moved(chuck_body(0, 0, keyed, gap=2.0), stand.x, 0.8, size)


def _stand(values: Values, sheet: Sheet) -> Stand:
    under = values.board if values.is_through else 0.0
    lifted = values.length("vice_bed", 0.0)
    below = CLEAR + values.thickness + under + lifted
    gap = max(values.length("gap", REACH + below), below + 5.0)
    nose, foot = 14.0, sheet.height - FOOT
    scale = (foot - nose) / gap
    bed = foot - lifted * scale
    scrap = bed - under * scale
    work = scrap - values.thickness * scale
    tip = work - CLEAR * scale
    return Stand(sheet.width * 0.27, nose, tip, work, scrap, bed, foot, scale)


def _vice(stand: Stand, wide: float) -> Shapes:
    """The vice the work lies in: its body up to the bed, and a jaw at each end of the work."""
    if stand.table - stand.bed < 0.3:
        return ()
    half, jaw, top = _half(stand, wide), wide * 0.05, stand.work + (stand.scrap - stand.work) * 0.3
    body = box(stand.x - half - jaw, stand.bed, 2 * (half + jaw), stand.table - stand.bed)
    jaws = (box(x, top, jaw, stand.bed - top) for x in (stand.x - half - jaw, stand.x + half))
    return (
        Area(body, "line", "ink", STROKE),
        *(Area(each, "soft", "ink", STROKE) for each in jaws),
    )


def _half(stand: Stand, wide: float) -> float:
    """Half of how long the work is drawn: shorter where a vice's jaws stand at its ends."""
    return wide * (0.16 if stand.bed < stand.table else 0.2)


def _work(values: Values, stand: Stand, wide: float) -> Shapes:
    half = _half(stand, wide)
    found: Shapes = ()
    if stand.bed - stand.scrap > 0.3:
        over = -half * 0.2 if stand.bed < stand.table else 1.5
        board = box(stand.x - half - over, stand.scrap, 2 * (half + over), stand.bed - stand.scrap)
        found = (Area(board, "wood", "ink", STROKE),)
    body = box(stand.x - half, stand.work, 2 * half, stand.scrap - stand.work)
    return (*found, Area(body, values.fill, "ink", STROKE))


def _table(stand: Stand, wide: float) -> Shapes:
    """The table's plate on its column, and the lock's handle with the way it turns."""
    y, column = stand.table, min(wide * 0.89, wide - LOCK / 2 - 0.6)
    return (
        Area(box(column - 2.6, 1.0, 5.2, y + FOOT - 2.0), "line", "ink", STROKE),
        Area(rounded(2, y, column - 2, 3.4, 0.8), "steel", "ink", STROKE),
        Area(rounded(column - LOCK / 2, y - 1.0, LOCK, 8.0, 1.2), "action", "ink", STROKE),
        Line(((column, y + 3), (column - 7.5, y + 7.5)), "ink", 1.4),
        Disc(column - 7.5, y + 7.5, 1.4, "ink", "ink", THIN),
    )


def _gap(values: Values, stand: Stand, sheet: Sheet) -> Marks:
    """From the chuck down to the table, the number beside it; an arrow up and down."""
    x = sheet.width * 0.76
    found = values.maybe_length("gap")
    lead = Line(((stand.x + 4, stand.nose), (x, stand.nose)), "action", THIN, True)
    line = upright(x, stand.nose, stand.table, "action", STROKE)
    text = sheet.number(Length(round(found)), sheet.width * 0.4) if found else ""
    text = text.replace("\u00a0", " ")
    half = values.bit_diameter * stand.scale / 2
    room = x - 1.8 - stand.x - half - 1.0
    high = LEAST_TEXT * (1 + LEADING * (len(wrapped(text, room, 2)) - 1))
    y = max((stand.nose + stand.work) / 2, stand.nose + 1.0 + high / 2)
    words = caption(x - 1.8, y, text, room, "right", "action") if text else ()
    return (lead, *line, *words)
