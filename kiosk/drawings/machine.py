"""The drill from the side, whole or in part; other pictures build on it.

The frame is 60 wide and 48 tall. The drill stands on the floor at the bottom.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, arrow, bit, box, oval, rounded
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Sheet, fitted, moved
from kiosk.drawings.values import Values


@dataclass(frozen=True)
class Look:
    """Which parts stand out in the action colour."""

    chuck: bool = False
    cover: bool = False
    table: bool = False
    stop: bool = False
    guard: bool = True


def drill(look: Look = Look()) -> tuple[Shape, ...]:
    """The whole drill, 34 wide and 46 tall: spindle at 10, column at 26."""
    return (
        Area(rounded(4, 42.5, 29, 3.5, 1), "soft", "ink", STROKE),
        Area(box(24, 14, 4, 28.5), "line", "ink", STROKE),
        *_table(28.5, "action" if look.table else "steel"),
        *_chuck(10, 16.5, "action" if look.chuck else "soft"),
        *bit(10, 21.0, 27.0, 1.6),
        *(_guard(10, 17.4) if look.guard else ()),
        *_head("action" if look.cover else "paper"),
        *_feed_handle(15.5, 13.5),
        *_buttons("stop" if look.stop else "soft"),
    )


def set_up(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The drill with all that makes its set-up in the action colour: belt, bit, table, stop."""
    look = Look(chuck=True, cover=True, table=True)
    gauge = (
        Line(((3.2, 13.5), (3.2, 21.5)), "action", BOLD),
        *(Line(((1.6, y), (3.2, y)), "action", STROKE) for y in (14.5, 16.5, 18.5, 20.5)),
    )
    return fitted(moved((*drill(look), *gauge), 13, 1), sheet)


def stops(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """Where the drill's red stop, the isolator and the room stop are, each ringed."""
    wall = (Line(((38, 2), (38, 46)), "line", 0.8), Line(((2, 46.8), (58, 46.8)), "line", 0.8))
    box_ = Area(rounded(41, 20, 8, 10, 1), "paper", "ink", STROKE)
    knob = (Disc(45, 25, 2.2, "paper", "ink", STROKE), Line(((45, 25), (43, 25)), "ink", BOLD))
    plate = Area(rounded(49.5, 6, 8, 8, 1), "caution", "ink", STROKE)
    room = Disc(53.5, 10, 2.4, "stop", "ink", STROKE)
    rings = tuple(
        Disc(x, y, r, "none", "action", 0.9) for x, y, r in ((45, 25, 7.2), (53.5, 10, 6.4))
    )
    arrows = (*arrow((11, 4), (14.6, 9.2), "action", BOLD, 2.6),)
    machine = moved(drill(Look(stop=True)), 3, 0.6)
    return fitted((*wall, *machine, box_, *knob, plate, room, *rings, *arrows), sheet)


def column_view() -> tuple[Shape, ...]:
    """The table on its column with an arrow up and down beside it."""
    machine = moved(drill(Look(table=True)), 8, 1)
    arrows = (
        *arrow((50, 29), (50, 18), "action", BOLD),
        *arrow((50, 29), (50, 40), "action", BOLD),
    )
    return (*machine, *arrows)


def _head(cover: str) -> tuple[Shape, ...]:
    housing = ((5, 8), (29, 8), (29, 14), (17, 14), (15.5, 16.5), (5, 16.5))
    return (
        Area(rounded(25.4, 9, 8, 10, 1.2), "soft", "ink", STROKE),
        Area(housing, "paper", "ink", STROKE),
        Area(rounded(4, 2, 29, 6, 2), cover, "ink", STROKE),
    )


def _chuck(x: float, top: float, fill: str) -> tuple[Shape, ...]:
    body = ((x - 2.6, top), (x + 2.6, top), (x + 2.6, top + 2.6), (x + 1.3, top + 4.8))
    return (Area((*body, (x - 1.3, top + 4.8), (x - 2.6, top + 2.6)), fill, "ink", STROKE),)


def _guard(x: float, top: float) -> tuple[Shape, ...]:
    return (
        Line(((x - 4.4, top), (x - 4.4, top + 8.2)), "action", 0.8),
        Line(((x + 4.4, top), (x + 4.4, top + 8.2)), "action", 0.8),
    )


def _table(y: float, fill: str) -> tuple[Shape, ...]:
    return (
        Area(((14, y + 2.2), (24, y + 2.2), (24, y + 6.5)), "line", "ink", STROKE),
        Area(rounded(22.6, y - 0.6, 6.8, 7.6, 1), "line", "ink", STROKE),
        Area(rounded(2, y, 21, 2.4, 0.6), fill, "ink", STROKE),
    )


def _feed_handle(x: float, y: float) -> tuple[Shape, ...]:
    return (
        Line(((x, y), (x + 5.0, y + 9.0)), "ink", BOLD),
        Disc(x + 5.0, y + 9.0, 1.3, "ink", "ink", THIN),
        Disc(x, y, 1.7, "paper", "ink", STROKE),
    )


def _buttons(stop: str) -> tuple[Shape, ...]:
    return (
        Disc(12.2, 11.3, 1.5, stop, "ink", STROKE),
        Disc(8.2, 11.3, 1.0, "paper", "ink", STROKE),
    )


def feet(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """The floor in front of the drill from above: two feet on a clear marked place."""
    zone = rounded(8, 18, 44, 28, 2)
    machine = (
        Area(rounded(17, 1, 26, 14, 1.5), "soft", "ink", STROKE),
        Disc(30, 5.5, 2.6, "line", "ink", STROKE),
        Area(rounded(23, 8, 14, 9, 1.2), "steel", "ink", STROKE),
        Disc(30, 12.5, 0.9, "bit", "bit", THIN),
    )
    edge = Line((*zone, zone[0]), "caution", 1.4)
    return fitted((edge, *machine, *_shoe(23.5, 31), *_shoe(36.5, 31)), sheet)


def _shoe(x: float, y: float) -> tuple[Shape, ...]:
    return (
        Area(oval(x, y, 7.4, 12.4), "ink", "ink", THIN),
        Area(_heel(x, y + 8.2), "ink", "ink", THIN),
    )


def _heel(x: float, y: float) -> Points:
    return rounded(x - 2.7, y - 1.2, 5.4, 5.2, 2.4)
