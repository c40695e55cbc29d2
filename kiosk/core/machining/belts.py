"""Spindle speeds from pulley diameters or a dial, and whether the plate agrees with them.

`content` asks these for a machine that gives pulleys; the speeds then stand in the machine,
groove 1 (the top one) first. With a stepped idler there are two belts, and a position names the
groove of each: the motor's belt first, then the spindle's.
"""

from __future__ import annotations

from math import inf
from typing import TypeAlias

from kiosk.core.machining.worked import Figure, Value
from kiosk.core.machining.writing import written
from kiosk.core.model import Machine, Pulleys
from kiosk.core.units import Length, SpindleSpeed

Position: TypeAlias = tuple[int, int]

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
    if not (0 < driving.mm < inf and 0 < driven.mm < inf):
        raise ValueError("pulley diameters must be over 0 mm")
    return SpindleSpeed(driver.rpm * driving.mm / driven.mm)


def positions_of(pulleys: Pulleys) -> tuple[Position, ...]:
    """Every way the belts can lie: groove by groove, or with an idler every two grooves.

    Two belts never lie in one groove of the idler, so four grooves give twelve positions.
    ValueError if the pulleys don't have the same number of grooves.
    """
    grooves = range(1, _groove_count(pulleys) + 1)
    if pulleys.idler is None:
        return tuple((groove, groove) for groove in grooves)
    return tuple((first, second) for first in grooves for second in grooves if first != second)


def speeds_of(
    pulleys: Pulleys, positions: tuple[Position, ...] | None = None
) -> tuple[SpindleSpeed, ...]:
    """The spindle speed of every position of the belts, the top groove first.

    Source: d1 n1 = d2 n2 at effective diameters, once for each belt; outside diameters are
    corrected first. ValueError if the pulleys don't have the same number of grooves.
    """
    _groove_count(pulleys)
    wanted = positions_of(pulleys) if positions is None else positions
    return tuple(_speed_at(pulleys, position) for position in wanted)


def speed_figures(
    pulleys: Pulleys, positions: tuple[Position, ...] | None = None
) -> tuple[Figure, ...]:
    """The speed of every position with its working, the top groove first."""
    wanted = positions_of(pulleys) if positions is None else positions
    return tuple(_figure(pulleys, position) for position in wanted)


def plate_doubts(
    plate: tuple[SpindleSpeed, ...],
    pulleys: Pulleys,
    positions: tuple[Position, ...] | None = None,
) -> tuple[str, ...]:
    """One line for every groove whose plate speed is over 10 % from what the pulleys give.

    Source of the limit: common practice; belt slip and rounding on plates stay under it.
    """
    wanted = positions_of(pulleys) if positions is None else positions
    found = zip(wanted, plate, speeds_of(pulleys, wanted), strict=False)
    return tuple(
        f"{place_of(pulleys, at)}: the plate says {written(said)}, the pulleys give {written(got)}"
        for at, said, got in found
        if abs(said.rpm - got.rpm) > PLATE_TOLERANCE * got.rpm
    )


def place_of(pulleys: Pulleys, position: Position) -> str:
    """Where the belts lie, in words: `groove 3`, or `grooves 2 and 4` with two belts."""
    if pulleys.idler is None:
        return f"groove {position[0]}"
    return f"grooves {position[0]} and {position[1]}"


def dial_speeds(
    slowest: SpindleSpeed, fastest: SpindleSpeed, step: SpindleSpeed
) -> tuple[SpindleSpeed, ...]:
    """Every mark of a variable-speed drill's dial, the fastest first as on a belt drill.

    ValueError for a dial that does not go up.
    """
    if not 0 < slowest.rpm <= fastest.rpm or step.rpm <= 0:
        raise ValueError("a dial goes from slowest to fastest by steps, all over 0")
    marks = int((fastest.rpm - slowest.rpm) / step.rpm + 1e-9)
    return tuple(SpindleSpeed(slowest.rpm + mark * step.rpm) for mark in range(marks, -1, -1))


def setting_of(machine: Machine, groove: int) -> str:
    """How the machine is set for its speed number `groove`, 1 first, in words."""
    if machine.drive == "dial":
        return "the dial"
    if machine.positions:
        first, second = machine.positions[groove - 1]
        return f"belts on grooves {first} and {second}"
    return f"groove {groove}"


def belt_diameters(machine: Machine, groove: int) -> tuple[Length, ...]:
    """The effective diameters the belts run on at that speed, from motor to spindle, in mm."""
    if machine.pulleys is None:
        raise ValueError("no pulleys are given for this machine")
    position = machine.positions[groove - 1] if machine.positions else (groove, groove)
    return _diameters(machine.pulleys, position)


def belt_values(machine: Machine, groove: int) -> tuple[tuple[str, Value], ...]:
    """What the drawing of the belts takes: grooves, and each pulley's from the top down.

    `groove` and with two belts `second_groove`; `motor_1`, `idler_1`, `spindle_1` at the top. Of a
    dial its `slowest` and `fastest` mark.
    """
    return (*_groove_values(machine, groove), *_pulley_values(machine.pulleys))


def _groove_values(machine: Machine, groove: int) -> tuple[tuple[str, Value], ...]:
    if machine.drive == "dial":
        return ("slowest", machine.speeds[-1]), ("fastest", machine.speeds[0])
    if machine.positions:
        first, second = machine.positions[groove - 1]
        return ("groove", first), ("second_groove", second)
    return (("groove", groove),)


def _pulley_values(pulleys: Pulleys | None) -> tuple[tuple[str, Value], ...]:
    if pulleys is None:
        return ()
    named = (("motor", pulleys.motor), ("idler", pulleys.idler), ("spindle", pulleys.spindle))
    return tuple(
        (f"{name}_{number}", groove)
        for name, pulley in named
        if pulley is not None
        for number, groove in enumerate(pulley.grooves, start=1)
    )


def _groove_count(pulleys: Pulleys) -> int:
    counts = len(pulleys.motor.grooves), len(pulleys.spindle.grooves)
    if counts[0] != counts[1]:
        raise ValueError(
            f"the motor pulley has {counts[0]} grooves, the spindle pulley {counts[1]}"
        )
    if pulleys.idler is not None and len(pulleys.idler.grooves) != counts[0]:
        raise ValueError(
            f"the idler has {len(pulleys.idler.grooves)} grooves, the others {counts[0]}"
        )
    return counts[0]


def _speed_at(pulleys: Pulleys, position: Position) -> SpindleSpeed:
    around = _diameters(pulleys, position)
    speed = pulleys.motor_speed
    for driving, driven in zip(around[::2], around[1::2], strict=True):
        speed = driven_speed(speed, driving, driven)
    return speed


def _diameters(pulleys: Pulleys, position: Position) -> tuple[Length, ...]:
    """Driving and driven diameter of each belt in turn, effective."""
    first, second = position[0] - 1, position[1] - 1
    motor, spindle = pulleys.motor.grooves[first], pulleys.spindle.grooves[second]
    between = pulleys.idler.grooves if pulleys.idler else ()
    idler = (between[first], between[second]) if between else ()
    return tuple(_belt_diameter(pulleys, each) for each in (motor, *idler, spindle))


def _belt_diameter(pulleys: Pulleys, diameter: Length) -> Length:
    is_outside = pulleys.measured == "outside"
    return effective(diameter, pulleys.correction) if is_outside else diameter


def _figure(pulleys: Pulleys, position: Position) -> Figure:
    around = [written(each) for each in _diameters(pulleys, position)]
    ratios = " × ".join(f"{a} / {b}" for a, b in zip(around[::2], around[1::2], strict=True))
    speed = _speed_at(pulleys, position)
    working = f"{written(pulleys.motor_speed)} × {ratios} = {written(speed)} without slip"
    name = f"speed of {place_of(pulleys, position)}"
    return Figure(name, speed, working, "d1 n1 = d2 n2, effective diameters")
