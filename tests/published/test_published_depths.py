"""Points, stops, travel, bit lengths, pilots and lifts against published figures."""

from __future__ import annotations

import pytest

from kiosk.core.machining import (
    Figure,
    StopSetting,
    lift_plan,
    pilot_plan,
    point_length,
    reach_of,
    scrap_board,
    stop_setting,
    table_gap,
    through_travel,
)
from kiosk.core.model import BitKind, Content, Material, Work
from kiosk.core.units import Angle, Length, SpindleSpeed
from tests.published.sources import published

pytestmark = pytest.mark.published

TWIST = BitKind(
    "twist", "twist bit", Length(1), Length(25), Angle(118), SpindleSpeed(4000),
    SpindleSpeed(100), (), ("metal",),
)  # fmt: skip
PLASTICS = BitKind(
    "plastics", "plastics bit", Length(1), Length(25), Angle(90), SpindleSpeed(4000),
    SpindleSpeed(100), (), ("plastic",),
)  # fmt: skip
BARE = Material("bare", "bare metal", "metal", (), "centre punch", "curls", False, "none")

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


@published("point length", ("angle", "share"), POINTS)
def test_point_length_is_as_published(angle: float, share: float) -> None:
    given = Length(10), Angle(angle)

    found = point_length(*given)

    assert found.mm / 10 == pytest.approx(share, abs=1e-4)


# Groover, drilling problems: 118 degree points of 10 mm (variant) and 12.7 mm (from memory)
GROOVER_POINTS = (
    pytest.param(10, 3.00, id="sum-Groover-3"),
    pytest.param(12.7, 3.815, id="sum-Groover-4"),
)


@published("point length", ("diameter", "expected"), GROOVER_POINTS)
def test_point_allowance_is_as_worked_in_the_book(diameter: float, expected: float) -> None:
    given = Length(60), TWIST, Length(diameter), Length(80)

    found = stop_setting(*given)

    assert isinstance(found, StopSetting)
    assert isinstance(found.point.value, Length)
    assert found.point.value.mm == pytest.approx(expected, abs=0.005)


# Groover, the same two holes of 60 mm: what the spindle goes down; the scale has half millimetres
# acrylic maker's manual: a blind hole under 3 diameters has a 90 degree point, 10 mm and 20 deep
STOPS = (
    pytest.param(TWIST, 10, 60, 63.0, id="sum-Groover-5"),
    pytest.param(TWIST, 12.7, 60, 63.5, id="sum-Groover-6"),
    pytest.param(PLASTICS, 10, 20, 25.0, id="sum-AcrylicManual-1"),
)


@published("depth stop", ("bit", "diameter", "depth", "expected"), STOPS)
def test_the_stop_is_set_as_published(
    bit: BitKind, diameter: float, depth: float, expected: float
) -> None:
    given = Length(depth), bit, Length(diameter), Length(80)

    found = stop_setting(*given)

    assert isinstance(found, StopSetting)
    assert found.stop.value == Length(expected)


# El-Hofy, Fundamentals of Machining Processes, p.138: travel past the work 2 to 3 mm, 20 mm plate
TRAVELS = (
    pytest.param(6, 23.8, 24.8, id="sum-ElHofy-1"),
    pytest.param(10, 25.0, 26.0, id="sum-ElHofy-2"),
    pytest.param(13, 25.9, 26.9, id="sum-ElHofy-3"),
)


@published("travel", ("diameter", "least", "most"), TRAVELS)
def test_travel_right_through_is_as_published(diameter: float, least: float, most: float) -> None:
    given = Length(20), TWIST, Length(diameter)

    found = through_travel(*given).value

    assert isinstance(found, Length)
    assert least - 0.05 <= found.mm <= most + 0.05


# El-Hofy, the same overrun with the point of each drill
SCRAPS = (
    pytest.param(6, 3.8, 4.8, id="sum-ElHofy-4"),
    pytest.param(10, 5.0, 6.0, id="sum-ElHofy-5"),
    pytest.param(13, 5.9, 6.9, id="sum-ElHofy-6"),
)


@published("scrap board", ("diameter", "least", "most"), SCRAPS)
def test_scrap_board_takes_point_and_overrun(diameter: float, least: float, most: float) -> None:
    given = TWIST, Length(diameter)

    found = scrap_board(*given)

    assert least <= found.mm <= most


# an encyclopaedia's article on drill bits: a jobber drill's flute is 9 to 14 times its diameter
FLUTES = (
    pytest.param(3, id="sum-JobberArticle-1"),
    pytest.param(5, id="sum-JobberArticle-2"),
    pytest.param(8, id="sum-JobberArticle-3"),
)


@published("flute", "diameter", FLUTES)
def test_a_twist_bits_flute_is_as_long_as_published(content: Content, diameter: float) -> None:
    twist = content.bit("twist")
    assert twist is not None

    found = reach_of(twist, Length(diameter))

    assert found is not None
    assert 9 <= found.flute.mm / diameter <= 14


# DIN 338 whole lengths (from memory): 5, 8 and 10 mm; less 25 mm grip, 10 mm clear, 6 mm work,
# an ordinary board of 18 mm as scrap, and the vice's bed as the drill's file has it
HEIGHTS = (
    pytest.param(5, 86, id="sum-DIN338-1"),
    pytest.param(8, 117, id="sum-DIN338-2"),
    pytest.param(10, 133, id="sum-DIN338-3"),
)


@published("table height", ("diameter", "whole"), HEIGHTS)
def test_the_table_stands_below_bit_work_scrap_and_vice(
    content: Content, diameter: float, whole: float
) -> None:
    twist, drill = content.bit("twist"), content.machine("drill-1")
    assert twist is not None and drill is not None
    bar = Work("bar", Length(40), Length(6), Length(120))

    found = table_gap(drill, twist, Length(diameter), bar, is_through=True)

    assert isinstance(found, Figure) and isinstance(found.value, Length)
    assert found.value.mm == pytest.approx(whole - 25 + 10 + 6 + 18 + 35, abs=0.01)


# share of the diameter that a pilot may be
PILOTS = (
    # Machinery's Handbook 31e: chisel edge of a standard drill, 0.18 of the diameter, as the least
    pytest.param(12, 0.18, 0.5, id="sum-MachineryHandbook-1"),
    # Walker, Modern Metalworking: about 1/4 of the diameter
    pytest.param(10, 0.22, 0.28, id="sum-Walker-1"),
    # a machinists' journal: about 1/3 of the diameter, never over 1/2
    pytest.param(13, 0.2, 0.34, id="sum-MachinistJournal-1"),
)


@published("pilot", ("diameter", "least", "most"), PILOTS)
def test_the_pilot_is_in_the_published_share(
    content: Content, diameter: float, least: float, most: float
) -> None:
    twist, steel = content.bit("twist"), content.material("mild_steel")
    assert twist is not None and steel is not None

    pilots = pilot_plan(steel, twist, Length(diameter))

    assert len(pilots) == 1
    assert least < pilots[0].mm / diameter <= most


# depth in diameters at which the bit first comes up
LIFTS = (
    # Metal Drilling Reference Guide: a deep hole begins at 3 diameters
    pytest.param(4, 3, id="sum-ReferenceGuide-1"),
    # a bearing maker's text: the same 3
    pytest.param(6, 3, id="sum-BearingText-1"),
    # a tool maker's tip: 2 to 3 diameters in one step
    pytest.param(10, 3, id="sum-ToolTip-1"),
)


@published("lifts", ("diameter", "diameters"), LIFTS)
def test_the_bit_first_comes_up_no_deeper_than_published(diameter: float, diameters: float) -> None:
    lifts = lift_plan(BARE, TWIST, Length(diameter), Length(diameter * 5))

    assert 2 <= lifts[0].mm / diameter <= diameters + 1e-9
