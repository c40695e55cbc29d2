"""The drill and what is around it: the stops, the floor, the set-up as it stands and is left."""

from __future__ import annotations

from math import floor

from kiosk.core.units import Length
from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_body, key_hung
from kiosk.drawings.gripping import drawn_width
from kiosk.drawings.isolator import plug, socket
from kiosk.drawings.lettering import LEADING, LEAST_TEXT, caption
from kiosk.drawings.machine import Look, drill
from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, oval, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Fit, Marks, Shapes, Sheet, fit, fitted, moved
from kiosk.drawings.signs import cross, eye, ring, tick
from kiosk.drawings.values import Values

ROOM_STOP, OFF_SWITCH = (45.0, 6.0), (45.0, 29.8)  # where these stand on the frame
NAME_ROOM = 12.0  # of the frame, between two rings, for the name under its picture
RINGS = 1.6  # mm of that room which the rings' edges take, whatever the scale


def stops(values: Values, sheet: Sheet) -> Marks:
    """Where the drill's red stop, the isolator and the room stop are, each ringed and named."""
    return _stops(sheet, _off_switch(*OFF_SWITCH), "isolator")


def stops_plug(values: Values, sheet: Sheet) -> Marks:
    """The same at a drill that has a plug instead of an isolator."""
    x, y = OFF_SWITCH
    return _stops(sheet, (*socket(x + 0.6, y - 3.8, 0.38), *plug(x - 2.6, y, 0.34)), "plug")


def _stops(sheet: Sheet, switch: Shapes, named: str) -> Marks:
    at, (x, y) = fit(sheet), ROOM_STOP
    machine = moved(drill(Look(stop=True)), -0.4, -0.6, 0.78)
    shapes = (
        *machine,
        Line(((30.5, 2), (30.5, 46)), "soft", 0.5),
        *room_stop(x, y, 0.86),
        *switch,
        *ring(9.1, 8.2, 3.6),
        *ring(x, y, 5.4),
        *ring(*OFF_SWITCH, 6.2),
    )
    names = (
        *_named(at, sheet, 14.5, 42, "red_stop", rings=0),
        *_named(at, sheet, x, 17.4, "room_stop"),
        *_named(at, sheet, x, 42, named),
    )
    return (*at.place(shapes), *names)


def _named(at: Fit, sheet: Sheet, x: float, y: float, word: str, rings: float = RINGS) -> Marks:
    """A shop word under its picture, by its short name if it has one, where there is room."""
    left, top = at.at(x, y)
    lines = 1 + floor((NAME_ROOM * at.scale - rings - LEAST_TEXT) / LEAST_TEXT / LEADING)
    name = sheet.say(word) or sheet.name(word)
    return caption(left, top, name, 29 * at.scale, lines=lines)


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


# --- the set-up ---


def set_up(values: Values, sheet: Sheet) -> Marks:
    """The drill with all that makes its set-up in the action colour, and its numbers."""
    at = fit(sheet)
    look = Look(chuck=True, cover=True, table=True, scale=True)
    room = 24.0 * at.scale
    machine = (*moved(drill(look), 26, 1), *eye(10, 40, 13))
    numbers = [
        (values.get("speed"), 5.0),
        (_found(values, "bit_diameter", "diameter"), 26.0),
        (_found(values, "stop"), 16.0),
    ]
    texts: Marks = ()
    for value, y in numbers:
        if value is not None:
            left, top = at.at(24.6, y)
            text = sheet.number(value, room).replace("\u00a0", " ")
            texts += caption(left, top, text, room, "right", "action")
    return (*at.place(machine), *texts)


def _found(values: Values, *names: str) -> Length | None:
    found = (values.get(name) for name in names)
    return next((each for each in found if isinstance(each, Length)), None)


def leave(values: Values, sheet: Sheet) -> Marks:
    """The bit left in the chuck, and with a keyed chuck the key on its hook."""
    wide = drawn_width(values) * 0.9
    keyed = values.word("chuck", "keyed") != "keyless"
    x = 17.0 if keyed else 26.0
    hook: Shapes = ()
    if keyed:
        board = Area(rounded(36, 2, 21, 40, 2), "wood", "ink", STROKE)
        hook = (board, *key_hung(46.5, 5), *tick(55, 40))
    body = (*bit(values, x, 26, 46, wide), *chuck_body(x, 1, keyed, gap=wide))
    return fitted((*body, *tick(x + 11, 40), *hook), sheet)


# --- the floor ---


def feet(values: Values, sheet: Sheet) -> Marks:
    """The floor in front of the drill from above: two feet on a clear place, bag and stool away."""
    zone = rounded(2, 18, 36, 28, 2)
    machine = (
        Area(rounded(7, 1, 26, 14, 1.5), "soft", "ink", STROKE),
        Disc(20, 5.5, 2.6, "line", "ink", STROKE),
        Area(rounded(13, 8, 14, 9, 1.2), "steel", "ink", STROKE),
        Disc(20, 12.5, 0.9, "bit", "bit", THIN),
    )
    edge = Area(zone, "paper", "ink", 1.8), Line((*zone, zone[0]), "caution", 1.0)
    away = (*bag(51.5, 15), *stool(51.5, 33), *cross(56, 24.6, 3.0), *cross(56, 43, 3.0))
    pupil = (*_shoe(14, 30), *_shoe(26, 30))
    return fitted((*edge, *machine, *pupil, *away), sheet)


def bag(x: float, y: float) -> Shapes:
    """A school bag seen from in front."""
    return (
        Line(
            ((x - 2.4, y - 7), (x - 2.4, y - 10), (x + 2.4, y - 10), (x + 2.4, y - 7)), "ink", 1.0
        ),
        Area(rounded(x - 6, y - 7.5, 12, 14, 3), "soft", "ink", STROKE),
        Area(rounded(x - 4.2, y, 8.4, 5, 1.2), "line", "ink", STROKE),
    )


def stool(x: float, y: float) -> Shapes:
    """A stool seen from in front."""
    legs = (((x - 4, y), (x - 5.6, y + 11)), ((x + 4, y), (x + 5.6, y + 11)))
    bar = Line(((x - 4.8, y + 6), (x + 4.8, y + 6)), "ink", 0.9)
    seat = Area(rounded(x - 6, y - 2.6, 12, 3, 1), "wood", "ink", STROKE)
    return (*(Line(leg, "ink", BOLD) for leg in legs), bar, seat)


def _shoe(x: float, y: float) -> Shapes:
    return (
        Area(oval(x, y, 7.4, 12.4), "ink", "ink", THIN),
        Area(_heel(x, y + 8.2), "ink", "ink", THIN),
    )


def _heel(x: float, y: float) -> Points:
    return rounded(x - 2.7, y - 1.2, 5.4, 5.2, 2.4)
