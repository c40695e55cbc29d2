"""Pictures by name as plain shapes in millimetres, for the screen and for paper alike.

`draw` makes one from a `Picture` of the view. To scale wherever a length is given. The few words
and all numbers in it are written in the language of the words it is handed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from types import MappingProxyType

from kiosk.core.view import Picture
from kiosk.core.words import Words
from kiosk.drawings import (
    again,
    around,
    belts,
    clearing,
    clothes,
    depth,
    dial,
    gripping,
    guard,
    holding,
    isolator,
    marking,
    person,
    stopping,
    strokes,
    table,
    troubles,
    word_doing,
    word_drill,
    word_tools,
)
from kiosk.drawings.lettering import LEAST_TEXT, text_width
from kiosk.drawings.outlines import label, rounded
from kiosk.drawings.shapes import Area, Drawing
from kiosk.drawings.sheet import IN_ENGLISH, Marks, Shapes, Sheet, fitted
from kiosk.drawings.svg import to_svg
from kiosk.drawings.values import Values

Draughtsman = Callable[[Values, Sheet], Marks]
SHOP_WORDS = {**word_drill.WORDS, **word_tools.WORDS, **word_doing.WORDS}


def _of_word(shapes: Callable[[], Shapes]) -> Draughtsman:
    """A shop word's picture: no plan's values stand in it."""
    return lambda values, sheet: fitted(shapes(), sheet, word_drill.FRAME)


PICTURES: Mapping[str, Draughtsman] = MappingProxyType(
    {
        "adult": person.adult,
        "belts": belts.belts,
        "brush": clearing.brush,
        "chuck": gripping.chuck,
        "clamps": holding.clamps,
        "clothes": clothes.clothes,
        "depth": depth.depth,
        "dial": dial.dial,
        "drilling": strokes.drilling,
        "drilling_tape": strokes.drilling_tape,
        "extraction": clearing.extraction,
        "feet": around.feet,
        "fit_bit": gripping.fit_bit,
        "goggles": person.goggles,
        "grip": gripping.grip,
        "guard": guard.guard,
        "hair": person.hair,
        "isolator": isolator.isolator,
        "key_hook": gripping.key_hook,
        "leave": around.leave,
        "mark": marking.mark,
        "next_hole": again.next_hole,
        "on_mark": marking.on_mark,
        "plug_out": isolator.plug_out,
        "push": holding.push,
        "scrap": strokes.scrap,
        "set_up": around.set_up,
        "stops": stopping.stops,
        "stops_plug": stopping.stops_plug,
        "straight": gripping.straight,
        "table": table.table,
        "tape": depth.tape,
        "trial": strokes.trial,
        "vacuum": clearing.vacuum,
        "work_out": holding.work_out,
        "alarm": troubles.alarm,
        "bit_broken": troubles.bit_broken,
        "bit_jammed": troubles.bit_jammed,
        "gone": troubles.gone,
        "hurt": troubles.hurt,
        "power": troubles.power,
        "smoke": troubles.smoke,
        "work_spun": troubles.work_spun,
        **{f"word_{word}": _of_word(shapes) for word, shapes in SHOP_WORDS.items()},
    }
)


def draw(picture: Picture, width: float, height: float, words: Words = IN_ENGLISH) -> Drawing:
    """The picture on a sheet of `width` by `height` millimetres.

    `words` are the reader's. A sheet under 29.5 mm is a button's: it gets no text. A name
    nobody knows gives a blank with that name.
    """
    sheet = Sheet(width, height, words)
    draughtsman = PICTURES.get(picture.name)
    shapes = draughtsman(Values(picture.values), sheet) if draughtsman else _blank(picture, sheet)
    return sheet.drawing(shapes)


def _blank(picture: Picture, sheet: Sheet) -> Marks:
    frame = rounded(1, 1, sheet.width - 2, sheet.height - 2, 2)
    name = picture.name
    while name and text_width(name, LEAST_TEXT) > sheet.width - 6:
        name = name[:-1]
    edge = Area(frame, "paper", "soft", 0.5)
    return (edge, label(sheet.width / 2, sheet.height / 2, name, LEAST_TEXT, colour="soft"))


__all__ = ["PICTURES", "Drawing", "draw", "to_svg"]
