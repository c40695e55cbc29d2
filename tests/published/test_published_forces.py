"""Pressure, torque, thrust, power, motor, pull, friction and clamps against published figures."""

from __future__ import annotations

import pytest

from kiosk.core.machining import (
    clamp_force,
    cutting_pressure,
    power_of,
    pull_of,
    rated_torque,
    stall_torque,
    thrust_of,
    torque_of,
)
from kiosk.core.model import Content, Cutting
from kiosk.core.units import Angle, Feed, Length, Power, Pressure, SpindleSpeed, Torque
from tests.core.machining_shop import DRILL
from tests.published.sources import (
    N_PER_POUND,
    NM_PER_INCH_POUND,
    W_PER_HORSEPOWER,
    inch,
    published,
)

pytestmark = pytest.mark.published

# chuck manual: cutting pressure against feed at 45 degrees; constants of two German textbooks
# (from memory): St 42 1780 and 0.17, GG 25 1160 and 0.26
PRESSURES = (
    pytest.param(1780, 0.17, 0.16, 2600, id="sum-ChuckManual-1"),
    pytest.param(1780, 0.17, 0.40, 2200, id="sum-ChuckManual-2"),
    pytest.param(1160, 0.26, 0.16, 2050, id="sum-ChuckManual-3"),
    pytest.param(1160, 0.26, 0.40, 1600, id="sum-ChuckManual-4"),
)


@published("cutting pressure", ("unit", "exponent", "feed", "expected"), PRESSURES)
def test_cutting_pressure_rises_as_published_with_a_thinner_chip(
    unit: float, exponent: float, feed: float, expected: float
) -> None:
    given = Cutting(Pressure(unit), exponent, 0.1, "textbook")

    found = cutting_pressure(given, Feed(2 * feed), Angle(90))  # a drill's feed has two lips

    assert found.n_per_mm2 == pytest.approx(expected, rel=0.015)


# Kalpakjian & Schmid, drilling example (from memory): magnesium alloy, 10 mm, 0.2, 0.5 W s/mm3
TORQUES = (pytest.param(500, 0.2, 10, 1.25, id="sum-Kalpakjian-1"),)


@published("torque", ("pressure", "feed", "diameter", "expected"), TORQUES)
def test_torque_is_as_worked_in_the_book(
    pressure: float, feed: float, diameter: float, expected: float
) -> None:
    given = Pressure(pressure), Feed(feed), Length(diameter)

    found = torque_of(*given)

    assert found.nm == pytest.approx(expected, rel=0.001)


# what other formulas give for a sharp 10 mm drill at 0.2 mm a turn; they differ by a third
SHIPPED_TORQUES = (
    # Machinery's Handbook 31e, drill constant from memory: free-cutting steel, aluminium, iron
    pytest.param("mild_steel", 5.7, 0.10, id="sum-MachineryHandbook-2"),
    pytest.param("aluminium", 3.31, 0.15, id="sum-MachineryHandbook-3"),
    pytest.param("cast_iron", 6.61, 0.10, id="sum-MachineryHandbook-4"),
    # a twist-drill maker's formula: free-cutting steel, aluminium
    pytest.param("mild_steel", 5.68, 0.10, id="sum-DrillMaker-1"),
    pytest.param("aluminium", 4.04, 0.15, id="sum-DrillMaker-2"),
    # Carvill, Mechanical Engineer's Data Handbook: mild steel
    pytest.param("mild_steel", 6.79, 0.20, id="sum-Carvill-1"),
    # Groover, unit power: stainless 2.8, bronze 2.2 N m/mm3
    pytest.param("stainless_steel", 7.0, 0.30, id="sum-Groover-7"),
    pytest.param("bronze", 5.5, 0.01, id="sum-Groover-8"),
)


@published("torque", ("material", "expected", "within"), SHIPPED_TORQUES)
def test_a_shipped_materials_torque_is_near_the_published_one(
    content: Content, material: str, expected: float, within: float
) -> None:
    cut = content.material(material)
    assert cut is not None and cut.cutting is not None

    pressure = cutting_pressure(cut.cutting, Feed(0.2), Angle(118))

    found = torque_of(pressure, Feed(0.2), Length(10))
    assert found.nm == pytest.approx(expected, rel=within)


# drill constant, mm, mm a turn, wear, newtons
THRUSTS = (
    # Machinery's Handbook example: 7/8 in, 0.008 in, steel 200 HB, normal wear, 2313 lb
    pytest.param(
        24000,
        inch(7 / 8),
        inch(0.008),
        1.3,
        2313 * N_PER_POUND,
        0.005,
        id="sum-MachineryHandbook-5",
    ),
    # a twist-drill maker's formula, 10 mm at 0.2: low-carbon steel 160 HB, free-cutting steel
    pytest.param(24000, 10, 0.2, 1.0, 3222, 0.05, id="sum-DrillMaker-3"),
    pytest.param(12000, 10, 0.2, 1.0, 2061, 0.25, id="sum-DrillMaker-4"),
)


@published("thrust", ("constant", "diameter", "feed", "wear", "expected", "within"), THRUSTS)
def test_thrust_is_as_published(
    constant: float, diameter: float, feed: float, wear: float, expected: float, within: float
) -> None:
    found = thrust_of(constant, Feed(feed), Length(diameter), wear)

    assert found.n == pytest.approx(expected, rel=within)


# N m, rpm, watts
POWERS = (
    # Kalpakjian & Schmid, the same example at 800 rpm (from memory)
    pytest.param(1.25, 800, 104.7, 0.001, id="sum-Kalpakjian-2"),
    # McMillin & Woodson 1972, spur bit in pine at 2400 rpm: 33 and 42 lb in
    pytest.param(3.73, 2400, 937, 0.01, id="sum-ForestProducts-2"),
    pytest.param(4.75, 2400, 1.60 * W_PER_HORSEPOWER, 0.01, id="sum-ForestProducts-3"),
    # Machinery's Handbook example: 559 in lb at 350 rpm is 3.10 hp
    pytest.param(
        559 * NM_PER_INCH_POUND,
        350,
        3.10 * W_PER_HORSEPOWER,
        0.005,
        id="sum-MachineryHandbook-6",
    ),
)


@published("power", ("torque", "speed", "expected", "within"), POWERS)
def test_power_is_as_published(torque: float, speed: float, expected: float, within: float) -> None:
    found = power_of(Torque(torque), SpindleSpeed(speed))

    assert found.w == pytest.approx(expected, rel=within)


# an engineering site's formula T = 9550 P / n, at 1400 rpm
MOTORS = (
    pytest.param(250, 1.705, id="sum-EngineeringSite-1"),
    pytest.param(370, 2.524, id="sum-EngineeringSite-2"),
    pytest.param(550, 3.752, id="sum-EngineeringSite-3"),
    pytest.param(750, 5.116, id="sum-EngineeringSite-4"),
)


@published("rated torque", ("watts", "expected"), MOTORS)
def test_a_motors_rated_torque_is_as_published(watts: float, expected: float) -> None:
    found = rated_torque(Power(watts), SpindleSpeed(1400))

    assert found.nm == pytest.approx(expected, rel=0.001)


# stall over rated torque: least and most that is published
STALLS = (
    # NEMA MG 10 as reprinted by a motor trade handbook, design B, higher for small motors
    pytest.param(1.75, 3.0, id="sum-NEMAMG10-1"),
    # IEC 60034-1 as quoted: what a motor must carry for 15 s
    pytest.param(1.6, 3.0, id="sum-IEC60034-1"),
    # the engineering site's table for 3 hp, four poles: 2.0 (IEC N), 2.5 (NEMA B)
    pytest.param(2.0, 2.5, id="sum-EngineeringSite-5"),
)


@published("stall", ("least", "most"), STALLS)
def test_the_stall_torque_lies_in_the_published_span(least: float, most: float) -> None:
    speed = SpindleSpeed(500)

    found = stall_torque(DRILL, speed).nm / rated_torque(DRILL.motor, speed).nm

    assert least <= found <= most + 1e-9


# moment in N m, lever in mm, newtons: the statics of a college workholding text
PULLS = (
    pytest.param(6.8, 50, 136, id="sum-WorkholdingText-1"),
    pytest.param(6.8, 25, 272, id="sum-WorkholdingText-2"),
    pytest.param(6.8, 100, 68, id="sum-WorkholdingText-3"),
)


@published("pull", ("torque", "reach", "expected"), PULLS)
def test_the_pull_at_a_lever_is_as_published(torque: float, reach: float, expected: float) -> None:
    found = pull_of(Torque(torque), Length(reach))

    assert found.n == pytest.approx(expected, rel=0.001)


# chuck manual's formula with its safety of 2: 6.8 N m, clamp 50 mm off, two faces or one, wood
CLAMPS = (
    pytest.param(0.10, 2, 1360, id="sum-ChuckManual-5"),
    pytest.param(0.10, 1, 2720, id="sum-ChuckManual-6"),
    pytest.param(0.45, 2, 302, id="sum-ChuckManual-7"),
)


@published("clamp force", ("friction", "faces", "expected"), CLAMPS)
def test_the_clamp_force_is_as_published(friction: float, faces: int, expected: float) -> None:
    found = clamp_force(Torque(6.8), Length(50), friction, faces)

    assert found.n == pytest.approx(expected, rel=0.001)


# VDI 3106 as in chuck manuals: smooth jaw on medium machined steel 0.10, and its factors
FRICTIONS = (
    pytest.param("mild_steel", 0.10, id="sum-VDI3106-1"),
    pytest.param("aluminium", 0.10 * 0.95, id="sum-VDI3106-2"),
    pytest.param("brass", 0.10 * 0.90, id="sum-VDI3106-3"),
    pytest.param("cast_iron", 0.10 * 0.80, id="sum-VDI3106-4"),
)


@published("friction", ("material", "expected"), FRICTIONS)
def test_a_shipped_friction_is_as_published(
    content: Content, material: str, expected: float
) -> None:
    cut = content.material(material)
    assert cut is not None and cut.cutting is not None

    found = cut.cutting.friction

    assert found == pytest.approx(expected)
