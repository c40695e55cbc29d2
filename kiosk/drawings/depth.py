"""Sections through the work to scale: depth, drilling, the trial stroke and the scrap board.

Every length is drawn at one scale: bit, point, thickness, depth, floor. Only how far the
work goes on to the left and right is not.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import radians, tan

from kiosk.core.units import Length
from kiosk.drawings.outlines import (
    BOLD,
    STROKE,
    THIN,
    arrow,
    bit_outline,
    box,
    label,
    upright,
)
from kiosk.drawings.shapes import Area, Line, Shape
from kiosk.drawings.sheet import Sheet
from kiosk.drawings.values import Values

OVERRUN = 2.0  # how far the tip's shoulder goes past the underside, mm
LARGEST_SCALE = 6.0
WIDEST_BIT = 0.2  # of the sheet's width: texts stand on both sides
TEXT = 3.0


@dataclass(frozen=True)
class Section:
    """Where a section stands on its sheet: `x` of the bit, `top` of the work, scale."""

    values: Values
    sheet: Sheet
    x: float
    top: float
    scale: float
    bit_top: float

    @property
    def diameter(self) -> float:
        """Width of the bit on the sheet."""
        return self.values.bit_diameter * self.scale

    @property
    def bottom(self) -> float:
        """Underside of the work on the sheet."""
        return self.top + _thickness(self.values) * self.scale

    @property
    def end(self) -> float:
        """Where the tip is at the bottom of its stroke."""
        return self.top + _travel(self.values) * self.scale

    @property
    def left(self) -> float:
        """Left edge of the work."""
        return _margin(self.sheet)

    @property
    def right(self) -> float:
        """Right edge of the work."""
        return self.sheet.width - _margin(self.sheet)


def depth(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The bit at the bottom of its stroke, with the depth, the stop and the floor.

    The bit stands where the stop lets it, up to 0.5 mm short of the depth that is written.
    """
    section = _section(values, sheet)
    return (
        *_work(section),
        *_bit(section, section.end),
        *_diameter(section),
        *_left_dimension(section),
        *_right_dimension(section),
        *_floor(section),
    )


def drilling(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The bit half way down, and the arrow that says lift."""
    section = _section(values, sheet)
    tip = section.top + (section.end - section.top) * 0.55
    x = section.x + section.diameter / 2 + max(4.0, sheet.width * 0.13)
    return (
        *_work(section),
        *_bit(section, tip),
        *_diameter(section),
        *_thickness_dimension(section),
        *arrow((x, tip), (x, section.bit_top + 0.5), "ink", BOLD, _head(sheet)),
    )


def trial(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The bit up, its lowest place in broken lines, and an arrow down and up."""
    section = _section(values, sheet, measured=False)
    ghost = bit_outline(section.x, section.top, section.end, section.diameter, values.point_angle)
    gap = section.top - section.bit_top
    x = section.x + section.diameter / 2 + max(4.0, sheet.width * 0.13)
    middle = (section.bit_top + section.end) / 2
    return (
        *_work(section),
        Line((*ghost, ghost[0]), "action", STROKE, dash=True),
        *_bit(section, section.top - gap * 0.25),
        *arrow((x, middle), (x, section.bit_top + 0.5), "action", BOLD, _head(sheet)),
        *arrow((x, middle), (x, section.end), "action", BOLD, _head(sheet)),
    )


def scrap(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The scrap board under the work, the bit above both."""
    through = Values(tuple(pair for pair in values.pairs if pair[0] != "depth"))
    section = _section(through, sheet, measured=False)
    gap = section.top - section.bit_top
    y = section.bottom + _scrap(section.values) * section.scale / 2
    return (
        *_work(section),
        *_bit(section, section.top - gap * 0.25),
        *_thickness_dimension(section),
        *arrow((section.right - 2, y), (section.x + 4, y), "action", BOLD, _head(sheet)),
    )


def _section(values: Values, sheet: Sheet, measured: bool = True) -> Section:
    """The largest scale at which everything fits; `measured` leaves room for a text on top."""
    bit_top = 9.5 if measured and not sheet.small else 1.5
    above = sheet.height * (0.3 if sheet.small else 0.34)
    below = 2.0 if sheet.small or _is_through(values) else 7.0
    room = sheet.height - above - below
    body = _thickness(values) + (_scrap(values) if _is_through(values) else 0.0)
    widest = sheet.width * WIDEST_BIT / values.bit_diameter
    scale = min(room / body, widest, LARGEST_SCALE)
    top = above + (room - body * scale) / 2
    return Section(values, sheet, sheet.width / 2, top, scale, bit_top)


def _margin(sheet: Sheet) -> float:
    return 1.5 if sheet.small else 3.0


def _head(sheet: Sheet) -> float:
    return 2.4 if sheet.small else 3.2


def _thickness(values: Values) -> float:
    return values.length("thickness", 18.0 if not _is_through(values) else 6.0)


def _is_through(values: Values) -> bool:
    return values.maybe_length("depth") is None


def _point(values: Values) -> float:
    if values.point_angle >= 180:
        return 0.0
    return values.bit_diameter / 2 / tan(radians(values.point_angle / 2))


def _travel(values: Values) -> float:
    """How far the tip goes below the top of the work. The stop, where one is given, decides."""
    found = values.maybe_length("depth")
    if found is None:
        return _thickness(values) + _point(values) + OVERRUN
    return values.length("stop", found + _point(values))


def _scrap(values: Values) -> float:
    return max(_point(values) + OVERRUN + 3.0, _thickness(values) * 0.4)


def _work(section: Section) -> tuple[Shape, ...]:
    wide = section.right - section.left
    body = box(section.left, section.top, wide, section.bottom - section.top)
    work = Area(body, section.values.fill, "ink", STROKE)
    if not _is_through(section.values):
        return (work,)
    thick = _scrap(section.values) * section.scale
    over = 1.0 if section.sheet.small else 2.0
    board = box(section.left - over, section.bottom, wide + 2 * over, thick)
    return (Area(board, "wood", "ink", STROKE), work)


def _bit(section: Section, tip: float) -> tuple[Shape, ...]:
    angle = section.values.point_angle
    outline = bit_outline(section.x, section.bit_top, tip, section.diameter, angle)
    return (Area(outline, "bit", "none", 0.0),)


def _written(section: Section, name: str, mm: float) -> str:
    found = section.values.get(name)
    return section.sheet.number(found if isinstance(found, Length) else Length(mm))


def _diameter(section: Section) -> tuple[Shape, ...]:
    if section.sheet.small:
        return ()
    half, y = section.diameter / 2, section.bit_top - 1.6
    text = section.sheet.number(Length(section.values.bit_diameter))
    ends = (section.x - half, section.x + half)
    ticks = tuple(Line(((x, y - 1), (x, y + 1)), "ink", THIN) for x in ends)
    return (
        Line(((ends[0], y), (ends[1], y)), "ink", THIN),
        *ticks,
        label(section.x, 4.2, text, TEXT, bold=True),
    )


def _left_dimension(section: Section) -> tuple[Shape, ...]:
    """The stop, in the colour of what the pupil sets; the thickness where there is none."""
    stop = section.values.maybe_length("stop")
    if _is_through(section.values) or stop is None:
        return _thickness_dimension(section)
    text = _written(section, "stop", stop)
    return _beside(section, -1, section.x, section.end, text, "action")


def _thickness_dimension(section: Section) -> tuple[Shape, ...]:
    text = _written(section, "thickness", _thickness(section.values))
    return _beside(section, -1, None, section.bottom, text, "ink")


def _right_dimension(section: Section) -> tuple[Shape, ...]:
    found = section.values.maybe_length("depth")
    if found is None:
        return ()
    bottom = section.end - _point(section.values) * section.scale
    edge = section.x + section.diameter / 2
    return _beside(section, 1, edge, bottom, _written(section, "depth", found), "ink")


def _beside(
    section: Section, way: int, start: float | None, bottom: float, text: str, colour: str
) -> tuple[Shape, ...]:
    """A dimension from the top of the work down, left (-1) or right (1) of the bit.

    A broken line leads to it from `start`. The text stands outside, over thin work above it.
    """
    if section.sheet.small:
        return ()
    x = section.x + way * (section.diameter / 2 + 2.6)
    tall = bottom - section.top
    has_room = tall > TEXT + 2.4
    y = section.top + tall / 2 if has_room else section.top - TEXT / 2 - 1.6
    text_x = x + way * (1.6 if has_room else -1.4)
    anchor = "right" if way < 0 else "left"
    lead = () if start is None else (Line(((start, bottom), (x, bottom)), colour, THIN, True),)
    line = upright(x, section.top, bottom, colour, STROKE)
    return (*lead, *line, label(text_x, y, text, TEXT, anchor, colour, True))


def _floor(section: Section) -> tuple[Shape, ...]:
    if _is_through(section.values) or section.sheet.small:
        return ()
    mm = _thickness(section.values) - _travel(section.values)
    if mm <= 0:
        return ()
    text = _written(section, "floor", mm)
    line = upright(section.x, section.end, section.bottom, "soft", STROKE)
    return (*line, label(section.x, section.bottom + 4.2, text, TEXT, colour="soft", bold=True))
