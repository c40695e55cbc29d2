"""Where it stops: the drill's red stop, the room stop and the isolator, each ringed and named.

A name is worth more than a large picture: the names take what they need, the pictures the rest.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.drawings.isolator import plug
from kiosk.drawings.lettering import DESCENT, LEADING, LEAST_TEXT, caption, wrapped
from kiosk.drawings.machine import Look, drill
from kiosk.drawings.outlines import STROKE, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import EDGE, Marks, Shapes, Sheet, fit, moved
from kiosk.drawings.signs import ring
from kiosk.drawings.values import Values

PARTING = 0.48  # where the two columns part, of the sheet's width
SPACE = 1.0  # mm between a picture, its name and the next picture
DRILL, ROUND = (33.0, 44.0), (13.0, 13.0)  # width and height of a picture
LARGEST = 1.15  # of the scale at which the other pictures on a sheet are drawn


@dataclass(frozen=True)
class Named:
    """A picture from its own corner on, how wide and tall it is, and what is written under it."""

    shapes: Shapes
    size: tuple[float, float]
    name: str


def stops(values: Values, sheet: Sheet) -> Marks:
    """The three at a drill with an isolator."""
    return _stops(sheet, _off_switch(6.5, 6.5), "isolator")


def stops_plug(values: Values, sheet: Sheet) -> Marks:
    """The same at a drill that has a plug instead of an isolator."""
    return _stops(sheet, plug(6.5, 5.4, 0.42), "plug")


def _stops(sheet: Sheet, switch: Shapes, word: str) -> Marks:
    machine = (
        *moved(drill(Look(stop=True)), -1.5, -1.2),
        Disc(10.7, 10.1, 2.7, "none", "action", 1.0),
    )
    room = (*ring(6.5, 6.5, 5.9), *room_stop(6.5, 6.5, 0.95))
    off = (*ring(6.5, 6.5, 5.9), *switch)
    middle = sheet.width * PARTING
    line = Line(((middle, 2.0), (middle, sheet.height - 2.0)), "soft", STROKE)
    return (
        line,
        *_column(sheet, 0, middle, (Named(machine, DRILL, _name(sheet, "red_stop")),)),
        *_column(
            sheet,
            middle,
            sheet.width - middle,
            (
                Named(room, ROUND, _name(sheet, "room_stop")),
                Named(off, ROUND, _name(sheet, word)),
            ),
        ),
    )


def _name(sheet: Sheet, word: str) -> str:
    """What a shop word is called here, by its short name if it has one."""
    return "" if sheet.small else sheet.say(word) or sheet.name(word)


def _column(sheet: Sheet, left: float, width: float, parts: tuple[Named, ...]) -> Marks:
    """Pictures one below the other, each over its name, in a strip of the sheet."""
    room = width - 2 * EDGE
    texts = [_height(part.name, room) for part in parts]
    spaces = SPACE * (2 * len(parts) + 1)
    free = sheet.height - spaces - sum(texts)
    wide, tall = max(p.size[0] for p in parts), sum(p.size[1] for p in parts)
    scale = min(free / tall, room / wide, fit(sheet).scale * LARGEST)
    over = (free - scale * tall) / (2 * len(parts))
    marks, top = (), SPACE + over
    for part, height in zip(parts, texts, strict=True):
        corner = left + (width - scale * part.size[0]) / 2
        under = top + scale * part.size[1] + SPACE
        marks += moved(part.shapes, corner, top, scale)
        marks += caption(left + width / 2, under + height / 2, part.name, room)
        top = under + height + SPACE + 2 * over
    return marks


def _height(name: str, room: float) -> float:
    """How tall a name stands with its descenders, in mm; 0 if it takes more than two lines."""
    lines = len(wrapped(name, room, 2)) if name else 0
    return LEAST_TEXT * (1 + (lines - 1) * LEADING + 2 * DESCENT) if lines else 0.0


def room_stop(x: float, y: float, size: float) -> Shapes:
    """The room stop on its plate, a mushroom seen from in front."""
    plate = rounded(x - 4 * size, y - 4 * size, 8 * size, 8 * size, 1)
    return (
        Area(plate, "caution", "ink", STROKE),
        Disc(x, y, 2.6 * size, "stop", "ink", STROKE),
    )


def _off_switch(x: float, y: float) -> Shapes:
    """The isolator in its box on the wall, at O."""
    return (
        Area(rounded(x - 3.6, y - 4.4, 7.2, 8.8, 1), "paper", "ink", STROKE),
        Disc(x, y, 2.3, "line", "ink", STROKE),
        Line(((x, y), (x - 2.2, y)), "ink", 1.4),
    )
