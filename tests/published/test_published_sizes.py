"""Edges, threads, clearances and the sizes of a set against published figures.

bd_warehouse 0.4.0 is an independent library of fastener data (tap_hole_sizes.csv,
clearance_hole_sizes.csv, drill_sizes.csv). Its figures are carried over here, because installing
it brings a whole CAD kernel along. Its M12 row follows an older national series and is left out.
"""

from __future__ import annotations

import pytest

from kiosk.core.machining import Screw, edge_distance, nearest_sizes, screw_of
from kiosk.core.model import Content
from kiosk.core.units import Length
from tests.core.machining_shop import ACRYLIC, MILD_STEEL
from tests.published.sources import inch, published

pytestmark = pytest.mark.published


def screw(name: str) -> Screw:
    """The screw, which must be known."""
    found = screw_of(name)
    assert isinstance(found, Screw)
    return found


TAPPING = (
    # bd_warehouse 0.4.0, tap_hole_sizes.csv, column Soft
    pytest.param("M3", 2.5, id="sum-bdwarehouse-1"),
    pytest.param("M4", 3.3, id="sum-bdwarehouse-2"),
    pytest.param("M5", 4.2, id="sum-bdwarehouse-3"),
    pytest.param("M6", 5.0, id="sum-bdwarehouse-4"),
    pytest.param("M8", 6.8, id="sum-bdwarehouse-5"),
    pytest.param("M10", 8.5, id="sum-bdwarehouse-6"),
    # a web chart of ISO tapping sizes, where American charts give 10.3 for M12
    pytest.param("M2", 1.6, id="sum-ISO2306-1"),
    pytest.param("M2.5", 2.05, id="sum-ISO2306-2"),
    pytest.param("M12", 10.2, id="sum-ISO2306-3"),
)


@published("tapping size", ("name", "expected"), TAPPING)
def test_a_tapping_size_is_as_published(name: str, expected: float) -> None:
    found = screw(name).tapping

    assert found == Length(expected)


# a tap maker's column D1, the narrowest the thread's core may be
CORES = (
    pytest.param("M6", 4.917, id="sum-TapMaker-1"),
    pytest.param("M8", 6.647, id="sum-TapMaker-2"),
    pytest.param("M10", 8.376, id="sum-TapMaker-3"),
)


@published("tapping size", ("name", "core"), CORES)
def test_a_tapping_hole_leaves_the_published_core(name: str, core: float) -> None:
    found = screw(name)

    assert core <= found.tapping.mm <= core * 1.03
    assert found.outside.mm - 1.0825 * found.pitch.mm == pytest.approx(core, abs=0.001)


CLEARANCE = (
    # bd_warehouse 0.4.0, clearance_hole_sizes.csv, columns Close, Normal, Loose
    pytest.param("M4", (4.3, 4.5, 4.8), id="sum-bdwarehouse-7"),
    pytest.param("M6", (6.4, 6.6, 7.0), id="sum-bdwarehouse-8"),
    pytest.param("M8", (8.4, 9.0, 10.0), id="sum-bdwarehouse-9"),
    # ISO 273 as an engineering hardware site prints it
    pytest.param("M3", (3.2, 3.4, 3.6), id="sum-ISO273-1"),
    pytest.param("M5", (5.3, 5.5, 5.8), id="sum-ISO273-2"),
    pytest.param("M12", (13.0, 13.5, 14.5), id="sum-ISO273-3"),
)


@published("clearance size", ("name", "expected"), CLEARANCE)
def test_clearance_sizes_are_as_published(name: str, expected: tuple[float, ...]) -> None:
    found = screw(name)

    assert (found.fine.mm, found.medium.mm, found.coarse.mm) == expected


NEAREST = (
    # bd_warehouse 0.4.0, drill_sizes.csv: letter drills in inches, and the half millimetre next
    pytest.param(0.257, 6.5, 0.03, id="sum-bdwarehouse-10"),  # F
    pytest.param(0.266, 6.8, -0.04, id="sum-bdwarehouse-11"),  # H, next to the tapping size
    pytest.param(0.413, 10.5, -0.01, id="sum-bdwarehouse-12"),  # Z
)


@published("nearest in the set", ("inches", "nearest", "error"), NEAREST)
def test_the_nearest_bit_to_an_inch_size_is_as_published(
    content: Content, inches: float, nearest: float, error: float
) -> None:
    twist = content.bit("twist")
    assert twist is not None

    found = nearest_sizes(twist, Length.from_inches(inches))[0]

    assert found == Length(nearest)
    assert inch(inches) - found.mm == pytest.approx(error, abs=0.006)


EDGES = (
    # AC 43.13-1B as quoted: middle of a rivet hole at least 2 diameters from the edge, 6 mm
    pytest.param(MILD_STEEL, 6, 9.0, 9.0, id="sum-AircraftCircular-1"),
    pytest.param(MILD_STEEL, 4, 6.0, 6.0, id="sum-AircraftCircular-2"),
    # polycarbonate fabricator's drilling sheet: rim 1.5 to 2 diameters in, 1/4 in: 3/8 to 1/2 in
    pytest.param(ACRYLIC, inch(1 / 4), inch(3 / 8), inch(1 / 2), id="sum-PolycarbonateSheet-7"),
)


@published("edge distance", ("material", "diameter", "least", "most"), EDGES)
def test_the_edge_distance_is_as_published(
    material: object, diameter: float, least: float, most: float
) -> None:
    found = edge_distance(material, Length(diameter))  # type: ignore[arg-type]

    assert least - 1e-9 <= found.mm <= most + 1e-9
