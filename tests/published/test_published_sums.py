"""Sums checked against figures that others have published, each with its source beside it.

The number in an id counts within its source. Where the published answer is itself rounded, the
tolerance says so; figures quoted from memory are marked.
"""

from __future__ import annotations

import pytest

from kiosk.core.machining import (
    cutting_speed,
    driven_speed,
    effective,
    point_length,
    rpm,
    scrap_board,
    speeds_of,
    stop_setting,
    through_travel,
)
from kiosk.core.machining.depth import StopSetting
from kiosk.core.model import BitKind, Pulley, Pulleys
from kiosk.core.units import Angle, CuttingSpeed, Length, SpindleSpeed

pytestmark = pytest.mark.published

M_PER_FOOT = 0.3048

TWIST = BitKind(
    "twist", "twist bit", Length(1), Length(25), Angle(118), SpindleSpeed(4000),
    SpindleSpeed(100), (), ("metal",),
)  # fmt: skip


def feet(per_min: float) -> float:
    return per_min * M_PER_FOOT


def inch(inches: float) -> float:
    return Length.from_inches(inches).mm


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


@pytest.mark.parametrize(("diameter", "speed", "published", "within"), RPM)
def test_spindle_speed_is_as_published(
    diameter: float, speed: float, published: float, within: float
) -> None:
    given = CuttingSpeed(speed), Length(diameter)

    found = rpm(*given)

    assert found.rpm == pytest.approx(published, abs=within)


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
    # hole cutter data sheet, plastics at 25 mm: 34 to 37 m/min over the whole range
    pytest.param(25, 450, 35.5, 0.05, id="sum-HoleCutterSheet-1"),
)


@pytest.mark.parametrize(("diameter", "spindle", "published", "share"), CUTTING)
def test_cutting_speed_is_as_published(
    diameter: float, spindle: float, published: float, share: float
) -> None:
    given = SpindleSpeed(spindle), Length(diameter)

    found = cutting_speed(*given)

    assert found.m_per_min == pytest.approx(published, rel=share)


# hole cutter data sheet, wood: mm and rpm; the sheet never goes over 91 m/min
WOOD_CUTTER = (
    pytest.param(17, 1010, id="sum-HoleCutterSheet-2"),
    pytest.param(25, 895, id="sum-HoleCutterSheet-3"),
    pytest.param(39, 740, id="sum-HoleCutterSheet-4"),
    pytest.param(80, 360, id="sum-HoleCutterSheet-5"),
)


@pytest.mark.parametrize(("diameter", "spindle"), WOOD_CUTTER)
def test_wood_cutters_published_speeds_lie_in_their_band(diameter: float, spindle: float) -> None:
    given = SpindleSpeed(spindle), Length(diameter)

    found = cutting_speed(*given)

    assert 53.5 <= found.m_per_min <= 91


# point angle in degrees, published length of the point as a share of the diameter
POINTS = (
    # geometry, tabulated to four figures
    pytest.param(60, 0.8660, id="sum-Geometry-1"),
    pytest.param(82, 0.5752, id="sum-Geometry-2"),
    pytest.param(90, 0.5000, id="sum-Geometry-3"),
    pytest.param(118, 0.3004, id="sum-Geometry-4"),
    pytest.param(120, 0.2887, id="sum-Geometry-5"),
    pytest.param(135, 0.2071, id="sum-Geometry-6"),
)


@pytest.mark.parametrize(("angle", "share"), POINTS)
def test_point_length_is_as_published(angle: float, share: float) -> None:
    given = Length(10), Angle(angle)

    found = point_length(*given)

    assert found.mm / 10 == pytest.approx(share, abs=1e-4)


# Groover, drilling problems: 118 degree points of 10 mm (variant) and 12.7 mm (from memory)
GROOVER_POINTS = (
    pytest.param(10, 3.00, id="sum-Groover-3"),
    pytest.param(12.7, 3.815, id="sum-Groover-4"),
)


@pytest.mark.parametrize(("diameter", "published"), GROOVER_POINTS)
def test_point_allowance_is_as_worked_in_the_book(diameter: float, published: float) -> None:
    given = Length(60), TWIST, Length(diameter), Length(80)

    found = stop_setting(*given)

    assert isinstance(found, StopSetting)
    assert isinstance(found.point.value, Length)
    assert found.point.value.mm == pytest.approx(published, abs=0.005)


# El-Hofy, Fundamentals of Machining Processes, p.138: travel past the work 2 to 3 mm, 20 mm plate
TRAVELS = (
    pytest.param(6, 23.8, 24.8, id="sum-ElHofy-1"),
    pytest.param(10, 25.0, 26.0, id="sum-ElHofy-2"),
    pytest.param(13, 25.9, 26.9, id="sum-ElHofy-3"),
)


@pytest.mark.parametrize(("diameter", "least", "most"), TRAVELS)
def test_travel_right_through_is_as_published(diameter: float, least: float, most: float) -> None:
    given = Length(20), TWIST, Length(diameter)

    found = through_travel(*given).value

    assert isinstance(found, Length)
    assert least - 0.05 <= found.mm <= most + 0.05


@pytest.mark.parametrize("diameter", [pytest.param(13, id="sum-ElHofy-4")])
def test_scrap_board_takes_point_and_overrun(diameter: float) -> None:
    given = TWIST, Length(diameter)

    found = scrap_board(*given)

    assert 5.9 <= found.mm <= 6.9  # point 3.9 mm and an overrun of 2 to 3 mm


def test_two_pulleys_give_the_published_speed() -> None:
    # WOOD magazine, "How do I calculate the bit speed": 1.125 in on the motor, 4 in, 1725 rpm
    given = SpindleSpeed(1725), Length.from_inches(1.125), Length.from_inches(4)

    found = driven_speed(*given)

    assert found.rpm == pytest.approx(485, abs=1)


# Milton & Wohlers, A Course in Wood Turning, 1919: shafts in a row from 1500 rpm, inches
SHAFTS = (
    pytest.param(((4, 20),), 300, id="sum-MiltonWohlers-1"),
    pytest.param(((4, 20), (8, 4)), 600, id="sum-MiltonWohlers-2"),
    pytest.param(((4, 20), (8, 4), (11, 3)), 2200, id="sum-MiltonWohlers-3"),
)


@pytest.mark.parametrize(("pairs", "published"), SHAFTS)
def test_shafts_in_a_row_give_the_published_speed(
    pairs: tuple[tuple[float, float], ...], published: float
) -> None:
    speed = SpindleSpeed(1500)

    for driving, driven in pairs:
        speed = driven_speed(speed, Length.from_inches(driving), Length.from_inches(driven))

    assert speed.rpm == pytest.approx(published, abs=1)


# DIN 2211 groove table: outside diameter, correction, effective diameter
GROOVES = (
    pytest.param(105.6, 5.6, 100, id="sum-DIN2211-1"),  # section A
    pytest.param(84, 4.0, 80, id="sum-DIN2211-2"),  # section Z
    pytest.param(207, 7.0, 200, id="sum-DIN2211-3"),  # section SPB
)


@pytest.mark.parametrize(("outside", "correction", "published"), GROOVES)
def test_effective_diameter_is_as_in_the_standard(
    outside: float, correction: float, published: float
) -> None:
    given = Length(outside), Length(correction)

    found = effective(*given)

    assert found.mm == pytest.approx(published, abs=1e-9)


# DIN 2211 corrections on section A, outside 60 driving 150 at 1400 rpm; 560 with no correction
OUTSIDE = (
    pytest.param("outside", 527.4, id="sum-DIN2211-4"),
    pytest.param("effective", 560.0, id="sum-DIN2211-5"),
)


@pytest.mark.parametrize(("measured", "published"), OUTSIDE)
def test_outside_diameters_are_corrected(measured: str, published: float) -> None:
    motor, spindle = Pulley((Length(60),)), Pulley((Length(150),))
    pulleys = Pulleys(SpindleSpeed(1400), motor, spindle, measured, Length(5.6))

    found = speeds_of(pulleys)

    assert found[0].rpm == pytest.approx(published, rel=0.001)
