"""The drill from the side, whole or in part; other pictures build on it.

The frame is 60 wide and 48 tall. The drill stands on the floor at the bottom.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.drawings.bits import plain_bit
from kiosk.drawings.outlines import BOLD, STROKE, THIN, box, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Shapes

WHOLE = (34.0, 46.0)  # what the drill takes up, from 3, 1 on


@dataclass(frozen=True)
class Look:
    """Which parts stand out in the action colour."""

    chuck: bool = False
    cover: bool = False
    table: bool = False
    stop: bool = False
    guard: bool = True
    spindle: bool = False
    handle: bool = False
    scale: bool = False
    bit: bool = True


def drill(look: Look = Look()) -> Shapes:
    """The whole drill, 34 wide and 46 tall: spindle at 10, column at 26."""
    return (
        Area(rounded(4, 42.5, 29, 3.5, 1), "soft", "ink", STROKE),
        Area(box(24, 14, 4, 28.5), "line", "ink", STROKE),
        *_table(28.5, "action" if look.table else "steel"),
        *_quill(10, "action" if look.spindle else "steel"),
        *_chuck(10, 16.5, "action" if look.chuck else "soft"),
        *(plain_bit(10, 21.0, 27.0, 1.6) if look.bit else ()),
        *(_guard(10, 17.4) if look.guard else ()),
        *_head("action" if look.cover else "paper"),
        *_feed_handle(15.5, 13.5, "action" if look.handle else "ink"),
        *_buttons("stop" if look.stop else "soft"),
        *(depth_scale() if look.scale else ()),
    )


def depth_scale() -> Shapes:
    """The depth scale at the drill's head."""
    return (
        Line(((3.2, 13.5), (3.2, 21.5)), "action", BOLD),
        *(Line(((1.2, y), (3.2, y)), "action", 0.7) for y in (14.5, 16.5, 18.5, 20.5)),
    )


def _head(cover: str) -> Shapes:
    housing = ((5, 8), (29, 8), (29, 14), (17, 14), (15.5, 16.5), (5, 16.5))
    return (
        Area(rounded(25.4, 9, 8, 10, 1.2), "soft", "ink", STROKE),
        Area(housing, "paper", "ink", STROKE),
        Area(rounded(4, 2, 29, 6, 2), cover, "ink", STROKE),
    )


def _quill(x: float, fill: str) -> Shapes:
    return (Area(box(x - 2.0, 14, 4.0, 4.0), fill, "ink", STROKE),)


def _chuck(x: float, top: float, fill: str) -> Shapes:
    body = ((x - 2.6, top), (x + 2.6, top), (x + 2.6, top + 2.6), (x + 1.3, top + 4.8))
    return (Area((*body, (x - 1.3, top + 4.8), (x - 2.6, top + 2.6)), fill, "ink", STROKE),)


def _guard(x: float, top: float) -> Shapes:
    return (
        Line(((x - 4.4, top), (x - 4.4, top + 8.2)), "action", 0.8),
        Line(((x + 4.4, top), (x + 4.4, top + 8.2)), "action", 0.8),
    )


def _table(y: float, fill: str) -> Shapes:
    return (
        Area(((14, y + 2.2), (24, y + 2.2), (24, y + 6.5)), "line", "ink", STROKE),
        Area(rounded(22.6, y - 0.6, 6.8, 7.6, 1), "line", "ink", STROKE),
        Area(rounded(2, y, 21, 2.4, 0.6), fill, "ink", STROKE),
    )


def _feed_handle(x: float, y: float, colour: str) -> Shapes:
    return (
        Line(((x, y), (x + 5.0, y + 9.0)), colour, BOLD if colour == "ink" else 1.7),
        Disc(x + 5.0, y + 9.0, 1.3, colour, "ink", THIN),
        Disc(x, y, 1.7, "paper", "ink", STROKE),
    )


def _buttons(stop: str) -> Shapes:
    return (
        Disc(12.2, 11.3, 1.5, stop, "ink", STROKE),
        Disc(8.2, 11.3, 1.0, "paper", "ink", STROKE),
    )
