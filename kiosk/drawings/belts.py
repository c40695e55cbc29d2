"""The stepped pulleys seen from the side, and the belt, or both belts, on their grooves.

Pulley diameters are to scale with each other; the distance between the shafts is not. With a
stepped idler there are three shafts: one belt runs to it and a second on to the spindle.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.drawings.lettering import LEADING, LEAST_TEXT, caption, text_width, wrapped
from kiosk.drawings.outlines import STROKE, THIN, arrow, box, label, rounded
from kiosk.drawings.shapes import Area, Disc, Line
from kiosk.drawings.sheet import Mark, Marks, Shapes, Sheet
from kiosk.drawings.values import Values

LARGEST, SMALLEST = 110.0, 50.0  # diameters where none are given
LEAST_ROW = LEAST_TEXT * LEADING  # mm from one groove's number to the next
NUMBERS = 10.5  # mm at the left for the grooves' numbers
ASIDE = 5.6  # mm more where two discs need to stand side by side
STEM = 9.0  # mm under the pulleys for motor and spindle
SPEED = LEAST_TEXT * 1.8  # mm under these for a line of the speed


@dataclass(frozen=True)
class Drive:
    """Where the pulleys stand, from the motor's to the spindle's.

    Diameters and middle of each shaft; the groove of each belt, the first from the motor, and
    where the first lies now, 0 where nobody knows; the top groove's top and a groove's height.
    """

    shafts: tuple[tuple[float, ...], ...]
    xs: tuple[float, ...]
    belts: tuple[int, ...]
    now: int
    top: float
    row: float
    scale: float
    small: bool

    @property
    def grooves(self) -> int:
        """How many grooves each pulley has."""
        return len(self.shafts[0])

    @property
    def left(self) -> float:
        """The motor pulley's left rim."""
        return self.xs[0] - max(self.shafts[0]) * self.scale / 2

    @property
    def right(self) -> float:
        """The spindle pulley's right rim."""
        return self.xs[-1] + max(self.shafts[-1]) * self.scale / 2

    def y(self, groove: int) -> float:
        """The middle height of a groove, 1 at the top."""
        return self.top + (groove - 0.5) * self.row


def belts(values: Values, sheet: Sheet) -> Marks:
    """Grooves numbered from the top, the belt on the wanted one and its speed; where it is now."""
    drive = _drive(values, sheet)
    pulleys = zip(drive.shafts, drive.xs, strict=True)
    return (
        *_cover(drive),
        *_stem(drive, drive.xs[0], "motor"),
        *_stem(drive, drive.xs[-1], "spindle"),
        *(shape for diameters, x in pulleys for shape in _pulley(drive, diameters, x)),
        *(shape for number in range(len(drive.belts)) for shape in _belt(drive, number)),
        *_now(drive, sheet),
        *_numbers(drive, sheet),
        *_speed(values, drive, sheet),
    )


def _drive(values: Values, sheet: Sheet) -> Drive:
    shafts, grooves = _diameters(values), _belt_grooves(values)
    grooves = tuple(min(groove, len(shafts[0])) for groove in grooves[: len(shafts) - 1])
    now = min(values.count("groove_now", 0), len(shafts[0]))
    now = 0 if now == grooves[0] or sheet.small else now
    top, row = _rows(sheet, len(shafts[0]), _speed_room(values, sheet))
    left, gap = (1.5, 2.0) if sheet.small else (NUMBERS + 1.0 + _aside(grooves, row), 4.0)
    right = 1.5 if sheet.small else 4.0 + (_now_width(sheet) if now else 0.0)
    widest = [max(shaft) for shaft in shafts]
    scale = (sheet.width - left - right - gap * (len(shafts) - 1)) / sum(widest)
    xs = tuple(
        left + (sum(widest[:i]) + widest[i] / 2) * scale + gap * i for i in range(len(shafts))
    )
    return Drive(shafts, xs, grooves, now, top, row, scale, sheet.small)


def _rows(sheet: Sheet, count: int, speed: float) -> tuple[float, float]:
    """The top groove's top and a groove's height, so that all stand in the middle."""
    head, foot = (3.0, 4.0) if sheet.small else (3.6, STEM + speed)
    row = min((sheet.height - head - foot) / count, sheet.height * 0.14)
    return head + (sheet.height - head - foot - row * count) / 2, row


def _aside(grooves: tuple[int, ...], row: float) -> float:
    """How far the second wanted groove's number stands aside of the first, in mm."""
    between = abs(grooves[-1] - grooves[0]) * row
    return ASIDE if 0 < between < LEAST_ROW + 0.4 else 0.0


def _belt_grooves(values: Values) -> tuple[int, ...]:
    first = values.count("groove", 1)
    return first, values.count("second_groove", first)


def _now_width(sheet: Sheet) -> float:
    return max(text_width(sheet.say("now"), LEAST_TEXT), 3.0) + 2.6


def _diameters(values: Values) -> tuple[tuple[float, ...], ...]:
    motor, spindle = values.lengths("motor"), values.lengths("spindle")
    idler = values.lengths("idler")
    if motor and len(motor) == len(spindle):
        return (motor, idler, spindle) if len(idler) == len(motor) else (motor, spindle)
    return _assumed(values)


def _assumed(values: Values) -> tuple[tuple[float, ...], ...]:
    """Pulleys of usual proportions, where only the plate is known."""
    given = values.count("groove", 1), values.count("second_groove", 0)
    count = values.count("grooves", max(4, *given))
    step = (LARGEST - SMALLEST) / max(1, count - 1)
    falling = tuple(LARGEST - step * i for i in range(count))
    between = (falling[::-1],) if given[1] else ()
    return falling, *between, falling if between else falling[::-1]


# --- pulleys and belts ---


def _cover(drive: Drive) -> Shapes:
    top, bottom = drive.top - 2.2, drive.top + drive.row * drive.grooves + 1.2
    outline = rounded(drive.left - 1.2, top, drive.right - drive.left + 2.4, bottom - top, 2.2)
    return (Area(outline, "none", "soft", STROKE),)


def _stem(drive: Drive, x: float, end: str) -> Shapes:
    bottom = drive.top + drive.row * drive.grooves
    if drive.small:
        return (Area(box(x - 0.9, bottom, 1.8, 3.0), "soft", "soft", THIN),)
    stem = Area(box(x - 0.9, bottom, 1.8, 4.0), "soft", "soft", THIN)
    if end == "motor":
        return (stem, Area(rounded(x - 6, bottom + 2.4, 12, 6.0, 1.2), "soft", "soft", THIN))
    jaws = ((x - 3.0, bottom + 2.4), (x + 3.0, bottom + 2.4), (x + 1.4, bottom + 5.8))
    return (
        stem,
        Area((*jaws, (x - 1.4, bottom + 5.8)), "soft", "soft", THIN),
        Line(((x, bottom + 5.8), (x, bottom + 8.2)), "bit", 1.2),
    )


def _pulley(drive: Drive, diameters: tuple[float, ...], x: float) -> Shapes:
    return tuple(
        Area(_groove(x, drive.y(i), mm * drive.scale, drive.row), "steel", "ink", 0.4)
        for i, mm in enumerate(diameters, start=1)
    )


def _groove(x: float, y: float, diameter: float, row: float) -> tuple[tuple[float, float], ...]:
    """A groove's two flanges and the notch between them, `diameter` over the flanges."""
    half, lip, notch = diameter / 2, row / 2, min(1.3, diameter * 0.08)
    heights = (-lip, -lip * 0.6, 0.0, lip * 0.6, lip)
    right = tuple((x + half - (0.0 if dy else notch), y + dy) for dy in heights)
    left = tuple((2 * x - px, py) for px, py in reversed(right))
    return (*right, *left)


def _belt(drive: Drive, number: int) -> Shapes:
    """Belt number `number`, 0 from the motor, round its two pulleys."""
    groove = drive.belts[number]
    left, right = _span(drive, groove, number)
    y, thick = drive.y(groove), drive.row * 0.46
    return (Area(box(left, y - thick / 2, right - left, thick), "action", "action", 0.2),)


def _span(drive: Drive, groove: int, number: int) -> tuple[float, float]:
    """From where to where a belt runs on a groove."""
    half = [drive.shafts[i][groove - 1] * drive.scale / 2 for i in (number, number + 1)]
    return drive.xs[number] - half[0], drive.xs[number + 1] + half[1]


def _now(drive: Drive, sheet: Sheet) -> Marks:
    """Where the belt lies now, in broken lines, and the way to where it is wanted."""
    if not drive.now:
        return ()
    left, right = _span(drive, drive.now, 0)
    y, wanted, half = drive.y(drive.now), drive.y(drive.belts[0]), drive.row * 0.23
    outline = box(left, y - half, right - left, half * 2)
    x = drive.right + 3.4
    away = LEAST_TEXT * 0.8 * (1 if y < wanted else -1)
    way = arrow((x, y + away), (x, wanted), "action", 1.2, 3.2) if abs(y - wanted) > 4 else ()
    words = caption(drive.right + 2.0, y - away * 0.4, sheet.say("now"), 40, "left", lines=1)
    return (Line((*outline, outline[0]), "ink", STROKE, dash=True), *way, *words)


# --- numbers ---


def _numbers(drive: Drive, sheet: Sheet) -> Marks:
    """The grooves' numbers from the top, those wanted in a disc; of others those with room."""
    if sheet.small:
        return ()
    x, above, marks = 5.0, -LEAST_ROW, list[Mark]()
    for i in range(1, drive.grooves + 1):
        y = drive.y(i)
        if i in drive.belts:
            aside = _aside(drive.belts, drive.row) if i == drive.belts[-1] else 0.0
            marks += _chosen(x + aside, y, str(i), drive.row)
        elif y - above >= LEAST_ROW and _is_clear(drive, i):
            above = y
            marks.append(label(x, y, str(i), colour="soft"))
    return tuple(marks)


def _is_clear(drive: Drive, groove: int) -> bool:
    """Whether a groove's number keeps off the discs of those that are wanted."""
    gaps = (abs(drive.y(groove) - drive.y(belt)) for belt in drive.belts)
    disc = _radius(drive.row, str(drive.grooves)) + LEAST_TEXT / 2
    return min(gaps) >= max(LEAST_ROW, disc)


def _chosen(x: float, y: float, text: str, row: float) -> Marks:
    """The number in a disc that stays clear of the numbers above and below."""
    return (
        Disc(x, y, _radius(row, text), "action", "action", THIN),
        label(x, y, text, colour="paper", bold=True),
    )


def _radius(row: float, text: str) -> float:
    if len(text) > 1:
        return text_width(text, LEAST_TEXT) / 2 + 0.8
    return min(3.6, max(2.9, row - 2.2))


def _speed(values: Values, drive: Drive, sheet: Sheet) -> Marks:
    found = values.get("speed")
    if found is None or sheet.small:
        return ()
    y = drive.top + drive.row * drive.grooves + STEM + _speed_room(values, sheet) / 2
    text = sheet.number(found).replace("\u00a0", " ")
    return caption(sheet.width / 2, y, text, sheet.width - 2, "middle", "action")


def _speed_room(values: Values, sheet: Sheet) -> float:
    """How high the speed's text stands, in as many lines as it takes."""
    found = values.get("speed")
    text = "" if found is None else sheet.number(found).replace("\u00a0", " ")
    return SPEED * max(1, len(wrapped(text, sheet.width - 2, 2)))
