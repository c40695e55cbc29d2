"""A section through the work under the bit, at one scale: bit, point, thickness, depth, floor.

Only how far the work goes on to the left and right is not to scale.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.units import Length
from kiosk.drawings.bits import bit
from kiosk.drawings.lettering import LEAST_TEXT, text_box, text_width
from kiosk.drawings.outlines import STROKE, THIN, Point, box, label, upright
from kiosk.drawings.shapes import Area, Label, Line
from kiosk.drawings.sheet import EDGE, Marks, Shapes, Sheet
from kiosk.drawings.values import Values

LARGEST_SCALE = 6.0
WIDEST_BIT = 0.16  # of the sheet's width: texts stand on both sides
ROW = LEAST_TEXT * 1.6  # a text with the room above and below it


@dataclass(frozen=True)
class Section:
    """Where a section stands on its sheet: `x` of the bit, `top` of the work, scale.

    `left` and `right` are the work's edges.
    """

    values: Values
    sheet: Sheet
    x: float
    top: float
    scale: float
    bit_top: float
    left: float
    right: float

    @property
    def half(self) -> float:
        """Half the bit's width on the sheet."""
        return self.values.bit_diameter * self.scale / 2

    @property
    def bottom(self) -> float:
        """Underside of the work on the sheet."""
        return self.top + self.values.thickness * self.scale

    @property
    def end(self) -> float:
        """Where the tip is at the bottom of its stroke."""
        return self.top + self.values.travel * self.scale

    @property
    def shoulder(self) -> float:
        """Where the bit's full width ends at the bottom of its stroke."""
        return self.end - self.values.point * self.scale

    @property
    def board(self) -> float:
        """Height of the scrap wood under the work; 0 where the hole stops part-way."""
        return self.values.scrap * self.scale if self.values.is_through else 0.0

    def number(self, mm: float) -> str:
        """A length as it is written."""
        return self.sheet.number(Length(mm), self.sheet.width * 0.4)


def section(
    values: Values,
    sheet: Sheet,
    measured: bool = True,
    at: float = 0.5,
    ruler: float = 0.0,
    inset: float = 0.0,
    below: float = 2.0,
) -> Section:
    """The largest scale at which everything fits; `measured` leaves room for a text on top.

    `at` is where the bit stands across the sheet, the others mm left free: `ruler` at the left,
    `inset` at both ends of the work, `below` under it.
    """
    bit_top = ROW + 3.0 if measured and not sheet.small else 1.5
    above = sheet.height * (0.3 if sheet.small else 0.36)
    room = sheet.height - above - (2.0 if sheet.small else below)
    body = values.thickness + (values.scrap if values.is_through else 0.0)
    scale = min(room / body, sheet.width * WIDEST_BIT / values.bit_diameter, LARGEST_SCALE)
    top = above + (room - body * scale) / 2
    edge = (1.5 if sheet.small else 3.0) + inset
    left, right = max(edge, ruler), sheet.width - edge
    return Section(values, sheet, sheet.width * at, top, scale, bit_top, left, right)


def work(section: Section, over: float | None = None) -> Shapes:
    """The work, on scrap wood where the hole goes through; that stands out by `over` mm."""
    wide = section.right - section.left
    body = box(section.left, section.top, wide, section.bottom - section.top)
    piece = Area(body, section.values.fill, "ink", STROKE)
    if not section.board:
        return (piece,)
    if over is None:
        over = 1.0 if section.sheet.small else 2.0
    board = box(section.left - over, section.bottom, wide + 2 * over, section.board)
    return (Area(board, "wood", "ink", STROKE), *grain(section, over), piece)


def grain(section: Section, over: float) -> Shapes:
    """What tells the scrap wood from the work without its colour."""
    y, start, end = section.bottom + section.board, section.left - over, section.right + over
    lines = (
        Line(((start + (end - start) * a, y - 0.9), (start + (end - start) * b, y - 0.9)), "soft")
        for a, b in ((0.03, 0.16), (0.24, 0.36), (0.66, 0.8), (0.88, 0.97))
    )
    return tuple(lines) if section.board > 3 else ()


def bit_at(section: Section, tip: float) -> Shapes:
    """The bit with its tip at a height, to scale."""
    wide = section.half * 2
    return bit(section.values, section.x, section.bit_top, tip, wide, section.scale)


def room_left(sheet: Sheet, mm: float) -> float:
    """Where the bit stands across the sheet so that a number has room at its left."""
    text = text_width(sheet.number(Length(mm), sheet.width * 0.4), LEAST_TEXT)
    return min(0.64, max(0.36, (8.6 + text) / sheet.width + WIDEST_BIT / 2))


def tape_on(section: Section, tip: float) -> Shapes:
    """Tape round the bit, its lower edge as far above the tip as the hole is deep."""
    y, half = tip - section.values.travel * section.scale, section.half
    tall, over = max(2.2, min(3.2, half * 1.4)), 0.7
    end = ((half + over, -0.8), (half + over + 3.6, -0.2), (half + over + 3.6, -1.8))
    flag = tuple((section.x + x, y + dy) for x, dy in (*end, (half + over, -tall + 0.4)))
    left = max(STROKE, section.x - half - over)
    band = box(left, y - tall, section.x + half + over - left, tall)
    return (Area(flag, "caution", "ink", STROKE), Area(band, "caution", "ink", STROKE))


def diameter(section: Section) -> Marks:
    """The bit's diameter over it."""
    if section.sheet.small:
        return ()
    y, ends = section.bit_top - 1.4, (section.x - section.half, section.x + section.half)
    ticks = tuple(Line(((x, y - 0.9), (x, y + 0.9)), "ink", THIN) for x in ends)
    text = section.sheet.number(Length(section.values.bit_diameter), section.sheet.width * 0.9)
    line = Line(((ends[0], y), (ends[1], y)), "ink", THIN)
    return (line, *ticks, label(section.x, y - 1.6 - LEAST_TEXT / 2, text, bold=True))


def beside(
    section: Section,
    way: int,
    start: float | None,
    ends: tuple[float, float],
    mm: float,
    colour: str = "ink",
) -> Marks:
    """A dimension left (-1) or right (1) of the bit between two heights.

    A broken line leads to its lower end from `start`. Where it has no room for its text, this
    stands above the work. Without room there either it is left out.
    """
    if section.sheet.small:
        return ()
    x = section.x + way * (section.half + 2.6)
    lead = () if start is None else (Line(((start, ends[1]), (x, ends[1])), colour, THIN, True),)
    text = _inside(section, way, x, ends, mm, colour) or _above(section, way, x, mm, colour)
    return (*lead, *upright(x, *ends, colour, STROKE), *text) if text else ()


def _inside(
    section: Section, way: int, x: float, ends: tuple[float, float], mm: float, colour: str
) -> Marks:
    """A dimension's text beside it in the work, if it has room there."""
    text = _text(section, way, (x + way * 1.6, sum(ends) / 2), mm, colour)
    left, _, right, _ = text_box(text)
    in_work = section.left + 0.5 < left and right < section.right - 0.5
    return (text,) if in_work and ends[1] - ends[0] > ROW else ()


def _above(section: Section, way: int, x: float, mm: float, colour: str) -> Marks:
    """A dimension's text above the work, if the sheet has room for it beside the bit."""
    at = (x - way * 1.4, section.top - LEAST_TEXT / 2 - 1.6)
    text = _text(section, way, at, mm, colour)
    left, _, right, _ = text_box(text)
    return (text,) if left > EDGE and right < section.sheet.width - EDGE else ()


def _text(section: Section, way: int, at: Point, mm: float, colour: str) -> Label:
    anchor = "right" if way < 0 else "left"
    return label(*at, section.number(mm), LEAST_TEXT, anchor, colour, True)


def thickness(section: Section) -> Marks:
    """How thick the work is."""
    return beside(section, -1, None, (section.top, section.bottom), section.values.thickness)
