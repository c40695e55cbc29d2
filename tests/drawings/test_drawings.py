"""Every picture at every size: on the sheet, texts apart, lengths to scale, belts where asked."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from itertools import combinations
from math import radians, tan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining.worked import Value
from kiosk.core.units import Angle, Length, SpindleSpeed
from kiosk.core.view import Picture
from kiosk.drawings import PICTURES, Drawing, draw, to_svg
from kiosk.drawings.shapes import Area, Disc, Label, Line
from kiosk.drawings.svg import COLOURS

NAMES = (
    "belts chuck key_hook guard mark on_mark clamps trial depth drilling goggles hair isolator "
    "table stops brush vacuum set_up scrap feet adult bit_broken bit_jammed work_spun smoke hurt "
    "alarm power gone"
).split()
SHEETS = ((68, 56), (80, 70), (26, 18))

Pairs = tuple[tuple[str, Value], ...]

PART_WAY: Pairs = (
    ("bit_diameter", Length(8)),
    ("point_angle", Angle(118)),
    ("thickness", Length(18)),
    ("depth", Length(12)),
    ("point", Length(2.4)),
    ("stop", Length(14)),
    ("floor", Length(4)),
    ("material_family", "wood"),
    ("work_width", Length(100)),
    ("work_length", Length(110)),
    ("way", "clamps"),
    ("groove", 4),
    ("grooves", 9),
    ("speed", SpindleSpeed(2500)),
    ("marking", "felt pen"),
    ("position", "on"),
)
THROUGH: Pairs = (
    ("bit_diameter", Length(13)),
    ("thickness", Length(1.5)),
    ("material_family", "metal"),
    ("groove", 2),
    ("way", "vice"),
    ("marking", "pencil"),
    *((f"motor_{i}", Length(mm)) for i, mm in enumerate((110, 90, 70), start=1)),
    *((f"spindle_{i}", Length(mm)) for i, mm in enumerate((70, 90, 110), start=1)),
)
WRONG: Pairs = (
    ("bit_diameter", "eight"),
    ("thickness", Length(0)),
    ("depth", 3),
    ("groove", 99),
    ("position", ""),
    ("point_angle", Angle(400)),
    ("way", "glue"),
)
VALUES = {"nothing": (), "part-way": PART_WAY, "through": THROUGH, "nonsense": WRONG}

every_picture = pytest.mark.parametrize("name", NAMES)
every_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=["7inch", "10inch", "button"])
every_values = pytest.mark.parametrize("values", VALUES.values(), ids=VALUES)


def box_of(label: Label) -> tuple[float, float, float, float]:
    """Left, top, right and bottom of a text, on the safe side."""
    width = len(label.text) * 0.62 * 1.4 * label.size
    left = {"left": 0.0, "middle": width / 2, "right": width}[label.anchor]
    return label.x - left, label.y - label.size, label.x - left + width, label.y + label.size * 0.3


def labels(drawing: Drawing) -> list[Label]:
    return [shape for shape in drawing.shapes if isinstance(shape, Label)]


def extremes(drawing: Drawing) -> list[tuple[float, float]]:
    """Every point that must lie on the sheet, half the stroke included."""
    found: list[tuple[float, float]] = []
    for shape in drawing.shapes:
        if isinstance(shape, Label):
            left, top, right, bottom = box_of(shape)
            found += [(left, top), (right, bottom)]
        elif isinstance(shape, Disc):
            reach = shape.radius + shape.width / 2
            found += [(shape.x - reach, shape.y - reach), (shape.x + reach, shape.y + reach)]
        else:
            half = shape.width / 2
            found += [(x + d, y + d) for x, y in shape.points for d in (-half, half)]
    return found


def overlap(one: Label, other: Label) -> bool:
    a, b = box_of(one), box_of(other)
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def size_of(area: Area) -> tuple[float, float]:
    xs, ys = zip(*area.points, strict=True)
    return max(xs) - min(xs), max(ys) - min(ys)


def areas(drawing: Drawing, fill: str) -> list[Area]:
    return [s for s in drawing.shapes if isinstance(s, Area) and s.fill == fill]


def test_every_name_agreed_has_a_picture() -> None:
    assert sorted(PICTURES) == sorted(NAMES)


@every_picture
@every_sheet
@every_values
def test_a_picture_stays_on_its_sheet(name: str, sheet: tuple[int, int], values: Pairs) -> None:
    drawing = draw(Picture(name, values), *sheet)

    assert drawing.shapes
    for x, y in extremes(drawing):
        assert 0 <= x <= drawing.width
        assert 0 <= y <= drawing.height


@every_picture
@every_sheet
@every_values
def test_texts_are_large_enough_and_never_overlap(
    name: str, sheet: tuple[int, int], values: Pairs
) -> None:
    found = labels(draw(Picture(name, values), *sheet))

    assert all(label.size >= 3.0 for label in found)
    assert not [pair for pair in combinations(found, 2) if overlap(*pair)]


@every_picture
@every_values
def test_a_button_has_bold_strokes_and_no_text(name: str, values: Pairs) -> None:
    drawing = draw(Picture(name, values), 26, 18)

    assert not labels(drawing)
    assert all(s.width >= 0.3 for s in drawing.shapes if isinstance(s, Line))


@every_picture
@every_values
def test_only_colours_of_the_theme_are_used(name: str, values: Pairs) -> None:
    drawing = draw(Picture(name, values), 68, 56)

    for shape in drawing.shapes:
        names = [shape.colour] if isinstance(shape, Line | Label) else [shape.fill, shape.edge]
        assert set(names) <= set(COLOURS)


@every_sheet
def test_an_unknown_name_gives_a_blank_with_that_name(sheet: tuple[int, int]) -> None:
    drawing = draw(Picture("a very long name that nobody has ever drawn"), *sheet)

    texts = [label.text for label in labels(drawing)]
    assert all(0 <= x <= sheet[0] for x, _ in extremes(drawing))
    assert sheet == (26, 18) or (texts and "a very long name".startswith(texts[0][:16]))


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


@every_picture
def test_svg_is_well_formed_and_holds_every_shape(name: str) -> None:
    drawing = draw(Picture(name, PART_WAY), 68, 56)

    root = ElementTree.fromstring(to_svg(drawing))

    assert len(list(root)) == len(drawing.shapes)
    assert root.attrib["viewBox"] == "0 0 68 56"


def test_svg_escapes_texts_and_takes_the_colours_given() -> None:
    label = Label(5, 5, "<8 & 9>", colour="action")

    text = to_svg(Drawing(10, 10, (label,)), {"action": "#123456"})

    assert "&lt;8 &amp; 9&gt;" in text
    assert 'fill="#123456"' in text


def test_work_that_spun_is_drawn_turning_as_the_drill_turns() -> None:
    drawing = draw(Picture("work_spun"), 68, 56)

    middle = drawing.width / 2, drawing.height / 2
    arcs = [s for s in drawing.shapes if isinstance(s, Line) and s.colour == "stop"]
    for line in arcs:
        (x0, y0), (x1, y1) = line.points[0], line.points[-1]
        cross = (x0 - middle[0]) * (y1 - middle[1]) - (y0 - middle[1]) * (x1 - middle[0])
        assert cross > 0  # clockwise on a sheet whose y goes down
    assert len(arcs) == 2
