"""Shop words of power and stopping, of dust and swarf, and of what goes wrong, as bold pictures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from kiosk.drawings.bits import plain_bit
from kiosk.drawings.clearing import dust as grains
from kiosk.drawings.clearing import fluid_brush, swarf
from kiosk.drawings.clothes import cord
from kiosk.drawings.isolator import isolator_at_o, plug, socket
from kiosk.drawings.outlines import (
    THIN,
    Points,
    arc,
    arrow,
    bent_arrow,
    box,
    rounded,
)
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Shapes, moved
from kiosk.drawings.signs import cross, finger
from kiosk.drawings.word_drill import EDGE, turning

# --- power and stopping ---


def isolator() -> Shapes:
    """The isolator at O."""
    return moved(isolator_at_o(), 5.5, 0, 0.6)


def the_plug() -> Shapes:
    """The plug beside its socket."""
    return (*plug(9.5, 13, 0.9), *socket(21, 5, 0.9))


def red_stop() -> Shapes:
    """The drill's red button under a finger."""
    return (
        Area(rounded(3, 3, 23, 23, 3), "steel", "ink", EDGE),
        Disc(14.5, 14.5, 7.4, "stop", "ink", EDGE),
        *finger(18, 15, 14, 0.95),
    )


def room_stop() -> Shapes:
    """The room's big red button on its plate, machines small under it."""
    machines = tuple(Area(box(x, 23, 5, 5), "soft", "ink", 0.6) for x in (5, 12, 23, 30))
    wires = tuple(Line(((20, 19), (x + 2.5, 23)), "ink", 0.7) for x in (5, 12, 23, 30))
    return (
        *wires,
        *machines,
        Area(rounded(10, 1, 20, 18, 2), "caution", "ink", EDGE),
        Disc(20, 10, 6.8, "stop", "ink", EDGE),
    )


def latch() -> Shapes:
    """A button that stays in: from the side, before and after."""
    return (
        *_button(10, 6.5),
        *_button(30, 11.0),
        *arrow((30, 1), (30, 8.4), "action", 1.5, 4.0),
        *bent_arrow(((16.5, 24), (23.5, 24)), "ink", 1.0, 3.2),
    )


def _button(x: float, top: float) -> Shapes:
    """A mushroom on its panel, its head's top at a height."""
    head: Points = (*arc(x, top + 4, 6.4, 180, 360, 0.62), (x + 6.4, top + 5), (x - 6.4, top + 5))
    return (
        Area(box(x - 1.8, top + 4, 3.6, 15 - top), "soft", "ink", 0.6),
        Area(head, "stop", "ink", EDGE),
        Area(box(x - 8, 18, 16, 3.4), "steel", "ink", EDGE),
    )


def still() -> Shapes:
    """A bit that does not turn."""
    return (*plain_bit(20, 1, 27, 7), *turning(20, 9, "ink"), *cross(34, 21, 5))


def lift_clear() -> Shapes:
    """The bit lifted right out of its hole."""
    hole: Points = ((13, 19), (19, 19), (19, 26), (13, 26))
    return (
        Area(box(2, 19, 28, 9), "wood", "ink", EDGE),
        Area(hole, "paper", "ink", 0.6),
        *plain_bit(16, 0.5, 14.5, 6),
        *arrow((35, 27), (35, 3), "action", 1.8, 5.0),
    )


def ease_off() -> Shapes:
    """Less and less of a push: an arrow that gets thin."""
    wedge: Points = ((30.4, 2), (36.6, 2), (34, 20), (33, 20))
    head: Points = ((33.5, 26), (31.6, 20), (35.4, 20))
    return (
        Area(box(2, 17, 26, 7), "wood", "ink", EDGE),
        *plain_bit(15, 1, 25, 6),
        Area(wedge, "action", "action", THIN),
        Area(head, "action", "action", THIN),
    )


# --- dust, swarf, fluid ---


def curls() -> Shapes:
    """Curls of swarf beside a bit."""
    places = ((7, 20), (12.5, 22), (29, 21), (34, 19), (31, 14))
    return (
        Area(box(2, 25, 36, 3.4), "steel", "ink", EDGE),
        *plain_bit(20, 1, 26, 6),
        *moved((swarf(x / 1.3, y / 1.3, 0.8) for x, y in places), 0, 0, 1.3),
    )


def dust() -> Shapes:
    """A cloud of grains over a board."""
    places = ((8, 20), (13, 16), (18, 20.6), (22, 14), (27, 18), (31, 12), (34, 19), (16, 10))
    more = ((24, 8), (29, 5.5), (10, 12), (20, 5))
    return (Area(box(2, 24, 36, 4), "wood", "ink", EDGE), *grains((*places, *more)))


def dust_gate() -> Shapes:
    """A pipe with a flap drawn out."""
    return (
        Area(box(14, 0.8, 12, 27.4), "steel", "ink", EDGE),
        Area(box(11, 12, 26, 5), "action", "ink", EDGE),
        *arrow((28, 8), (37, 8), "ink", 1.2, 3.6),
    )


def hood() -> Shapes:
    """The wide end of the pipe."""
    mouth: Points = ((6, 3), (6, 26), (22, 18.5), (22, 10.5))
    return (
        Area(box(22, 10.5, 16, 8), "steel", "ink", EDGE),
        Area(mouth, "action", "ink", EDGE),
        *grains(((2.4, 10), (3.0, 15.4), (2.0, 19.6))),
    )


def hose() -> Shapes:
    """A pipe that bends."""
    way = ((2, 24), (9, 24), (14, 20), (16, 13), (20, 7), (27, 4.6), (38, 4.6))
    return (
        Line(way, "ink", 8.0),
        Line(way, "action", 6.4),
        Line(way, "paper", 0.9, dash=True),
    )


def vacuum() -> Shapes:
    """A vacuum on wheels with its hose."""
    way = ((19, 12), (13, 4), (6, 5), (5, 14), (5, 24))
    return (
        Line(way, "ink", 3.6),
        Area(((2, 24), (10, 24), (12, 28), (0.8, 28)), "action", "ink", 0.6),
        Area(rounded(18, 7, 20, 17, 4), "action", "ink", EDGE),
        Area(rounded(22, 3.4, 12, 4, 1.6), "soft", "ink", EDGE),
        Disc(23, 25, 3, "soft", "ink", EDGE),
        Disc(34, 25, 3, "soft", "ink", EDGE),
    )


def cutting_fluid() -> Shapes:
    """A drop from a brush."""
    drop: Points = ((28, 3), *arc(28, 13, 6, -28, 208))
    return (
        *moved(fluid_brush(0, 0), 17, 27, 0.68),
        Area(drop, "action", "ink", EDGE),
        Area(box(2, 26, 36, 2.6), "steel", "ink", 0.6),
    )


def goggles() -> Shapes:
    """Goggles."""
    return (
        Line(((1, 13), (39, 13)), "ink", 2.6),
        Area(rounded(5, 6, 30, 16, 6), "plastic", "action", 2.2),
        Line(((11, 17.5), (17, 9.5)), "paper", 1.4),
        Line(((25, 18), (29, 12.5)), "paper", 1.4),
    )


def lanyard() -> Shapes:
    """A cord with a card."""
    return moved(cord(0, 0), 20, 0.8, 1.36)


# --- when something goes wrong ---


def stuck() -> Shapes:
    """A bit fast in the work."""
    return (
        Area(box(3, 12, 34, 16), "steel", "ink", EDGE),
        *plain_bit(20, 1, 25, 7),
        *turning(20, 7, "ink"),
        *cross(34, 6, 4.6),
    )


def squeal() -> Shapes:
    """A loud bit."""
    waves = tuple(
        Line(arc(20, 15, r, a - 26, a + 26), "stop", 1.5) for r in (9, 14) for a in (0, 180)
    )
    return (*plain_bit(20, 1, 25, 7), Area(box(8, 25, 24, 3), "steel", "ink", 0.6), *waves)


def frayed() -> Shapes:
    """A belt with threads that stick out."""
    ends = ((7, 17.4, 4, 23), (14, 18, 12, 25), (22, 18, 23, 24.6), (30, 17.4, 34, 23))
    return (
        Area(rounded(2, 10, 36, 8, 2), "action", "ink", EDGE),
        *(
            Line(((a, b), ((a + c) / 2 + 1.4, (b + d) / 2), (c, d)), "ink", 0.9)
            for a, b, c, d in ends
        ),
        Line(((18, 10), (16, 6), (17, 3)), "ink", 0.9),
        Line(((26, 10), (28, 6.4), (26.6, 2.6)), "ink", 0.9),
    )


def near_miss() -> Shapes:
    """A chip that flew past a head."""
    chip: Points = ((32, 3), (37, 5.6), (33, 8))
    return (
        Disc(18, 15.6, 6.2, "soft", "ink", EDGE),
        Area((*arc(18, 28.6, 10, 180, 360, 0.6),), "soft", "ink", EDGE),
        Line(((3, 5.6), (26, 5.6)), "stop", 1.4, dash=True),
        *arrow((24, 5.6), (31, 5.6), "stop", 1.4, 4.0),
        Area(chip, "stop", "ink", 0.6),
    )


WORDS: Mapping[str, Callable[[], Shapes]] = MappingProxyType(
    {
        "isolator": isolator,
        "plug": the_plug,
        "red_stop": red_stop,
        "room_stop": room_stop,
        "latch": latch,
        "still": still,
        "lift_clear": lift_clear,
        "ease_off": ease_off,
        "swarf": curls,
        "dust": dust,
        "dust_gate": dust_gate,
        "hood": hood,
        "hose": hose,
        "vacuum": vacuum,
        "cutting_fluid": cutting_fluid,
        "goggles": goggles,
        "lanyard": lanyard,
        "stuck": stuck,
        "squeal": squeal,
        "frayed": frayed,
        "near_miss": near_miss,
    }
)
