"""Shipped materials and bits checked against published bands, each with its source beside it."""

from __future__ import annotations

from math import pi
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.machining import Figure, GrooveChoice, band_of, choose_groove, feed_for
from kiosk.core.model import Content, SpeedBand
from kiosk.core.units import Feed, Length

pytestmark = pytest.mark.published

SEQUENCES = Path(__file__).parents[2] / "sequences"


@pytest.fixture(scope="module")
def content() -> Content:
    loaded = load(SEQUENCES)
    assert loaded.content is not None, loaded.problems
    return loaded.content


# material, bit, least and most m/min that publications give
BANDS = (
    # US Navy training manual 14345, Metal Drilling Reference Guide, Arizona shop notes and others
    pytest.param("mild_steel", "twist", 20, 37, id="band-NavyManual-1"),
    # US Navy training manual 14345, tool maker's speed tables, a cobalt drill data sheet
    pytest.param("aluminium", "twist", 60, 122, id="band-NavyManual-2"),
    # acrylic maker's workshop guide, German edition, ch. 3.1, 25 mm at 510 rpm
    pytest.param("acrylic", "plastics", 15, 40.1, id="band-AcrylicGuide-1"),
    # Metal Drilling Reference Guide, wood 300-400 ft/min, with a magazine chart's softwood rows
    pytest.param("pine", "twist", 50, 122, id="band-ReferenceGuide-1"),
    # WOOD magazine, hardwood 1500 rpm from 6.4 to 9.5 mm, and what hardwood charts imply
    pytest.param("plywood", "twist", 25, 76, id="band-WOODmagazine-1"),
    pytest.param("mdf", "twist", 25, 76, id="band-WOODmagazine-2"),
)


@pytest.mark.parametrize(("material", "bit", "least", "most"), BANDS)
def test_a_shipped_band_lies_in_the_published_one(
    content: Content, material: str, bit: str, least: float, most: float
) -> None:
    cut, kind = content.material(material), content.bit(bit)
    assert cut is not None and kind is not None

    band = band_of(cut, kind)

    assert isinstance(band, SpeedBand)
    assert least <= band.low < band.high <= most
    assert band.source


# material, bit, diameter mm, least and most mm/rev that publications give
FEEDS = (
    # US Navy training manual 14345, tool makers' tables and a university design table
    pytest.param("mild_steel", "twist", 10, 0.10, 0.25, id="feed-NavyManual-1"),
    # acrylic maker's workshop guide, German edition
    pytest.param("acrylic", "plastics", 10, 0.10, 0.30, id="feed-AcrylicGuide-1"),
)


@pytest.mark.parametrize(("material", "bit", "mm", "least", "most"), FEEDS)
def test_a_shipped_feed_lies_in_the_published_band(
    content: Content, material: str, bit: str, mm: float, least: float, most: float
) -> None:
    cut, kind = content.material(material), content.bit(bit)
    assert cut is not None and kind is not None

    figure = feed_for(kind, cut, Length(mm))

    assert isinstance(figure, Figure) and isinstance(figure.value, Feed)
    assert least <= figure.value.mm_per_rev <= most


def test_no_choice_on_a_shipped_machine_is_over_the_lower_third(content: Content) -> None:
    sizes = [(bit, size) for bit in content.bits for size in bit.sizes]
    asked = [(m, c, *s) for m in content.machines for c in content.materials for s in sizes]
    answers = [(choose_groove(m, c, b, d), c, b, d) for m, c, b, d in asked]
    chosen = [each for each in answers if isinstance(each[0], GrooveChoice)]

    for choice, material, bit, size in chosen:
        assert isinstance(choice, GrooveChoice)
        band = band_of(material, bit)
        assert isinstance(band, SpeedBand)
        edge = pi * size.mm * choice.speed.rpm / 1000
        assert edge <= band.low + (band.high - band.low) / 3 + 1e-9
        assert bit.floor_speed <= choice.speed <= bit.top_speed
    assert len(chosen) > 100
