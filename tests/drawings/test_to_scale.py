"""Lengths to scale, belts on the groove asked for, the knob where it stands."""

from __future__ import annotations

from itertools import combinations
from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.units import Length, SpindleSpeed
from kiosk.core.view import Picture
from kiosk.drawings import Drawing, draw
from kiosk.drawings.shapes import Line
from tests.drawings.measuring import (
    PART_WAY,
    SHEETS,
    THROUGH,
    Pairs,
    areas,
    box_of,
    extremes,
    labels,
    overlap,
    size_of,
)


@given(
    st.floats(1, 13),
    st.floats(1, 60),
    st.sampled_from(SHEETS),
    st.sampled_from(["depth", "drilling", "trial", "scrap"]),
)
def test_bit_and_thickness_are_at_one_scale(
    diameter: float, thickness: float, sheet: tuple[int, int], name: str
) -> None:
    values = (
        ("bit_diameter", Length(diameter)),
        ("thickness", Length(thickness)),
        ("material_family", "plastic"),
    )

    drawing = draw(Picture(name, values), *sheet)

    bit_width = size_of(areas(drawing, "bit")[0])[0]
    work_height = size_of(areas(drawing, "plastic")[0])[1]
    assert bit_width / work_height == pytest.approx(diameter / thickness, rel=0.01)
    assert all(0 <= x <= sheet[0] and 0 <= y <= sheet[1] for x, y in extremes(drawing))


@given(st.floats(1, 13), st.floats(0.5, 40), st.floats(0.5, 20), st.sampled_from(SHEETS))
def test_depth_point_and_floor_are_at_one_scale(
    diameter: float, depth: float, floor: float, sheet: tuple[int, int]
) -> None:
    point = diameter / 2 / tan(radians(59))
    thickness = depth + point + floor
    values = (
        ("bit_diameter", Length(diameter)),
        ("thickness", Length(thickness)),
        ("depth", Length(depth)),
        ("material_family", "metal"),
    )

    drawing = draw(Picture("depth", values), *sheet)

    work = areas(drawing, "steel")[0]
    scale = size_of(work)[1] / thickness
    ys = [y for _, y in areas(drawing, "bit")[0].points]
    underside = max(y for _, y in work.points)
    shoulder = sorted(set(ys))[-2]
    assert underside - max(ys) == pytest.approx(floor * scale, abs=0.01)
    assert max(ys) - shoulder == pytest.approx(point * scale, abs=0.01)


@given(st.floats(1, 13), st.floats(0.6, 60), st.floats(1, 60), st.sampled_from(SHEETS[:2]))
def test_texts_of_a_section_stay_apart_and_off_the_bit(
    diameter: float, thickness: float, depth: float, sheet: tuple[int, int]
) -> None:
    deep = min(depth, thickness)
    values = (
        ("bit_diameter", Length(round(diameter, 1))),
        ("thickness", Length(thickness)),
        ("depth", Length(deep)),
        ("stop", Length(deep)),
    )

    drawing = draw(Picture("depth", values), *sheet)

    found = labels(drawing)
    assert not [pair for pair in combinations(found, 2) if overlap(*pair)]
    assert all(0 <= x <= sheet[0] and 0 <= y <= sheet[1] for x, y in extremes(drawing))
    xs = [x for x, _ in areas(drawing, "bit")[0].points]
    for label in found:
        left, top, right, _ = box_of(label)
        is_beside = right <= min(xs) or left >= max(xs)
        work = [y for _, y in areas(drawing, "steel")[0].points]
        assert is_beside or label.y <= 9.5 or top >= max(work)
        is_inside = top > min(work) and label.y < max(work)
        assert is_inside or label.y < min(work) or top > max(work)


def test_a_through_hole_goes_into_a_scrap_board_that_is_not_drilled_through() -> None:
    drawing = draw(
        Picture("depth", (("bit_diameter", Length(8)), ("thickness", Length(6)))), 68, 56
    )

    tip = max(y for _, y in areas(drawing, "bit")[0].points)
    board = [y for _, y in areas(drawing, "wood")[0].points]
    assert min(board) < tip < max(board)


def test_numbers_are_written_as_the_language_writes_them() -> None:
    def welsh(value: object) -> str:
        return f"<{value.mm:g}>".replace(".", ",") if isinstance(value, Length) else "?"

    drawing = draw(Picture("depth", PART_WAY[:7]), 68, 56, welsh)

    assert {label.text for label in labels(drawing)} == {"<8>", "<14>", "<12>", "<4>"}


@pytest.mark.parametrize("groove", [1, 2, 3, 4, 5])
def test_the_belt_lies_on_the_groove_asked_for_counted_from_the_top(groove: int) -> None:
    values = (("groove", groove), ("grooves", 5), ("speed", SpindleSpeed(800)))

    drawing = draw(Picture("belts", values), 68, 56)

    rows = sorted({min(y for _, y in area.points) for area in areas(drawing, "steel")})
    belt = areas(drawing, "action")[0]
    middle = sum(y for _, y in belt.points) / 4
    row = rows[1] - rows[0]
    assert len(rows) == 5
    assert rows[groove - 1] < middle < rows[groove - 1] + row
    assert next(label.text for label in labels(drawing) if label.bold) == str(groove)


def test_pulleys_are_to_scale_with_each_other() -> None:
    drawing = draw(Picture("belts", THROUGH), 68, 56)

    widths = [size_of(area)[0] for area in areas(drawing, "steel")]
    given_mm = [110, 90, 70, 70, 90, 110]
    assert [w / widths[0] for w in widths] == pytest.approx([mm / 110 for mm in given_mm], rel=0.01)


@pytest.mark.parametrize("way", ["vice", "clamps"])
@pytest.mark.parametrize(("width", "length"), [(40, 120), (30, 60), (100, 110), (12, 200)])
def test_held_work_keeps_its_proportions(way: str, width: float, length: float) -> None:
    values: Pairs = (
        ("way", way),
        ("work_width", Length(width)),
        ("work_length", Length(length)),
        ("material_family", "plastic"),
    )

    drawing = draw(Picture("clamps", values), 68, 56)

    across, down = size_of(areas(drawing, "plastic")[0])
    assert across / down == pytest.approx(length / width, rel=0.01)


def knob_points(drawing: Drawing) -> str:
    """Where the thick stem points: O is to the left, I is up."""
    stem = next((s for s in drawing.shapes if isinstance(s, Line) and s.width > 3), None)
    if stem is None:
        return "neither"
    (x0, y0), (x1, y1) = stem.points
    return "off" if x1 < x0 - 1 and abs(y1 - y0) < 1 else "on" if y1 < y0 - 1 else "else"


@pytest.mark.parametrize(
    ("position", "points"),
    [("off", "off"), ("on", "on"), ("unknown", "neither"), ("fault", "neither")],
)
def test_the_isolators_knob_points_where_it_stands_and_unknown_at_neither(
    position: str, points: str
) -> None:
    drawing = draw(Picture("isolator", (("position", position),)), 68, 56)

    assert knob_points(drawing) == points


def test_work_that_spun_is_drawn_turning_as_the_drill_turns() -> None:
    drawing = draw(Picture("work_spun"), 68, 56)

    middle = drawing.width / 2, drawing.height / 2
    arcs = [s for s in drawing.shapes if isinstance(s, Line) and s.colour == "stop"]
    for line in arcs:
        (x0, y0), (x1, y1) = line.points[0], line.points[-1]
        cross = (x0 - middle[0]) * (y1 - middle[1]) - (y0 - middle[1]) * (x1 - middle[0])
        assert cross > 0  # clockwise on a sheet whose y goes down
    assert len(arcs) == 2


def test_with_an_idler_each_belt_lies_on_its_own_groove_between_its_own_shafts() -> None:
    grooves = {"motor": (94, 79, 64), "idler": (64, 79, 94), "spindle": (124, 109, 94)}
    values: Pairs = (
        ("groove", 3),
        ("second_groove", 1),
        *((f"{k}_{i}", Length(mm)) for k, each in grooves.items() for i, mm in enumerate(each, 1)),
    )

    drawing = draw(Picture("belts", values), 68, 56)

    first, second = areas(drawing, "action")[:2]
    middles = [sum(x for x, _ in area.points) / 4 for area in (first, second)]
    heights = [sum(y for _, y in area.points) / 4 for area in (first, second)]
    assert len(areas(drawing, "steel")) == 9
    assert middles[0] < middles[1], "from the motor to the idler, and on to the spindle"
    assert heights[0] > heights[1], "groove 3 lies under groove 1"


@pytest.mark.parametrize(("rpm", "side"), [(200, -1), (2400, 1)])
def test_the_dials_hand_points_left_at_the_slowest_and_right_at_the_fastest(
    rpm: float, side: int
) -> None:
    marks = (("slowest", SpindleSpeed(200)), ("fastest", SpindleSpeed(2400)))
    values: Pairs = (("speed", SpindleSpeed(rpm)), *marks)

    drawing = draw(Picture("dial", values), 68, 56)

    head = areas(drawing, "action")[0]
    tip = head.points[0][0]
    assert (tip - 34) * side > 5
