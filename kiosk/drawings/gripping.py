"""The bit into the chuck: pushed up, gripped by all jaws, straight, and the key on its hook."""

from __future__ import annotations

from kiosk.core.units import Length
from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_below, chuck_body, key_hung, key_in
from kiosk.drawings.lettering import caption
from kiosk.drawings.outlines import STROKE, arc, arrow, bent_arrow, rounded, turned
from kiosk.drawings.shapes import Area, Disc, Line, Shape
from kiosk.drawings.sheet import Marks, Shapes, Sheet, fit, moved
from kiosk.drawings.signs import divider, verdict
from kiosk.drawings.values import Values


def drawn_width(values: Values) -> float:
    """How wide a bit is drawn where the chuck is not to scale, on the frame."""
    return min(7.0, max(2.2, values.bit_diameter * 0.6))


def fit_bit(values: Values, sheet: Sheet) -> Marks:
    """The bit going up into the open chuck; its edges close to: sharp, or chipped and wrong."""
    wide, at = drawn_width(values), fit(sheet)
    text = sheet.number(Length(values.bit_diameter), sheet.width * 0.5)
    x, y = at.at(15, 2.4)
    shapes = (
        *bit(values, 15, 31, 47.5, wide),
        *moved(chuck_body(0, 0, _is_keyed(values), gap=(wide + 2.4) / 0.92), 15, 6, 0.92),
        *arrow((4.5, 47), (4.5, 31), "action", 1.6, 4.6),
        *_close(values, 45, 8.6, False),
        *_close(values, 45, 32.6, True),
    )
    verdicts = (*verdict(at, sheet, 45, 20.4, True), *verdict(at, sheet, 45, 44.4, False))
    words = caption(x, y, text, sheet.width * 0.5, "middle", "action", lines=1)
    return (*at.place(shapes), *words, *verdicts)


def _close(values: Values, x: float, y: float, is_chipped: bool) -> Shapes:
    """A bit's end under a glass; chips are bitten out of its edges."""
    wide = 8.4
    tip = bit(values, x, y - 6.6, y + 5.8, wide)
    chips = (((x + 4.5, y - 1.5), (x + 1.7, y + 0.2), (x + 4.6, y + 2.2)),)
    chips += (((x - 3.2, y + 6.2), (x - 1.2, y + 2.2), (x + 0.2, y + 6.4)),)
    bitten = tuple(Area(chip, "paper", "paper", 0.3) for chip in chips) if is_chipped else ()
    return (*tip, *bitten, Disc(x, y, 8.2, "none", "ink", 1.0))


def grip(values: Values, sheet: Sheet) -> Marks:
    """The chuck done up, and from below: the bit between three jaws, or wrongly between two."""
    at = fit(sheet)
    wide = drawn_width(values)
    shapes = (
        *bit(values, 15, 24, 46, wide),
        *chuck_body(15, 2, _is_keyed(values), gap=wide),
        *_tightening(values),
        *chuck_below(45, 8.6, 8, min(wide, 4.6)),
        *chuck_below(45, 32.6, 8, min(wide, 4.6), aside=True),
    )
    verdicts = (*verdict(at, sheet, 45, 20.4, True), *verdict(at, sheet, 45, 44.4, False))
    return (*at.place(shapes), *verdicts)


def _tightening(values: Values) -> Shapes:
    """The key in its hole with the way it turns, or the way the ring turns by hand."""
    turn = bent_arrow(arc(15, 14.5, 13.5, 150, 30, 0.36), "action", 1.5, 4.2)
    if not _is_keyed(values):
        return turn
    return (*key_in(15, 7.8), *bent_arrow(arc(15, 7.8, 12.5, -150, -40, 0.56), "action", 1.5, 4.2))


def straight(values: Values, sheet: Sheet) -> Marks:
    """The bit that turns on one spot, beside one that wobbles."""
    at, wide = fit(sheet), drawn_width(values) * 0.8
    keyed = _is_keyed(values)
    shapes = (
        *_half(values, 15, wide, keyed, 0.0),
        *_half(values, 45, wide, keyed, 9.0),
        *divider(30),
    )
    right, wrong = verdict(at, sheet, 15, 44.5, True), verdict(at, sheet, 45, 44.5, False)
    return (*at.place(shapes), *right, *wrong)


def _half(values: Values, x: float, wide: float, keyed: bool, lean: float) -> Shapes:
    """A chuck with a bit that leans so many degrees, and where its tip goes round."""
    upright = bit(values, x, 21, 36.5, wide)
    leaning = tuple(_leaning(shape, x, lean) for shape in upright)
    other = tuple(_leaning(shape, x, -lean) for shape in upright[:1])
    ghost = tuple(
        Line((*s.points, s.points[0]), "soft", STROKE, dash=True)
        for s in other
        if lean and isinstance(s, Area)
    )
    body = moved(chuck_body(0, 0, keyed, gap=wide / 0.86), x, 0, 0.86)
    spin = bent_arrow(arc(x, 12.2, 12.0, 150, 30, 0.3), "action", 1.3, 3.8)
    spot = Line(arc(x, 37.6, 4.6 if lean else 1.0, 0, 360, 0.3), "stop" if lean else "action", 0.9)
    return (*ghost, *leaning, *body, *spin, spot)


def _leaning(shape: Shape, x: float, degrees: float) -> Shape:
    if isinstance(shape, Area):
        return Area(turned(shape.points, x, 22, degrees), shape.fill, shape.edge, shape.width)
    if isinstance(shape, Line):
        return Line(turned(shape.points, x, 22, degrees), shape.colour, shape.width)
    return shape


def key_hook(values: Values, sheet: Sheet) -> Marks:
    """The key hanging on its hook, right; the key left in the chuck, wrong."""
    at = fit(sheet)
    board = Area(rounded(3, 1, 23, 37.5, 2), "wood", "ink", STROKE)
    shapes = (
        board,
        *key_hung(14.5, 3.6),
        *bit(values, 40, 24, 38, drawn_width(values) * 0.8),
        *chuck_body(40, 1, True, gap=drawn_width(values) * 0.8),
        *key_in(40, 6.8, "caution"),
    )
    right, wrong = verdict(at, sheet, 14.5, 44.2, True), verdict(at, sheet, 44, 44.2, False)
    return (*at.place(shapes), *right, *wrong)


def chuck(values: Values, sheet: Sheet) -> Marks:
    """The bit straight in the chuck, and from below with a jaw on every third of it."""
    wide, at = drawn_width(values), fit(sheet)
    text = sheet.number(Length(values.bit_diameter), sheet.width * 0.45)
    shapes = (
        *bit(values, 17, 26, 47, wide),
        *chuck_body(17, 1, _is_keyed(values), gap=wide),
        *chuck_below(45, 17, 13, wide),
    )
    x, y = at.at(45, 38)
    return (*at.place(shapes), *caption(x, y, text, sheet.width * 0.45, colour="action"))


def _is_keyed(values: Values) -> bool:
    return values.word("chuck", "keyed") != "keyless"
