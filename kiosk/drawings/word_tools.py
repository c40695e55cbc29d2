"""Shop words of bits and the chuck, of holding and of marking, as bold pictures."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from functools import partial
from types import MappingProxyType

from kiosk.drawings.bits import Place, bit_shapes, plain_bit
from kiosk.drawings.chuck import chuck_below, chuck_body, key, key_hung
from kiosk.drawings.marking import crossed_lines, pen, plate, punch
from kiosk.drawings.outlines import Points, arc, arrow, bent_arrow, box, oval, rounded, turned
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Shapes, moved
from kiosk.drawings.signs import cross, fist, ring, up_and_down
from kiosk.drawings.word_drill import EDGE

# --- bits ---


def a_bit(kind: str, wide: float, point: float) -> Shapes:
    """A bit of one kind on its side, its tip to the left."""
    upright = bit_shapes(kind, Place(0, -19, 18, wide, point))
    return tuple(_lying(shape) for shape in upright)


def _lying(shape: Shape) -> Shape:
    if isinstance(shape, Area):
        return Area(_on_side(shape.points), shape.fill, "ink", 0.6)
    if isinstance(shape, Line):
        return Line(_on_side(shape.points), shape.colour, shape.width)
    return shape


def _on_side(points: Points) -> Points:
    return tuple((20 + x, 14.5 + y) for x, y in turned(points, 0, 0, 90))


def tip() -> Shapes:
    """The sharp end, ringed."""
    return (*plain_bit(20, 0.5, 20, 11), *ring(20, 19.6, 7.6))


# --- the chuck ---


def chuck() -> Shapes:
    """The chuck."""
    return (*plain_bit(20, 24, 29, 3.4), *moved(chuck_body(0, 0, gap=3.6), 20, 0, 0.88))


def jaw() -> Shapes:
    """The chuck from below, one of its three jaws in colour."""
    blade = turned(box(-2.3, -11.6, 4.6, 9.0), 0, 0, 0)
    held = Area(tuple((20 + x, 14.5 + y) for x, y in blade), "action", "ink", EDGE)
    return (*chuck_below(20, 14.5, 13.6, 5), held)


def the_key() -> Shapes:
    """The chuck key on its side."""
    lying = (_turned(s, -90) for s in key(0, -13))
    return tuple(moved(lying, 20, 14.5, 1.25))


def _turned(shape: Shape, degrees: float) -> Shape:
    assert isinstance(shape, Area)
    return Area(turned(shape.points, 0, 0, degrees), shape.fill, shape.edge, shape.width)


def hook() -> Shapes:
    """The hook, in colour, with the key on it."""
    curl = (*((20, 4.5), (20, 9)), *arc(22, 9, 2, 180, 20)[1:])
    return (
        Area(rounded(8, 0.5, 24, 28, 2), "wood", "ink", EDGE),
        *moved(key_hung(0, 0, "steel"), 20, 3, 0.66),
        Disc(20, 3.4, 2.2, "action", "ink", 0.6),
        Line(curl, "action", 1.8),
    )


def guard() -> Shapes:
    """The clear cover round chuck and bit."""
    return (
        Area(rounded(8, 3, 24, 22, 2), "plastic", "action", 1.4),
        *plain_bit(20, 15, 23, 2.6),
        *moved(chuck_body(0, 0), 20, 1, 0.52),
        Area(rounded(5, 2, 30, 3, 1.4), "action", "ink", 0.6),
        Area(box(3, 26, 34, 2.6), "steel", "ink", 0.6),
    )


# --- holding ---


def work() -> Shapes:
    """The piece that is drilled."""
    return moved(_in_colour(plate("wood")), 1, -11, 0.64)


def _in_colour(shapes: Shapes) -> Shapes:
    return tuple(Area(s.points, s.fill, "ink", 1.3) if isinstance(s, Area) else s for s in shapes)


def vice() -> Shapes:
    """A vice from the side that holds a block."""
    return (
        Area(box(2, 22, 33, 5), "soft", "ink", EDGE),
        Area(box(4, 8, 7, 14.5), "soft", "ink", EDGE),
        Area(box(22, 8, 7, 14.5), "soft", "ink", EDGE),
        Area(box(11, 10, 11, 10), "wood", "ink", EDGE),
        Line(((29, 15), (37, 15)), "ink", 2.2),
        Line(((37, 9.5), (37, 20.5)), "ink", 1.6),
    )


def clamp() -> Shapes:
    """A strap that presses work down on the table, its bolt and nut in colour."""
    return (
        Area(box(2, 22, 36, 5), "steel", "ink", EDGE),
        Area(box(3, 15, 14, 7), "wood", "ink", EDGE),
        Area(box(30, 15, 6, 7), "soft", "ink", EDGE),
        Line(((23, 5), (23, 24)), "ink", 2.0),
        Area(rounded(9, 10.4, 27, 4.6, 1.2), "soft", "ink", EDGE),
        Area(box(19.4, 6.6, 7.2, 3.8), "action", "ink", EDGE),
        *arrow((12, 1.5), (12, 9), "action", 1.4, 3.8),
    )


def v_block() -> Shapes:
    """A block with a V in it, and round work there."""
    block: Points = ((6, 9), (11, 9), (20, 19), (29, 9), (34, 9), (34, 28), (6, 28))
    return (Area(block, "soft", "ink", EDGE), Disc(20, 9.6, 6.6, "wood", "ink", EDGE))


def scrap() -> Shapes:
    """Waste wood under the work, the bit through to it."""
    return (
        Area(box(2, 18, 36, 9), "wood", "action", 1.4),
        Area(box(5, 12, 30, 6), "steel", "ink", EDGE),
        *plain_bit(20, 1, 22.5, 6),
    )


def grip() -> Shapes:
    """Two jaws that press a block from both sides."""
    return (
        Area(box(14, 8, 12, 13), "wood", "ink", EDGE),
        Area(box(8, 6, 6, 17), "soft", "ink", EDGE),
        Area(box(26, 6, 6, 17), "soft", "ink", EDGE),
        *arrow((0.8, 14.5), (7.4, 14.5), "action", 1.8, 4.4),
        *arrow((39.2, 14.5), (32.6, 14.5), "action", 1.8, 4.4),
    )


def bolt() -> Shapes:
    """A bolt through two plates with its nut."""
    thread = tuple(Line(((17, y), (23, y - 1.2)), "ink", 0.6) for y in (23.4, 25.8, 28))
    return (
        Area(box(3, 8, 34, 5), "steel", "ink", EDGE),
        Area(box(3, 13, 34, 5), "line", "ink", EDGE),
        Area(box(17, 8, 6, 20.4), "action", "ink", EDGE),
        *thread,
        Area(box(13, 2.4, 14, 5.6), "action", "ink", EDGE),
        Area(box(14, 18, 12, 4), "soft", "ink", EDGE),
    )


def tighten() -> Shapes:
    """A nut and the way it is turned."""
    nut = tuple(arc(20, 15.5, 7.4, a, a)[0] for a in range(0, 360, 60))
    return (
        Area(nut, "soft", "ink", EDGE),
        Disc(20, 15.5, 3.2, "paper", "ink", EDGE),
        *bent_arrow(arc(20, 15.5, 12.4, 165, 375), "action", 1.8, 4.6),
    )


def push_test() -> Shapes:
    """A fist against held work."""
    return (
        Area(box(15, 4, 12, 3.4), "soft", "ink", EDGE),
        Area(box(15, 21.6, 12, 3.4), "soft", "ink", EDGE),
        Area(box(15, 7.4, 12, 14.2), "wood", "ink", EDGE),
        *arrow((1, 14.5), (14, 14.5), "action", 2.0, 5.0),
        *moved(fist(0, 0, 0, 0.62), 30.4, 14.5),
    )


def trial_stroke() -> Shapes:
    """The bit down to the work and up again, not turning."""
    return (
        Area(box(4, 20, 24, 7), "wood", "ink", EDGE),
        *plain_bit(16, 1, 19.4, 6),
        *up_and_down(34, 2, 27),
        *cross(6.4, 8, 4.4),
    )


# --- marking ---


def mark() -> Shapes:
    """Two lines that cross on the work."""
    return moved((*_in_colour(plate("wood")), *crossed_lines()), 1, -11, 0.64)


def centre_punch() -> Shapes:
    """The centre punch on the work."""
    return moved((*plate("steel"), *punch()), 3, -0.5, 0.61)


def felt_pen() -> Shapes:
    """A felt pen on plastic."""
    return moved((*plate("plastic"), *pen(False)), 3, -1.5, 0.63)


def dent() -> Shapes:
    """A small dip where the lines cross."""
    dip = (Area(oval(0, 0, 9, 5.4), "soft", "ink", EDGE), Area(oval(0.6, 0.6, 4.4, 2.4), "ink"))
    return (*moved(_in_colour(plate("steel")), 1, -11, 0.64), *moved(dip, 19, 10.4))


WORDS: Mapping[str, Callable[[], Shapes]] = MappingProxyType(
    {
        "bit": partial(a_bit, "twist", 8, 2.4),
        "tip": tip,
        "twist_bit": partial(a_bit, "twist", 8, 2.4),
        "plastics_bit": partial(a_bit, "plastics", 8, 6.5),
        "lip_and_spur_bit": partial(a_bit, "lip_and_spur", 10, 5),
        "forstner_bit": partial(a_bit, "forstner", 22, 3),
        "flat_bit": partial(a_bit, "flat", 20, 9),
        "hole_saw": partial(a_bit, "hole_saw", 22, 4),
        "countersink": partial(a_bit, "countersink", 20, 10),
        "step_drill": partial(a_bit, "step_drill", 18, 20),
        "chuck": chuck,
        "jaw": jaw,
        "key": the_key,
        "hook": hook,
        "guard": guard,
        "work": work,
        "vice": vice,
        "clamp": clamp,
        "v_block": v_block,
        "scrap": scrap,
        "grip": grip,
        "bolt": bolt,
        "tighten": tighten,
        "push_test": push_test,
        "trial_stroke": trial_stroke,
        "mark": mark,
        "centre_punch": centre_punch,
        "felt_pen": felt_pen,
        "dent": dent,
    }
)
