"""Spindle speeds from pulley diameters, and whether the plate agrees with them.

`content` asks these for a machine that gives pulleys; the speeds then stand in the machine,
groove 1 (the top one) first.
"""

from __future__ import annotations

from kiosk.core.machining.worked import Figure
from kiosk.core.machining.writing import written
from kiosk.core.model import Pulleys
from kiosk.core.units import Length, SpindleSpeed

PLATE_TOLERANCE = 0.10  # a plate further than this from its pulleys is questioned

# What the outside diameter of a V-belt pulley exceeds its effective (datum) diameter by:
# DIN 2211 groove table, 2 c.
GROOVE_CORRECTIONS = (("Z", Length(4.0)), ("A", Length(5.6)), ("B", Length(7.0)))


def effective(diameter: Length, correction: Length) -> Length:
    """The diameter at which the belt runs in a groove of that outside diameter, in mm.

    Source: DIN 2211, datum diameter = outside diameter - 2 c. ValueError if nothing is left.
    """
    left = diameter.mm - correction.mm
    if left <= 0:
        raise ValueError(f"a pulley of {written(diameter)} leaves no diameter for the belt")
    return Length(left)


def driven_speed(driver: SpindleSpeed, driving: Length, driven: Length) -> SpindleSpeed:
    """The speed of a pulley driven by another, diameters effective, slip left out.

    Source: both rims run at the belt's speed, d1 n1 = d2 n2. For three shafts ask twice.
    """
    if driving.mm <= 0 or driven.mm <= 0:
        raise ValueError("pulley diameters must be over 0 mm")
    return SpindleSpeed(driver.rpm * driving.mm / driven.mm)


def speeds_of(pulleys: Pulleys) -> tuple[SpindleSpeed, ...]:
    """The spindle speed of every groove, the top groove first.

    Source: d1 n1 = d2 n2 at effective diameters; outside diameters are corrected first.
    ValueError if the two pulleys don't have the same number of grooves.
    """
    if len(pulleys.motor.grooves) != len(pulleys.spindle.grooves):
        counts = len(pulleys.motor.grooves), len(pulleys.spindle.grooves)
        raise ValueError(
            f"the motor pulley has {counts[0]} grooves, the spindle pulley {counts[1]}"
        )
    pairs = zip(pulleys.motor.grooves, pulleys.spindle.grooves, strict=True)
    return tuple(_speed_of(pulleys, motor, spindle) for motor, spindle in pairs)


def speed_figures(pulleys: Pulleys) -> tuple[Figure, ...]:
    """The speed of every groove with its working, the top groove first."""
    return tuple(
        _figure(pulleys, number, speed) for number, speed in enumerate(speeds_of(pulleys), start=1)
    )


def plate_doubts(plate: tuple[SpindleSpeed, ...], pulleys: Pulleys) -> tuple[str, ...]:
    """One line for every groove whose plate speed is over 10 % from what the pulleys give.

    Source of the limit: common practice; belt slip and rounding on plates stay under it.
    """
    found = zip(plate, speeds_of(pulleys), strict=False)
    return tuple(
        f"groove {number}: the plate says {written(said)}, the pulleys give {written(worked)}"
        for number, (said, worked) in enumerate(found, start=1)
        if abs(said.rpm - worked.rpm) > PLATE_TOLERANCE * worked.rpm
    )


def _speed_of(pulleys: Pulleys, motor: Length, spindle: Length) -> SpindleSpeed:
    return driven_speed(
        pulleys.motor_speed, _belt_diameter(pulleys, motor), _belt_diameter(pulleys, spindle)
    )


def _belt_diameter(pulleys: Pulleys, diameter: Length) -> Length:
    is_outside = pulleys.measured == "outside"
    return effective(diameter, pulleys.correction) if is_outside else diameter


def _figure(pulleys: Pulleys, number: int, speed: SpindleSpeed) -> Figure:
    motor = _belt_diameter(pulleys, pulleys.motor.grooves[number - 1])
    spindle = _belt_diameter(pulleys, pulleys.spindle.grooves[number - 1])
    working = (
        f"{written(pulleys.motor_speed)} × {written(motor)} / {written(spindle)}"
        f" = {written(speed)} without slip"
    )
    return Figure(f"speed of groove {number}", speed, working, "d1 n1 = d2 n2, effective diameters")
