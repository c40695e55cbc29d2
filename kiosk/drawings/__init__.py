"""Pictures by name as plain shapes in millimetres, for the screen and for paper alike.

`draw` makes one from a `Picture` of the view. To scale wherever a length is given. No words
stand in a picture but quantities with their units, so it needs no language of its own.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from kiosk.core.view import Picture
from kiosk.drawings import (
    belts,
    chuck,
    clearing,
    depth,
    dial,
    guard,
    holding,
    isolator,
    machine,
    marking,
    person,
    troubles,
)
from kiosk.drawings.outlines import label, rounded
from kiosk.drawings.shapes import Area, Drawing, Shape
from kiosk.drawings.sheet import LEAST_TEXT, Sheet, in_english, text_width
from kiosk.drawings.svg import to_svg
from kiosk.drawings.values import Values

Draughtsman = Callable[[Values, Sheet], tuple[Shape, ...]]

PICTURES: Mapping[str, Draughtsman] = MappingProxyType(
    {
        "adult": person.adult,
        "belts": belts.belts,
        "brush": clearing.brush,
        "chuck": chuck.chuck,
        "clamps": holding.clamps,
        "depth": depth.depth,
        "dial": dial.dial,
        "drilling": depth.drilling,
        "feet": machine.feet,
        "goggles": person.goggles,
        "guard": guard.guard,
        "hair": person.hair,
        "isolator": isolator.isolator,
        "key_hook": chuck.key_hook,
        "mark": marking.mark,
        "on_mark": marking.on_mark,
        "scrap": depth.scrap,
        "set_up": machine.set_up,
        "stops": machine.stops,
        "table": holding.table,
        "trial": depth.trial,
        "vacuum": clearing.vacuum,
        "alarm": troubles.alarm,
        "bit_broken": troubles.bit_broken,
        "bit_jammed": troubles.bit_jammed,
        "gone": troubles.gone,
        "hurt": troubles.hurt,
        "power": troubles.power,
        "smoke": troubles.smoke,
        "work_spun": troubles.work_spun,
    }
)


def draw(
    picture: Picture,
    width: float,
    height: float,
    number: Callable[[object], str] = in_english,
) -> Drawing:
    """The picture on a sheet of `width` by `height` millimetres.

    `number` writes quantities with their units in the reader's language. A sheet under 45 by
    34 mm is a button's: it gets no text. A name nobody knows gives a blank with that name.
    """
    sheet = Sheet(width, height, number)
    draughtsman = PICTURES.get(picture.name)
    shapes = draughtsman(Values(picture.values), sheet) if draughtsman else _blank(picture, sheet)
    return sheet.drawing(shapes)


def _blank(picture: Picture, sheet: Sheet) -> tuple[Shape, ...]:
    frame = rounded(1, 1, sheet.width - 2, sheet.height - 2, 2)
    fits = int((sheet.width - 6) / text_width("m", LEAST_TEXT))
    name = picture.name[: max(0, fits)]
    edge = Area(frame, "paper", "line", 0.5)
    return (edge, label(sheet.width / 2, sheet.height / 2, name, LEAST_TEXT, colour="soft"))


__all__ = ["PICTURES", "Drawing", "draw", "to_svg"]
