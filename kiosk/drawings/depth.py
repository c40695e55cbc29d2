"""How deep: the section at the bottom of the stroke beside the drill's depth scale, and tape.

The scale's zero is the tip touching the work. Both are drawn to the section's scale.
"""

from __future__ import annotations

from math import floor

from kiosk.core.units import Length
from kiosk.drawings.lettering import LEADING, LEAST_TEXT, caption, text_width
from kiosk.drawings.outlines import STROKE, THIN, box, label, upright
from kiosk.drawings.section import (
    ROW,
    WIDEST_BIT,
    Section,
    beside,
    bit_at,
    diameter,
    section,
    tape_on,
    thickness,
    work,
)
from kiosk.drawings.shapes import Area, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet
from kiosk.drawings.values import Values

RULER_LEFT, RULER_RIGHT = 1.2, 5.8
TEXT_LEFT = 11.2  # where the stop's number begins
WIDEST_TAPED = 0.3  # of the sheet's width
LEAST_TICK = 1.3  # mm between the scale's marks on the sheet


def depth(values: Values, sheet: Sheet) -> Marks:
    """The bit at the bottom of its stroke, with the zero, the stop, the point and the floor.

    The bit stands where the stop lets it, up to 0.5 mm short of the depth that is written.
    """
    across, ruler = _across(values, sheet), 0.0 if values.is_through or sheet.small else 9.4
    below = 2.0 if values.is_through else ROW + 1.6
    here = section(values, sheet, at=across, ruler=ruler, below=below)
    if values.is_through:
        return (*work(here), *bit_at(here, here.end), *diameter(here), *thickness(here))
    return (
        *_ruler(here),
        *work(here),
        *bit_at(here, here.end),
        *_stop(here),
        *diameter(here),
        *_depth_and_point(here),
        *_floor(here),
    )


def _across(values: Values, sheet: Sheet) -> float:
    """Where the bit stands: room for the stop's number left of it and the others' right."""
    if values.is_through or sheet.small:
        return 0.5
    stop = text_width(sheet.number(Length(values.travel), sheet.width * 0.4), LEAST_TEXT)
    return min(0.78, max(0.5, (TEXT_LEFT + stop + 1.2) / sheet.width + WIDEST_BIT / 2))


# --- the depth scale and its stop ---


def _ruler(here: Section) -> Shapes:
    """The drill's depth scale with its marks, its zero level with the top of the work."""
    if here.sheet.small:
        return ()
    top, bottom = here.bit_top, max(here.bottom, here.end + 3)
    strip = box(RULER_LEFT, top, RULER_RIGHT - RULER_LEFT, bottom - top)
    zero = ((RULER_RIGHT + 0.3, here.top), (9.2, here.top - 1.5), (9.2, here.top + 1.5))
    return (
        Area(strip, "paper", "ink", 0.4),
        *_ticks(here, top, bottom),
        Area(zero, "paper", "ink", 0.5),
    )


def _ticks(here: Section, top: float, bottom: float) -> Shapes:
    """A mark for each millimetre, or for each 5, 10 or 50 where they would lie too close."""
    each = next((mm for mm in (1, 5, 10) if mm * here.scale >= LEAST_TICK), 50)
    step = each * here.scale
    first, last = -floor((here.top - top - 0.3) / step), floor((bottom - 0.3 - here.top) / step)
    return tuple(_tick(here.top + i * step, i % 5 == 0) for i in range(first, last + 1))


def _tick(y: float, is_long: bool) -> Line:
    return Line(((RULER_RIGHT, y), (RULER_RIGHT - (3.0 if is_long else 1.7), y)), "ink", THIN)


def _stop(here: Section) -> Marks:
    """The stop on the scale, and how far it stands under the zero."""
    if here.sheet.small:
        return ()
    collar = box(RULER_LEFT - 0.7, here.end - 1.5, RULER_RIGHT - RULER_LEFT + 1.4, 3.0)
    pointer = ((9.2, here.end), (6.5, here.end - 1.5), (6.5, here.end + 1.5))
    lead = Line(((9.2, here.end), (here.x, here.end)), "action", THIN, True)
    return (
        Area(collar, "action", "ink", 0.4),
        Area(pointer, "action", "ink", 0.4),
        lead,
        *_stop_texts(here),
    )


def _stop_texts(here: Section) -> Marks:
    """The stop's number between zero and stop, or above the work where these lie too close.

    It takes two lines where the bit is too near for one.
    """
    text, above = here.number(here.values.travel), here.top - LEAST_TEXT / 2 - 1.6
    zero = label(TEXT_LEFT - 0.8, above, here.number(0.0), LEAST_TEXT, "left", "ink", True)
    room = here.x - here.half - TEXT_LEFT - 0.8
    lines = text_width(text, LEAST_TEXT) > room
    high = LEAST_TEXT * LEADING if lines else 0.0
    if lines:
        text = text.replace("\u00a0", " ")
    if here.end - here.top > ROW + high:
        y = (here.top + here.end) / 2
        return (*caption(TEXT_LEFT, y, text, room, "left", "action"), zero)
    return caption(TEXT_LEFT - 0.8, above - high / 2, text, room + 0.8, "left", "action")


# --- the hole ---


def _depth_and_point(here: Section) -> Marks:
    """At the right how deep the hole is at full width, and how long the point is under it."""
    edge = here.x + here.half
    values = here.values
    deep = values.length("reached", values.length("depth", values.travel - values.point))
    hole = beside(here, 1, edge, (here.top, here.shoulder), deep)
    if here.sheet.small or here.end - here.shoulder < 0.8:
        return hole
    x, level = edge + 2.6, ((edge, here.shoulder), (edge + 2.6, here.shoulder))
    lines = (
        *(() if hole else (Line(level, "ink", THIN, True),)),
        Line(((here.x, here.end), (x, here.end)), "ink", THIN, True),
        *upright(x, here.shoulder, here.end, "ink", STROKE),
    )
    text = _point_text(here, x)
    return (*hole, *lines, *text) if text else hole


def _point_text(here: Section, x: float) -> Marks:
    """The point's length beside it, or under it where it has more room there; else nothing."""
    text, beside_y = here.number(here.values.point), (here.shoulder + here.end) / 2
    under = here.end + LEAST_TEXT / 2 + 1.2
    wide, foot = text_width(text, LEAST_TEXT), LEAST_TEXT * 0.8
    is_clear = (here.top + here.shoulder) / 2 + ROW <= beside_y and beside_y + foot < here.bottom
    for left, y, free in ((x + 1.6, beside_y, is_clear), (here.x + 1.8, under, True)):
        if free and left + wide < here.right - 0.5 and y + foot < here.bottom:
            return (label(left, y, text, anchor="left", bold=True),)
    return ()


def _floor(here: Section) -> Marks:
    """What is left under the hole."""
    left = here.values.thickness - here.values.travel
    if here.sheet.small or left <= 0:
        return ()
    line = upright(here.x, here.end, here.bottom, "ink", STROKE)
    mm = here.values.length("floor", left)
    word = here.sheet.words.maybe("worked.floor.name")
    text, y = here.number(mm), here.bottom + LEAST_TEXT / 2 + 1.5
    room = 2 * min(here.x, here.sheet.width - here.x) - 2
    named = caption(here.x, y, f"{word}: {text}", room, lines=1) if word else ()
    return (*line, *(named or (label(here.x, y, text, bold=True),)))


# --- tape ---


def tape(values: Values, sheet: Sheet) -> Marks:
    """Where there is no stop: tape round the bit, so far above the tip, a rule beside it."""
    tall = values.travel * 1.45 + 4
    text = sheet.number(Length(values.travel), sheet.width * 0.4)
    free = sheet.width - (0.0 if sheet.small else text_width(text, LEAST_TEXT) + 10.6)
    widest = min(sheet.width * WIDEST_TAPED, free - 1.0)
    scale = min((sheet.height - 4) / tall, widest / values.bit_diameter)
    free -= values.bit_diameter * scale / 2
    x = sheet.width / 2 if sheet.small else min(sheet.width * 0.34, free)
    tip = sheet.height - 2
    here = Section(values, sheet, x, tip, scale, 2.0, 0, sheet.width)
    top = tip - values.travel * scale
    bit_and_tape = (*bit_at(here, tip), *tape_on(here, tip))
    if sheet.small:
        return bit_and_tape
    right = x + here.half + 7.0
    lead = tuple(Line(((x, y), (right, y)), "action", THIN, True) for y in (top, tip))
    line = upright(right, top, tip, "action", STROKE)
    words = label(right + 2.0, (top + tip) / 2, text, LEAST_TEXT, "left", "action", True)
    return (*lead, *bit_and_tape, *line, words)
