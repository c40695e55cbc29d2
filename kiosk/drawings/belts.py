"""The two stepped pulleys seen from the side, and the belt on its groove.

Pulley diameters are to scale with each other; the distance between the shafts is not.
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
    """Where the pulleys stand: middles of the shafts, the top groove's top, a groove's height."""

    motor: tuple[float, ...]
    spindle: tuple[float, ...]
    groove: int
    motor_x: float
    spindle_x: float
    top: float
    row: float
    scale: float
    small: bool

    def y(self, groove: int) -> float:
        """The middle height of a groove, 1 at the top."""
        return self.top + (groove - 0.5) * self.row


def belts(values: Values, sheet: Sheet) -> tuple[Shape, ...]:
    """Grooves numbered from the top, the belt on the chosen one, its speed beside it."""
    drive = _drive(values, sheet)
    return (
        *_cover(drive),
        *_shaft(drive, drive.motor_x, is_motor=True),
        *_shaft(drive, drive.spindle_x, is_motor=False),
        *_pulley(drive, drive.motor, drive.motor_x),
        *_pulley(drive, drive.spindle, drive.spindle_x),
        *_belt(drive),
        *_numbers(drive, sheet),
        *_speed(values, drive, sheet),
    )


def _drive(values: Values, sheet: Sheet) -> Drive:
    motor, spindle = _diameters(values)
    groove = min(values.count("groove", 1), len(motor))
    left = 1.5 if sheet.small else 11.5
    right = 1.5 if sheet.small else _speed_width(values, sheet) + 5.0
    gap = 2.0 if sheet.small else 4.0
    scale = (sheet.width - left - right - gap) / (max(motor) + max(spindle))
    top, foot = (3.0, 4.0) if sheet.small else (7.0, 12.0)
    row = min((sheet.height - top - foot) / len(motor), sheet.height * 0.14)
    top += (sheet.height - top - foot - row * len(motor)) / 2
    motor_x = left + max(motor) * scale / 2
    spindle_x = left + max(motor) * scale + gap + max(spindle) * scale / 2
    return Drive(motor, spindle, groove, motor_x, spindle_x, top, row, scale, sheet.small)


def _diameters(values: Values) -> tuple[tuple[float, ...], tuple[float, ...]]:
    motor, spindle = values.lengths("motor"), values.lengths("spindle")
    if motor and len(motor) == len(spindle):
        return motor, spindle
    count = values.count("grooves", max(4, values.count("groove", 1)))
    step = (LARGEST - SMALLEST) / max(1, count - 1)
    falling = tuple(LARGEST - step * i for i in range(count))
    return falling, falling[::-1]


def _cover(drive: Drive) -> tuple[Shape, ...]:
    left = drive.motor_x - max(drive.motor) * drive.scale / 2 - 1.2
    right = drive.spindle_x + max(drive.spindle) * drive.scale / 2 + 1.2
    top, bottom = drive.top - 2.2, drive.top + drive.row * len(drive.motor) + 1.2
    outline = rounded(left, top, right - left, bottom - top, 2.2)
    return (Area(outline, "none", "line", STROKE),)


def _shaft(drive: Drive, x: float, is_motor: bool) -> tuple[Shape, ...]:
    bottom = drive.top + drive.row * len(drive.motor)
    if drive.small:
        return (Area(box(x - 0.9, bottom, 1.8, 3.0), "soft", "soft", THIN),)
    stem = Area(box(x - 0.9, bottom, 1.8, 4.0), "soft", "soft", THIN)
    if is_motor:
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


def _belt(drive: Drive) -> tuple[Shape, ...]:
    y, thick = drive.y(drive.groove), drive.row * 0.46
    left = drive.motor_x - drive.motor[drive.groove - 1] * drive.scale / 2
    right = drive.spindle_x + drive.spindle[drive.groove - 1] * drive.scale / 2
    return (Area(box(left, y - thick / 2, right - left, thick), "action", "action", 0.2),)


def _numbers(drive: Drive, sheet: Sheet) -> tuple[Shape, ...]:
    if sheet.small:
        return ()
    x, shapes = 5.0, list[Shape]()
    for i in range(1, len(drive.motor) + 1):
        if i == drive.groove:
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
    x = drive.spindle_x + max(drive.spindle) * drive.scale / 2 + 2.6
    text = sheet.number(found)
    return (label(x, drive.y(drive.groove), text, 3.2, "left", "action", True),)


def _speed_width(values: Values, sheet: Sheet) -> float:
    found = values.get("speed")
    return 0.0 if found is None else text_width(sheet.number(found), 3.2)
