"""The drill and what is around it: the floor, the set-up as it stands and is left."""

from __future__ import annotations

from kiosk.core.units import Length
from kiosk.drawings.bits import bit
from kiosk.drawings.chuck import chuck_body, key_hung
from kiosk.drawings.gripping import drawn_width
from kiosk.drawings.lettering import LEADING, LEAST_TEXT, caption, text_width, wrapped
from kiosk.drawings.machine import Look, drill
from kiosk.drawings.outlines import BOLD, STROKE, THIN, Points, oval, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import EDGE, FRAME, Fit, Marks, Shapes, Sheet, fit, fitted, moved
from kiosk.drawings.signs import cross, eye, tick
from kiosk.drawings.values import Values

NUMBERS_END = 24.6  # how far right the set-up's numbers stand on the frame
EYE = 5.0  # above and below the middle of the eye, on the frame
MARGIN = 1.6  # mm at the sheet's edge

# --- the set-up ---


def set_up(values: Values, sheet: Sheet) -> Marks:
    """The drill with all that makes its set-up in the action colour, and its numbers."""
    texts = _numbers(values, sheet)
    at = _beside(sheet, [text for text, _ in texts])
    look = Look(chuck=True, cover=True, table=True, scale=True)
    marks, free = at.place(moved(drill(look), 26, 1)), 0.0
    for text, y in texts:
        right, middle = at.at(NUMBERS_END, y)
        lines = len(wrapped(text, right - EDGE, 3))
        half = LEAST_TEXT * (LEADING * (lines - 1) + 1) / 2
        middle = max(middle, free + half)
        marks += caption(right, middle, text, right - EDGE, "right", "action", lines=3)
        free = middle + half + LEAST_TEXT * (LEADING - 1)
    x, y = at.at(10, 40)
    y = max(y, free + EYE * at.scale)
    has_room = y + EYE * at.scale < sheet.height
    return (*marks, *(moved(eye(0, 0, 13), x, y, at.scale) if has_room else ()))


def _numbers(values: Values, sheet: Sheet) -> list[tuple[str, float]]:
    """Each number as it is written, from the top, and how high on the frame its part is."""
    found = (
        (values.get("speed"), 5.0),
        (_found(values, "stop"), 16.0),
        (_found(values, "bit_diameter", "diameter"), 26.0),
    )
    if sheet.small:
        return []
    room = NUMBERS_END * fit(sheet).scale
    written = ((sheet.number(value, room), y) for value, y in found if value is not None)
    return [(text.replace("\u00a0", " "), y) for text, y in written]


def _beside(sheet: Sheet, texts: list[str]) -> Fit:
    """The frame as large as it fits, or smaller where a word of the texts needs more room."""
    words = [word for text in texts for word in text.replace("/", "/ ").split()]
    room = max((text_width(word, LEAST_TEXT) for word in words), default=0.0) + EDGE + 0.2
    at, wide = fit(sheet), sheet.width - MARGIN
    if sheet.small or at.at(NUMBERS_END, 0)[0] >= room:
        return at
    scale = min(at.scale, (wide - room) / (FRAME[0] - NUMBERS_END))
    return Fit(wide - FRAME[0] * scale, (sheet.height - FRAME[1] * scale) / 2, scale)


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
