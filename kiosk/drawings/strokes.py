"""The bit on its way, in a section to scale: drilling, the trial stroke, scrap wood."""

from __future__ import annotations

from kiosk.core.units import Length
from kiosk.drawings.lettering import LEAST_TEXT, caption
from kiosk.drawings.outlines import BOLD, STROKE, arc, arrow, bent_arrow, box, label, rounded
from kiosk.drawings.section import (
    ROW,
    Section,
    beside,
    bit_at,
    diameter,
    room_left,
    section,
    tape_on,
    thickness,
    work,
)
from kiosk.drawings.shapes import Area, Line
from kiosk.drawings.sheet import Marks, Shapes, Sheet
from kiosk.drawings.signs import cross, up_and_down
from kiosk.drawings.values import Values

MOST_LIFTS = 3  # that are drawn, however many there are
LEAST_STEP = 5.6  # mm across the sheet from one way down to the next
LEAST_APART = 4.6  # mm between the way down and the way up
LEAST_JAW = 5.0  # mm
RAISED = 0.4  # of the way from the bit's top to the work
HELD, HELD_PART = 7.0, 0.13  # mm at each end of the work for what holds it, or of the width
BED = 2.2  # mm that the vice's bed under the work is high
STRAP = 2.6  # mm that a clamp's strap is high


def drilling(values: Values, sheet: Sheet) -> Marks:
    """The bit half way down, how often it is lifted clear, and the last way right up."""
    here = _drilled(values, sheet)
    tip = here.top + (here.end - here.top) * 0.55
    return (*work(here), *bit_at(here, tip), *diameter(here), *_depth_of_lift(here), *_way(here))


def drilling_tape(values: Values, sheet: Sheet) -> Marks:
    """The bit nearly at its depth, the tape round it close to the work."""
    here = _drilled(values, sheet)
    tip = here.end - (here.top - here.bit_top) * 0.4
    bit = (*bit_at(here, tip), *tape_on(here, tip))
    return (*work(here), *bit, *_depth_of_lift(here), *_way(here, aside=4.0))


def _drilled(values: Values, sheet: Sheet) -> Section:
    mm = values.length("lift", values.thickness)
    return section(values, sheet, at=0.5 if sheet.small else room_left(sheet, mm))


def _depth_of_lift(here: Section) -> Marks:
    """How deep the bit goes before it is lifted clear; else how thick the work is."""
    lift = here.values.maybe_length("lift")
    if lift is None or lift > here.values.thickness:
        return thickness(here)
    return beside(here, -1, None, (here.top, here.top + lift * here.scale), lift)


def _way(here: Section, aside: float = 0.0) -> Shapes:
    """Down and clear again as often as it takes, then right up; small, the way up alone.

    `aside` is further from the bit, for what stands out of it.
    """
    start = here.x + here.half + max(3.4, here.sheet.width * 0.08) + aside
    if here.sheet.small:
        return arrow((start, here.end), (start, here.bit_top + 0.5), "ink", BOLD, 2.4)
    room = here.sheet.width - start - 5.0
    lifts = _lifts(here)[: max(0, int(room / LEAST_STEP) - 1)]
    step = min(7.5, room / (len(lifts) + 1))
    x = start + step * (len(lifts) + 1)
    if step < LEAST_APART:
        return arrow((x, here.end), (x, here.bit_top + 1), "action", 1.7, 5.0)
    up = arrow((x, here.end), (x, here.bit_top - 3), "action", 1.7, 5.0)
    return (*bent_arrow(_zigzag(here, start, step, lifts), "ink", BOLD, 3.4), *up)


def _lifts(here: Section) -> tuple[float, ...]:
    """How deep the bit is at each lifting clear, on the sheet."""
    first = here.values.maybe_length("lift")
    if first is None:
        return ()
    deep, end = first * here.scale, (here.end - here.top) * 0.92
    count = min(MOST_LIFTS, here.values.count("lifts", 1))
    return tuple(min(end, deep + (end - deep) * i / count) for i in range(count))


def _zigzag(
    here: Section, start: float, step: float, lifts: tuple[float, ...]
) -> tuple[tuple[float, float], ...]:
    """Down to each depth and up clear of the work, and last right down."""
    clear, x = here.top - 4.0, start
    points = [(x, clear)]
    for deep in lifts:
        points += [(x, here.top + deep), (x + step * 0.5, here.top + deep)]
        points += [(x + step * 0.5, clear), (x + step, clear)]
        x += step
    return (*points, (x, here.end))


# --- the trial stroke ---


def trial(values: Values, sheet: Sheet) -> Marks:
    """The bit up, and in broken lines where its tip meets the work; an arrow, and no turning.

    The drill stands, so the bit does not go into the work.
    """
    here = section(values, sheet, measured=False, inset=_hold(sheet), below=2.0 + BED)
    gap = here.top - here.bit_top
    lowest = next(s for s in bit_at(here, here.top) if isinstance(s, Area))
    x = here.x + here.half + max(4.0, sheet.width * 0.13)
    return (
        *work(here, _over(here)),
        *held(here),
        Line((*lowest.points, lowest.points[0]), "action", STROKE, dash=True),
        *bit_at(here, here.top - gap * RAISED),
        *_down_and_up(x, here),
        *_no_turning(here),
    )


def _down_and_up(x: float, here: Section) -> Shapes:
    if here.sheet.small:
        return arrow((x, here.bit_top), (x, max(here.top, here.bit_top + 4)), "action", 1.4, 3.0)
    return up_and_down(
        x, here.bit_top + 0.5, here.top - (STRAP + 0.4 if _is_clamped(here) else 0.0)
    )


def _no_turning(here: Section) -> Shapes:
    """The way round, struck out: the drill stands."""
    if here.sheet.small:
        return ()
    y, reach = here.bit_top + 4.5, here.half + 5.0
    turn = bent_arrow(arc(here.x, y, reach, 165, 15, 0.32), "ink", 1.0, 3.2)
    return (*turn, *cross(here.x - reach - 4.2, y, 3.2))


def _hold(sheet: Sheet) -> float:
    """How much of the sheet at each end what holds the work takes, in mm."""
    return 0.0 if sheet.small else min(HELD, sheet.width * HELD_PART)


def _is_clamped(here: Section) -> bool:
    return here.values.word("way", "vice") == "clamps"


def _over(here: Section) -> float:
    """How far the scrap wood stands out; under a vice's jaws it is narrower than the work."""
    if _is_clamped(here):
        return 1.0 if here.sheet.small else 2.0
    return -max(2.0, (here.right - here.left) * 0.07)


def held(here: Section) -> Shapes:
    """What holds the work at its ends: the vice's jaws, or a clamp over each end."""
    if here.sheet.small:
        return ()
    sides = ((here.left, -1), (here.right, 1))
    if _is_clamped(here):
        return tuple(shape for x, way in sides for shape in _clamp(here, x, way))
    bed = box(here.left - 2.0, here.bottom + here.board, here.right - here.left + 4.0, BED)
    jaws = (shape for x, way in sides for shape in _jaw(here, x, way))
    return (Area(bed, "line", "ink", STROKE), *jaws)


def _jaw(here: Section, x: float, way: int) -> Shapes:
    wide, top = _hold(here.sheet) - 1.4, here.top - 1.2
    left = x if way > 0 else x - wide
    tall = here.bottom + here.board + BED - top
    return (Area(rounded(left, top, wide, max(tall, LEAST_JAW), 0.8), "soft", "ink", STROKE),)


def _clamp(here: Section, x: float, way: int) -> Shapes:
    """A strap on the work's end and its bolt down to the table."""
    hold, foot = _hold(here.sheet), here.bottom + here.board
    wide, over, tall = hold * 1.57, hold * 0.71, STRAP
    left = x - over if way > 0 else x + over - wide
    bolt = x + way * hold * 0.49
    return (
        Line(((bolt, here.top), (bolt, foot)), "ink", 1.2),
        Area(rounded(left, here.top - tall, wide, tall, 0.8), "soft", "ink", STROKE),
        Area(box(bolt - 2.0, here.top - tall - 2.0, 4.0, 2.0), "action", "ink", 0.4),
    )


# --- scrap wood ---


def scrap(values: Values, sheet: Sheet) -> Marks:
    """The scrap wood under the work, how thick it may be, the bit above both."""
    through = Values(tuple(pair for pair in values.pairs if pair[0] != "depth"))
    here = section(through, sheet, False, inset=_hold(sheet), below=ROW + 2.0 + BED)
    gap, y = here.top - here.bit_top, here.bottom + here.board / 2
    return (
        *work(here, _over(here)),
        *held(here),
        *bit_at(here, here.top - gap * 0.3),
        *arrow((here.right - 1.5, y), (here.x + here.half + 3, y), "action", 1.5, 4.0),
        *_how_thick(here),
    )


def _how_thick(here: Section) -> Marks:
    """The scrap wood's name, and from which thickness to which it serves."""
    text = _from_to(here)
    if here.sheet.small or not text:
        return ()
    name = here.sheet.words.maybe("worked.scrap.name")
    foot = max(here.bottom + here.board + BED, here.top - 1.2 + LEAST_JAW)
    y, room = foot + LEAST_TEXT / 2 + 1.6, here.sheet.width - 2
    named = caption(here.sheet.width / 2, y, f"{name} {text}", room, lines=1) if name else ()
    return named or (label(here.sheet.width / 2, y, text, bold=True),)


def _from_to(here: Section) -> str:
    """Both thicknesses in one, a thickness alone, or nothing where none is known."""
    found = (here.values.maybe_length(name) for name in ("scrap", "scrap_most"))
    known = dict.fromkeys(thick for thick in found if thick is not None)
    room = here.sheet.width * 0.5 / max(len(known), 1)
    return "\u00a0– ".join(here.sheet.number(Length(thick), room) for thick in known)
