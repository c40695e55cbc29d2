"""Belts on the groove asked for, knob and dial where they stand, the work's proportions."""

from __future__ import annotations

import pytest

from kiosk.core.units import Length, SpindleSpeed
from kiosk.core.view import Picture
from kiosk.drawings import Drawing, draw
from kiosk.drawings.shapes import Line
from tests.core.story import WORDS
from tests.drawings.measuring import Pairs, areas, labels, size_of, texts
from tests.drawings.plans import STEEL, with_values


@pytest.mark.parametrize("groove", [1, 2, 3, 4, 5])
def test_the_belt_lies_on_the_groove_asked_for_counted_from_the_top(groove: int) -> None:
    values = (("groove", groove), ("grooves", 5), ("speed", SpindleSpeed(800)))

    drawing = draw(Picture("belts", values), 68, 56, WORDS)

    rows = sorted({min(y for _, y in area.points) for area in areas(drawing, "steel")})
    belt = areas(drawing, "action")[0]
    middle = sum(y for _, y in belt.points) / 4
    row = rows[1] - rows[0]
    assert len(rows) == 5
    assert rows[groove - 1] < middle < rows[groove - 1] + row
    assert next(label.text for label in labels(drawing) if label.bold) == str(groove)


@pytest.mark.parametrize(("now", "way"), [(2, "down"), (5, "up")])
def test_where_the_belt_lies_now_is_drawn_in_broken_lines_with_the_way_from_there(
    now: int, way: str
) -> None:
    drawing = draw(Picture("belts", with_values(STEEL, groove_now=now)), 60.4, 54.5, WORDS)

    broken = [s for s in drawing.shapes if isinstance(s, Line) and s.dash]
    rows = sorted({min(y for _, y in area.points) for area in areas(drawing, "steel")})
    lies = sum(y for _, y in broken[0].points[:4]) / 4
    belt, head = areas(drawing, "action")[0], areas(drawing, "action")[1]
    wanted, tip = sum(y for _, y in belt.points) / 4, head.points[0][1]
    assert rows[now - 1] < lies < rows[now - 1] + rows[1] - rows[0]
    assert tip == pytest.approx(wanted)
    assert ("down" if wanted > lies else "up") == way
    assert "now" in texts(drawing)


def test_a_belt_that_lies_right_has_no_way_to_go() -> None:
    drawing = draw(Picture("belts", with_values(STEEL, groove_now=4)), 60.4, 54.5, WORDS)

    assert not [s for s in drawing.shapes if isinstance(s, Line) and s.dash]
    assert "now" not in texts(drawing)


def test_pulleys_are_to_scale_with_each_other() -> None:
    given_mm = [dict(STEEL)[f"{end}_{i}"] for end in ("motor", "spindle") for i in range(1, 6)]

    drawing = draw(Picture("belts", STEEL), 68, 56, WORDS)

    widths = [size_of(area)[0] for area in areas(drawing, "steel")]
    mm = [length.mm for length in given_mm if isinstance(length, Length)]
    assert [w / widths[0] for w in widths] == pytest.approx([d / mm[0] for d in mm], rel=0.01)


def test_with_an_idler_each_belt_lies_on_its_own_groove_between_its_own_shafts() -> None:
    grooves = {"motor": (94, 79, 64), "idler": (64, 79, 94), "spindle": (124, 109, 94)}
    values: Pairs = (
        ("groove", 3),
        ("second_groove", 1),
        *((f"{k}_{i}", Length(mm)) for k, each in grooves.items() for i, mm in enumerate(each, 1)),
    )

    drawing = draw(Picture("belts", values), 68, 56, WORDS)

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

    drawing = draw(Picture("dial", values), 68, 56, WORDS)

    head = areas(drawing, "action")[0]
    tip = head.points[0][0]
    assert (tip - 34) * side > 5


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
    assert not areas(drawing, "action"), "what is read is not turned"


def test_a_step_turns_the_knob_to_o() -> None:
    drawing = draw(Picture("isolator", STEEL), 68, 56)

    head = areas(drawing, "action")[0]
    assert knob_points(drawing) == "off"
    assert head.points[0][0] < drawing.width / 2, "the arrow ends on O's side"


@pytest.mark.parametrize("way", ["vice", "clamps"])
@pytest.mark.parametrize(("width", "length"), [(40, 120), (30, 60), (100, 110), (12, 200)])
def test_held_work_keeps_its_proportions(way: str, width: float, length: float) -> None:
    values: Pairs = (
        ("way", way),
        ("work_width", Length(width)),
        ("work_length", Length(length)),
        ("material_family", "plastic"),
    )

    for name in ("clamps", "push"):
        across, down = size_of(areas(draw(Picture(name, values), 68, 56), "plastic")[0])
        assert across / down == pytest.approx(length / width, rel=0.01)


def test_work_that_spun_is_drawn_turning_as_the_drill_turns() -> None:
    drawing = draw(Picture("work_spun"), 68, 56)

    middle = drawing.width / 2, drawing.height / 2
    arcs = [s for s in drawing.shapes if isinstance(s, Line) and s.colour == "stop"]
    for line in arcs:
        (x0, y0), (x1, y1) = line.points[0], line.points[-1]
        cross = (x0 - middle[0]) * (y1 - middle[1]) - (y0 - middle[1]) * (x1 - middle[0])
        assert cross > 0  # clockwise on a sheet whose y goes down
    assert len(arcs) == 2
