"""The stepped pulleys seen from the side, and the belt, or both belts, on their grooves.

Pulley diameters are to scale with each other; the distance between the shafts is not. With a
stepped idler there are three shafts: one belt runs to it and a second on to the spindle.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.drawings.outlines import STROKE, THIN, box, label, rounded
from kiosk.drawings.shapes import Area, Disc, Label, Line, Shape
from kiosk.drawings.sheet import Sheet, text_width
from kiosk.drawings.values import Values

LARGEST, SMALLEST = 110.0, 50.0  # diameters where none are given
LEAST_ROW = 4.6  # a groove lower than this has no room for its number


@dataclass(frozen=True)
class Drive:
    """Where the pulleys stand, from the motor's to the spindle's.

    Diameters and middle of each shaft; the groove of each belt, the first from the motor; the top
    groove's top and a groove's height.
    """

    shafts: tuple[tuple[float, ...], ...]
    xs: tuple[float, ...]
    belts: tuple[int, ...]
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


def belts(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """Grooves numbered from the top, the belt on the chosen one, its speed beside it."""
    drive = _drive(values, sheet)
    pulleys = zip(drive.shafts, drive.xs, strict=True)
    return (
        *_cover(drive),
        *_stem(drive, drive.xs[0], "motor"),
        *_stem(drive, drive.xs[-1], "spindle"),
        *(shape for diameters, x in pulleys for shape in _pulley(drive, diameters, x)),
        *(shape for number in range(len(drive.belts)) for shape in _belt(drive, number)),
        *_numbers(drive, sheet),
        *_speed(values, drive, sheet),
    )


def _drive(values: Values, sheet: Sheet) -> Drive:
    shafts = _diameters(values)
    left = 1.5 if sheet.small else 11.5
    right = 1.5 if sheet.small else _speed_width(values, sheet) + 5.0
    gap = 2.0 if sheet.small else 4.0
    widest = [max(shaft) for shaft in shafts]
    scale = (sheet.width - left - right - gap * (len(shafts) - 1)) / sum(widest)
    top, foot = (3.0, 4.0) if sheet.small else (7.0, 12.0)
    row = min((sheet.height - top - foot) / len(shafts[0]), sheet.height * 0.14)
    top += (sheet.height - top - foot - row * len(shafts[0])) / 2
    xs = tuple(
        left + (sum(widest[:i]) + widest[i] / 2) * scale + gap * i for i in range(len(shafts))
    )
    return Drive(shafts, xs, _belt_grooves(values, shafts), top, row, scale, sheet.small)


def _belt_grooves(values: Values, shafts: tuple[tuple[float, ...], ...]) -> tuple[int, ...]:
    most, first = len(shafts[0]), values.count("groove", 1)
    grooves = (first, values.count("second_groove", first)) if len(shafts) > 2 else (first,)
    return tuple(min(groove, most) for groove in grooves)


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


def _cover(drive: Drive) -> tuple[Shape, ...]:
    top, bottom = drive.top - 2.2, drive.top + drive.row * drive.grooves + 1.2
    outline = rounded(drive.left - 1.2, top, drive.right - drive.left + 2.4, bottom - top, 2.2)
    return (Area(outline, "none", "line", STROKE),)


def _stem(drive: Drive, x: float, end: str) -> tuple[Shape, ...]:
    bottom = drive.top + drive.row * drive.grooves
    if drive.small:
        return (Area(box(x - 0.9, bottom, 1.8, 3.0), "soft", "soft", THIN),)
    stem = Area(box(x - 0.9, bottom, 1.8, 4.0), "soft", "soft", THIN)
    if end == "motor":
        return (stem, Area(rounded(x - 6, bottom + 2.4, 12, 7.0, 1.2), "soft", "soft", THIN))
    jaws = ((x - 3.0, bottom + 2.4), (x + 3.0, bottom + 2.4), (x + 1.4, bottom + 6.4))
    return (
        stem,
        Area((*jaws, (x - 1.4, bottom + 6.4)), "soft", "soft", THIN),
        Line(((x, bottom + 6.4), (x, bottom + 9.0)), "bit", 1.2),
    )


def _pulley(drive: Drive, diameters: tuple[float, ...], x: float) -> tuple[Shape, ...]:
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


def _belt(drive: Drive, number: int) -> tuple[Shape, ...]:
    """Belt number `number`, 0 from the motor, round its two pulleys."""
    groove = drive.belts[number]
    y, thick = drive.y(groove), drive.row * 0.46
    half = [drive.shafts[i][groove - 1] * drive.scale / 2 for i in (number, number + 1)]
    left, right = drive.xs[number] - half[0], drive.xs[number + 1] + half[1]
    return (Area(box(left, y - thick / 2, right - left, thick), "action", "action", 0.2),)


def _numbers(drive: Drive, sheet: Sheet) -> tuple[Shape, ...]:
    if sheet.small:
        return ()
    x, shapes = 5.0, list[Shape]()
    for i in range(1, drive.grooves + 1):
        if i in drive.belts:
            shapes += _chosen(x, drive.y(i), str(i), drive.row)
        elif drive.row >= LEAST_ROW:
            shapes.append(label(x, drive.y(i), str(i), 3.0, colour="soft"))
    return tuple(shapes)


def _chosen(x: float, y: float, text: str, row: float) -> tuple[Shape, ...]:
    """The number in a disc that stays clear of the numbers above and below."""
    radius = min(3.4, max(2.5, row - 2.2))
    return (
        Disc(x, y, radius, "action", "action", THIN),
        label(x, y, text, 3.2, colour="paper", bold=True),
    )


def _speed(values: Values, drive: Drive, sheet: Sheet) -> tuple[Label, ...]:
    found = values.get("speed")
    if found is None or sheet.small:
        return ()
    x = drive.right + 2.6
    text = sheet.number(found)
    return (label(x, drive.y(drive.belts[-1]), text, 3.2, "left", "action", True),)


def _speed_width(values: Values, sheet: Sheet) -> float:
    found = values.get("speed")
    return 0.0 if found is None else text_width(sheet.number(found), 3.2)
