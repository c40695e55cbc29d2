"""Feeds, times, deep holes and dust limits against published figures."""

from __future__ import annotations

import pytest

from kiosk.core.machining import Figure, cutting_time, deep_shares, feed_for, rpm
from kiosk.core.model import Content
from kiosk.core.units import CuttingSpeed, Feed, Length, SpindleSpeed
from tests.published.sources import published

pytestmark = pytest.mark.published

# material, bit, mm, least and most mm a turn
FEEDS = (
    # US Navy training manual 14345: rows to 1/8, 1/4 and 1/2 in
    pytest.param("mild_steel", "twist", 3, 0.025, 0.051, id="sum-NavyManual-1"),
    pytest.param("mild_steel", "twist", 6, 0.05, 0.102, id="sum-NavyManual-2"),
    pytest.param("mild_steel", "twist", 10, 0.10, 0.178, id="sum-NavyManual-3"),
    # acrylic maker's workshop guide, German edition
    pytest.param("acrylic", "plastics", 10, 0.10, 0.30, id="sum-AcrylicGuide-2"),
    # polycarbonate fabricator's drilling sheet: 1/8, 1/4, 1/2 in
    pytest.param("polycarbonate", "plastics", 3, 0.0249, 0.0259, id="sum-PolycarbonateSheet-4"),
    pytest.param("polycarbonate", "plastics", 6, 0.0498, 0.0518, id="sum-PolycarbonateSheet-5"),
    pytest.param("polycarbonate", "plastics", 12, 0.0996, 0.1036, id="sum-PolycarbonateSheet-6"),
)


@published("feed", ("material", "bit", "diameter", "least", "most"), FEEDS)
def test_a_shipped_feed_is_as_published(
    content: Content, material: str, bit: str, diameter: float, least: float, most: float
) -> None:
    cut, kind = content.material(material), content.bit(bit)
    assert cut is not None and kind is not None

    found = feed_for(kind, cut, Length(diameter))

    assert isinstance(found, Figure) and isinstance(found.value, Feed)
    assert least <= found.value.mm_per_rev <= most


# a university design table: feed in stainless steel and cast iron against mild steel, 12 mm
SHARES = (
    pytest.param("stainless_steel", 0.18 / 0.25, id="sum-DesignTable-1"),
    pytest.param("cast_iron", 0.18 / 0.25, id="sum-DesignTable-2"),
)


@published("feed", ("material", "expected"), SHARES)
def test_a_harder_materials_share_of_the_feed_is_as_published(
    content: Content, material: str, expected: float
) -> None:
    cut = content.material(material)
    assert cut is not None

    found = cut.feed_share

    assert found == pytest.approx(expected, abs=0.005)


# mm of travel, mm a turn, rpm, seconds
TIMES = (
    # Groover: 60 mm and the point at 0.25 and 954.9 rpm; 0.30 and 626.6 rpm (second from memory)
    pytest.param(63.0, 0.25, 954.9, 0.264 * 60, 0.004, id="sum-Groover-9"),
    pytest.param(63.815, 0.30, 626.6, 0.339 * 60, 0.003, id="sum-Groover-10"),
    # a cutting-tool maker's formulas: five holes of 30 mm at 0.2 and 1350 rpm
    pytest.param(150, 0.2, 1350, 33.3, 0.002, id="sum-ToolFormulas-2"),
    # an exam text: 25 mm at 0.25 and 318.31 rpm
    pytest.param(25, 0.25, 318.31, 0.314 * 60, 0.001, id="sum-ExamText-1"),
)


@published("time", ("travel", "feed", "speed", "expected", "within"), TIMES)
def test_time_in_the_cut_is_as_published(
    travel: float, feed: float, speed: float, expected: float, within: float
) -> None:
    found = cutting_time(Length(travel), Feed(feed), SpindleSpeed(speed))

    assert found.s == pytest.approx(expected, rel=within)


@published("time", "expected", [pytest.param(11.3, id="sum-ToolFormulas-3")])
def test_time_from_a_cutting_speed_is_as_published(expected: float) -> None:
    # the same formulas: 15 mm, 30 mm deep in alloy steel at 50 m/min and 0.15 mm a turn
    speed = rpm(CuttingSpeed(50), Length(15))

    found = cutting_time(Length(30), Feed(0.15), speed)

    assert found.s == pytest.approx(expected, abs=0.05)


# Metal Drilling Reference Guide: depth in diameters, share of speed and of feed; the slower at 6
DEEP = (
    pytest.param(2.9, 1.0, 1.0, id="sum-ReferenceGuide-2"),
    pytest.param(3, 0.9, 0.9, id="sum-ReferenceGuide-3"),
    pytest.param(4, 0.8, 0.9, id="sum-ReferenceGuide-4"),
    pytest.param(5, 0.7, 0.8, id="sum-ReferenceGuide-5"),
    pytest.param(6, 0.6, 0.8, id="sum-ReferenceGuide-6"),
)


@published("deep hole", ("diameters", "speed", "feed"), DEEP)
def test_a_deep_holes_shares_are_as_published(diameters: float, speed: float, feed: float) -> None:
    found = deep_shares(Length(8 * diameters), Length(8))

    assert (found.speed, found.feed) == (speed, feed)


# HSE, wood dust: limits over 8 h; a mixture has hardwood's
DUSTS = (
    pytest.param("softwood", "5 mg/m3", id="sum-HSE-1"),
    pytest.param("hardwood", "3 mg/m3", id="sum-HSE-2"),
    pytest.param("mdf", "3 mg/m3", id="sum-HSE-3"),
)


@published("dust limit", ("material", "limit"), DUSTS)
def test_a_shipped_dust_limit_is_the_regulators(
    content: Content, material: str, limit: str
) -> None:
    cut = content.material(material)
    assert cut is not None

    assert f"limit {limit}" in cut.dust_class
