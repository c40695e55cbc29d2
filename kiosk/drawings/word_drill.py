"""Shop words of the drill itself, each a bold picture for a small card, what is meant in colour."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from kiosk.drawings.bits import plain_bit
from kiosk.drawings.chuck import chuck_body
from kiosk.drawings.machine import Look, drill
from kiosk.drawings.outlines import (
    THIN,
    Points,
    arc,
    arrow,
    bent_arrow,
    box,
    rounded,
    turned,
    upright,
)
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Shapes, moved
from kiosk.drawings.signs import ring, up_and_down

FRAME = (40.0, 29.0)  # every shop word is drawn on this
EDGE = 0.9


def whole_drill() -> Shapes:
    """The drill."""
    return moved(drill(), 9, 0, 0.62)


def set_up() -> Shapes:
    """The drill with all that makes its set-up."""
    return moved(drill(Look(chuck=True, cover=True, table=True, scale=True)), 9, 0, 0.62)


def spindle() -> Shapes:
    """The bar in the head that turns the chuck."""
    return (
        Area(rounded(9, 1, 22, 14, 2), "paper", "ink", EDGE),
        Area(box(17.4, 2, 5.2, 14.5), "action", "ink", EDGE),
        *moved(chuck_body(0, 0), 20, 15, 0.45),
        *bent_arrow(arc(20, 9, 14, 160, 20, 0.3), "ink", 1.2, 3.6),
    )


def pulley(x: float, wide: tuple[float, ...], top: float = 3.0, row: float = 6.0) -> Shapes:
    """A stepped pulley, the widths of its grooves from the top."""
    return tuple(
        Area(_step(x, top + row * i, w, row), "steel", "ink", EDGE) for i, w in enumerate(wide)
    )


def _step(x: float, top: float, wide: float, row: float) -> Points:
    half, notch = wide / 2, 1.4
    right = ((x + half, top), (x + half - notch, top + row / 2), (x + half, top + row))
    return (*right, *((2 * x - px, py) for px, py in reversed(right)))


def belt() -> Shapes:
    """The belt round two pulleys."""
    return (
        *pulley(12, (16, 13, 10), 5.5),
        *pulley(28, (10, 13, 16), 5.5),
        Area(box(5.0, 12.6, 30.0, 4.0), "action", "ink", 0.6),
    )


def groove() -> Shapes:
    """One groove of a pulley, ringed."""
    way = arrow((38, 11.5), (32.5, 11.5))
    return (*pulley(18, (24, 19, 14, 9), 2.5), *ring(27, 11.5, 4.2), *way)


def dial() -> Shapes:
    """The dial."""
    marks = tuple(
        Line((arc(20, 15, 12.6, a, a)[0], arc(20, 15, 10.4, a, a)[0]), "ink", EDGE)
        for a in range(135, 406, 45)
    )
    return (*marks, Disc(20, 15, 8.4, "steel", "ink", EDGE), *arrow((20, 16), (24.6, 8.6)))


def belt_cover() -> Shapes:
    """The lid over the pulleys, half lifted."""
    lid = turned(rounded(5, 8, 31, 5.6, 2.2), 35, 13, 16)
    return (
        *pulley(13, (11, 8), 15, 4.5),
        *pulley(27, (8, 11), 15, 4.5),
        Area(rounded(4, 23.4, 32, 4.4, 1), "paper", "ink", EDGE),
        Area(lid, "action", "ink", EDGE),
        *arrow((7, 7.5), (7, 15.5), "ink", 1.1, 3.4),
    )


def table() -> Shapes:
    """The table on its column."""
    return (
        Area(box(27, 1, 5, 27), "line", "ink", EDGE),
        Area(((12, 15), (27, 15), (27, 20)), "line", "ink", EDGE),
        Area(rounded(25, 9.6, 9, 9, 1.4), "steel", "ink", EDGE),
        Area(rounded(4, 11.4, 23, 4, 1), "action", "ink", EDGE),
        *up_and_down(37.4, 4, 24, "ink"),
    )


def _ruler(x: float) -> Shapes:
    ticks = tuple(
        Line(((x + 6, y), (x + (2.4 if i % 2 else 0.6), y)), "ink", 0.7)
        for i, y in enumerate(range(4, 27, 3))
    )
    return (Area(box(x, 1.5, 6, 26), "paper", "ink", EDGE), *ticks)


def depth_stop() -> Shapes:
    """A collar on a rod beside the scale, and the lug that meets it."""
    return (
        *_ruler(26),
        Area(box(16.4, 1.5, 3.2, 26), "steel", "ink", EDGE),
        Area(rounded(8, 4, 12.4, 4, 1), "soft", "ink", EDGE),
        Area(rounded(12.4, 16, 11.2, 5.4, 1), "action", "ink", EDGE),
        Line(((23.6, 18.7), (26, 18.7)), "action", 1.2),
    )


def scale() -> Shapes:
    """Lines and numbers that tell how deep the bit is."""
    pointer: Points = ((27, 13), (34, 9.6), (34, 16.4))
    return (*_ruler(20), Area(pointer, "action", "ink", EDGE))


def depth() -> Shapes:
    """How far a hole goes down."""
    hole: Points = ((15, 7), (25, 7), (25, 18), (20, 21), (15, 18))
    return (
        Area(box(3, 7, 34, 20), "wood", "ink", EDGE),
        Area(hole, "paper", "ink", EDGE),
        *upright(30, 7, 18, "action", 1.1),
        Line(((25, 18), (31.4, 18)), "action", 0.7, dash=True),
    )


def turning(x: float = 20.0, y: float = 8.0, colour: str = "action") -> Shapes:
    """The way the spindle goes round."""
    return bent_arrow(arc(x, y, 12, 165, 15, 0.38), colour, 1.5, 4.2)


def speed() -> Shapes:
    """Fast turns: three arrows round a bit."""
    return (*plain_bit(20, 1, 27, 7), *turning(20, 4), *turning(20, 10.5), *turning(20, 17))


def handle() -> Shapes:
    """The arms that bring the bit down."""
    arms = tuple((arc(16, 13, 12, a, a)[0], a) for a in (-70, 170))
    shown = (16 + 13.6, 13 + 6.6)
    return (
        *(Line(((16, 13), end), "ink", 1.8) for end, _ in arms),
        *(Disc(*end, 1.9, "ink", "ink", THIN) for end, _ in arms),
        Line(((16, 13), shown), "action", 2.4),
        Disc(*shown, 2.8, "action", "ink", EDGE),
        Disc(16, 13, 4, "paper", "ink", EDGE),
        *bent_arrow(arc(16, 13, 19.5, -8, 40), "ink", 1.3, 3.8),
    )


WORDS: Mapping[str, Callable[[], Shapes]] = MappingProxyType(
    {
        "drill": whole_drill,
        "spindle": spindle,
        "belt": belt,
        "groove": groove,
        "dial": dial,
        "belt_cover": belt_cover,
        "table": table,
        "depth_stop": depth_stop,
        "depth": depth,
        "scale": scale,
        "groove_speed": speed,
        "handle": handle,
        "set_up": set_up,
    }
)
