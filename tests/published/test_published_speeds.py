"""Spindle and cutting speeds, belts and hole saws against published figures."""

from __future__ import annotations

import pytest

from kiosk.core.machining import (
    band_of,
    cutting_speed,
    driven_speed,
    effective,
    rpm,
    speeds_of,
    window_of,
)
from kiosk.core.model import Content, Pulley, Pulleys, SpeedBand
from kiosk.core.units import CuttingSpeed, Length, SpindleSpeed
from tests.published.sources import feet, inch, published

pytestmark = pytest.mark.published

# diameter mm, cutting speed m/min, published rpm, tolerance rpm
RPM = (
    # Groover, Fundamentals of Modern Manufacturing, drilling problem (a variant, worked answer)
    pytest.param(10, 30, 954.9, 0.1, id="sum-Groover-1"),
    # the same book, ch. 22 (from memory, recomputed)
    pytest.param(12.7, 25, 626.6, 0.1, id="sum-Groover-2"),
    # University of Arizona, MMT Observatory shop notes, speeds
    pytest.param(inch(1 / 4), feet(300), 4584, 1, id="sum-Arizona-1"),
    pytest.param(inch(1 / 2), feet(120), 917, 1, id="sum-Arizona-2"),
    pytest.param(inch(3 / 8), feet(120), 1222, 1, id="sum-Arizona-3"),
    pytest.param(inch(1 / 8), feet(300), 9167, 1, id="sum-Arizona-4"),
    # GTZ, Drilling, Countersinking and Counterboring, Trainees' Handbook, ch. 5 (inputs)
    pytest.param(10, 22, 700, 1, id="sum-GTZ-1"),
    # Cobalt drill bit data sheet: structural steel at 35 m/min
    pytest.param(4.2, 35, 2654, 2654 * 0.0015, id="sum-CobaltSheet-1"),
    pytest.param(6, 35, 1858, 1858 * 0.0015, id="sum-CobaltSheet-2"),
    pytest.param(8, 35, 1393, 1393 * 0.0015, id="sum-CobaltSheet-3"),
    pytest.param(10, 35, 1115, 1115 * 0.0015, id="sum-CobaltSheet-4"),
    pytest.param(13, 35, 857, 857 * 0.0015, id="sum-CobaltSheet-5"),
    # the same sheet at 10 mm: stainless 16, cast iron 24, aluminium 61 m/min
    pytest.param(10, 16, 510, 510 * 0.0015, id="sum-CobaltSheet-6"),
    pytest.param(10, 24, 764, 764 * 0.0015, id="sum-CobaltSheet-7"),
    pytest.param(10, 61, 1943, 1943 * 0.0015, id="sum-CobaltSheet-8"),
)


@published("spindle speed", ("diameter", "speed", "expected", "within"), RPM)
def test_spindle_speed_is_as_published(
    diameter: float, speed: float, expected: float, within: float
) -> None:
    given = CuttingSpeed(speed), Length(diameter)

    found = rpm(*given)

    assert found.rpm == pytest.approx(expected, abs=within)


# diameter mm, spindle rpm, published m/min, relative tolerance
CUTTING = (
    # acrylic maker's workshop guide, German edition, ch. 3.1: 25 mm at 510 rpm
    pytest.param(25, 510, 40.06, 0.001, id="sum-AcrylicGuide-1"),
    # polycarbonate fabricator's drilling sheet: 1/8, 1/4, 1/2 inch
    pytest.param(3.175, 1750, 17.5, 0.005, id="sum-PolycarbonateSheet-1"),
    pytest.param(6.35, 1500, 29.9, 0.005, id="sum-PolycarbonateSheet-2"),
    pytest.param(12.7, 500, 20.0, 0.005, id="sum-PolycarbonateSheet-3"),
    # open workshop tutorial, drill press speeds: 1/2 inch in mild steel, and its halves
    pytest.param(12.7, 700, 27.93, 0.001, id="sum-WorkshopTutorial-1"),
    pytest.param(25.4, 350, 27.93, 0.001, id="sum-WorkshopTutorial-2"),
    pytest.param(6.35, 1400, 27.93, 0.001, id="sum-WorkshopTutorial-3"),
    pytest.param(3.175, 2800, 27.93, 0.001, id="sum-WorkshopTutorial-4"),
    # McMillin & Woodson 1972, Forest Products Journal 22(11): 1 inch spur bit at 2400 rpm
    pytest.param(25.4, 2400, 191.5, 0.001, id="sum-ForestProducts-1"),
    # a cutting-tool maker's formulas for hole machining, worked example: 12 mm at 1350 rpm
    pytest.param(12, 1350, 50.9, 0.001, id="sum-ToolFormulas-1"),
    # hole cutter data sheet, plastics at 25 mm: 34 to 37 m/min over the whole range
    pytest.param(25, 450, 35.5, 0.05, id="sum-HoleCutterSheet-1"),
)


@published("cutting speed", ("diameter", "spindle", "expected", "share"), CUTTING)
def test_cutting_speed_is_as_published(
    diameter: float, spindle: float, expected: float, share: float
) -> None:
    given = SpindleSpeed(spindle), Length(diameter)

    found = cutting_speed(*given)

    assert found.m_per_min == pytest.approx(expected, rel=share)


# hole cutter data sheet, wood: mm and rpm; the sheet never goes over 91 m/min
WOOD_CUTTER = (
    pytest.param(17, 1010, id="sum-HoleCutterSheet-2"),
    pytest.param(25, 895, id="sum-HoleCutterSheet-3"),
    pytest.param(39, 740, id="sum-HoleCutterSheet-4"),
    pytest.param(80, 360, id="sum-HoleCutterSheet-5"),
)


@published("cutting speed", ("diameter", "spindle"), WOOD_CUTTER)
def test_wood_cutters_published_speeds_lie_in_their_band(diameter: float, spindle: float) -> None:
    given = SpindleSpeed(spindle), Length(diameter)

    found = cutting_speed(*given)

    assert 53.5 <= found.m_per_min <= 91


# WOOD magazine, "How do I calculate the bit speed": 1.125 in on the motor, 4 in, 1725 rpm
# an old shop text on belts: 180 rpm, 16 in driving 8 in
# a motor shop's page: 1750 rpm, 3.5 in on the motor, 6.125 in driven
PAIRS = (
    pytest.param(1725, 1.125, 4, 485, id="sum-WOODmagazine-1"),
    pytest.param(180, 16, 8, 360, id="sum-ShopText-1"),
    pytest.param(1750, 3.5, 6.125, 1000, id="sum-MotorShop-1"),
)


@published("driven speed", ("motor", "driving", "driven", "expected"), PAIRS)
def test_two_pulleys_give_the_published_speed(
    motor: float, driving: float, driven: float, expected: float
) -> None:
    given = SpindleSpeed(motor), Length.from_inches(driving), Length.from_inches(driven)

    found = driven_speed(*given)

    assert found.rpm == pytest.approx(expected, abs=1)


# Milton & Wohlers, A Course in Wood Turning, 1919: shafts in a row from 1500 rpm, inches
SHAFTS = (
    pytest.param(((4, 20),), 300, id="sum-MiltonWohlers-1"),
    pytest.param(((4, 20), (8, 4)), 600, id="sum-MiltonWohlers-2"),
    pytest.param(((4, 20), (8, 4), (11, 3)), 2200, id="sum-MiltonWohlers-3"),
)


@published("driven speed", ("pairs", "expected"), SHAFTS)
def test_shafts_in_a_row_give_the_published_speed(
    pairs: tuple[tuple[float, float], ...], expected: float
) -> None:
    speed = SpindleSpeed(1500)

    for driving, driven in pairs:
        speed = driven_speed(speed, Length.from_inches(driving), Length.from_inches(driven))

    assert speed.rpm == pytest.approx(expected, abs=1)


# DIN 2211 groove table: outside diameter, correction, effective diameter
GROOVES = (
    pytest.param(105.6, 5.6, 100, id="sum-DIN2211-1"),  # section A
    pytest.param(84, 4.0, 80, id="sum-DIN2211-2"),  # section Z
    pytest.param(207, 7.0, 200, id="sum-DIN2211-3"),  # section SPB
)


@published("effective diameter", ("outside", "correction", "expected"), GROOVES)
def test_effective_diameter_is_as_in_the_standard(
    outside: float, correction: float, expected: float
) -> None:
    given = Length(outside), Length(correction)

    found = effective(*given)

    assert found.mm == pytest.approx(expected, abs=1e-9)


# DIN 2211 corrections on section A, outside 60 driving 150 at 1400 rpm; 560 with no correction
OUTSIDE = (
    pytest.param("outside", 527.4, id="sum-DIN2211-4"),
    pytest.param("effective", 560.0, id="sum-DIN2211-5"),
)


@published("effective diameter", ("measured", "expected"), OUTSIDE)
def test_outside_diameters_are_corrected(measured: str, expected: float) -> None:
    motor, spindle = Pulley((Length(60),)), Pulley((Length(150),))
    pulleys = Pulleys(SpindleSpeed(1400), motor, spindle, measured, Length(5.6))

    found = speeds_of(pulleys)

    assert found[0].rpm == pytest.approx(expected, rel=0.001)


# the same book's first two belts as a stepped idler: motor groove 1, spindle groove 2
IDLERS = (pytest.param(((4, 9), (20, 8), (9, 4)), 600, id="sum-MiltonWohlers-4"),)


@published("driven speed", ("inches", "expected"), IDLERS)
def test_a_stepped_idler_gives_the_published_speed(
    inches: tuple[tuple[float, float], ...], expected: float
) -> None:
    motor, idler, spindle = (Pulley(tuple(map(Length.from_inches, each))) for each in inches)
    pulleys = Pulleys(SpindleSpeed(1500), motor, spindle, idler=idler)

    found = speeds_of(pulleys, ((1, 2),))

    assert found[0].rpm == pytest.approx(expected, abs=1)


# a bi-metal hole saw maker's table at 25 mm (1 in), rpm at most
HOLE_SAWS = (
    pytest.param("mild_steel", 350, id="sum-HoleSawMaker-1"),
    pytest.param("stainless_steel", 175, id="sum-HoleSawMaker-2"),
    pytest.param("cast_iron", 235, id="sum-HoleSawMaker-3"),
    pytest.param("brass", 470, id="sum-HoleSawMaker-4"),
    pytest.param("aluminium", 525, id="sum-HoleSawMaker-5"),
)


@published("pupils' window", ("material", "most"), HOLE_SAWS)
def test_a_hole_saws_limit_is_just_under_its_makers_speed(
    content: Content, material: str, most: float
) -> None:
    cut, saw = content.material(material), content.bit("hole_saw")
    assert cut is not None and saw is not None
    band = band_of(cut, saw)
    assert isinstance(band, SpeedBand)

    window = window_of(band, saw, Length(25))

    assert 0.9 * most <= window.limit.rpm <= most * 1.005
