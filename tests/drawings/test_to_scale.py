"""Lengths to scale: each is measured in the drawing and held against the plan's value."""

from __future__ import annotations

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from kiosk.core.machining.worked import Value
from kiosk.core.units import Angle, Length
from kiosk.core.view import Picture
from kiosk.drawings import Drawing, draw
from kiosk.drawings.bits import KINDS
from kiosk.drawings.shapes import Area, Line
from tests.core.story import WORDS
from tests.drawings.measuring import BUTTON, CARDS, Pairs, areas, labels, size_of, texts
from tests.drawings.plans import (
    COARSE,
    FINE,
    NEEDLE,
    PLANS,
    SHALLOW,
    STEEL,
    WOOD,
    without,
)
from tests.drawings.test_drawings import amiss

SHEETS = tuple((wide, tall) for wide, tall, _ in CARDS.values())
SECTIONS = ("depth", "drilling", "drilling_tape", "trial", "scrap")


@st.composite
def plans(draw_value: st.DrawFn) -> Pairs:
    """Values of a plan: every kind of bit, from the finest to the coarsest, through or part-way."""
    number = st.floats
    diameter = draw_value(number(0.5, 64))
    thickness = draw_value(number(0.5, 150))
    point = draw_value(number(0.0, 40))
    found: dict[str, Value] = {
        "bit": draw_value(st.sampled_from(("twist", *KINDS))),
        "diameter": Length(round(diameter, 2)),
        "point": Length(point),
        "point_angle": Angle(draw_value(number(60, 180))),
        "thickness": Length(thickness),
        "material_family": draw_value(st.sampled_from(("metal", "wood", "plastic"))),
        "way": draw_value(st.sampled_from(("vice", "clamps"))),
        "chuck": draw_value(st.sampled_from(("keyed", "keyless"))),
        "scrap": Length(float(round(point + 3))),
        "gap": Length(float(round(60 + thickness + point))),
    }
    if found["way"] == "vice":
        bed = draw_value(number(5, 150))
        found |= {"vice_bed": Length(bed), "gap": Length(float(round(60 + thickness + bed)))}
    deepest = thickness - point - 0.5  # what the sums allow: half a millimetre of floor
    if deepest > 0.5 and draw_value(st.booleans()):
        deep = draw_value(number(0.5, deepest))
        found |= {"depth": Length(deep), "stop": Length(round(deep + point, 1))}
    if draw_value(st.booleans()):
        lift = draw_value(number(0.1, thickness))
        found |= {"lift": Length(lift), "lifts": draw_value(st.integers(1, 9))}
    return tuple(found.items())


WIDEST = (
    ("bit", "twist"),
    ("diameter", Length(51.0)),
    ("point", Length(40.0)),
    ("point_angle", Angle(60.0)),
    ("thickness", Length(58.5)),
    ("material_family", "metal"),
    ("way", "vice"),
    ("chuck", "keyed"),
    ("scrap", Length(43.0)),
    ("gap", Length(158.0)),
)


@example(WIDEST, (47.6, 43.0), "tape")
@given(plans(), st.sampled_from(SHEETS), st.sampled_from((*SECTIONS, "tape", "table", "fit_bit")))
def test_any_plan_gives_a_picture_that_can_be_read(
    pairs: Pairs, sheet: tuple[float, float], name: str
) -> None:
    drawing = draw(Picture(name, pairs), *sheet, WORDS)

    assert not list(amiss(drawing))


# --- sections ---


@given(plans(), st.sampled_from((*SHEETS, BUTTON)), st.sampled_from(SECTIONS))
def test_bit_and_thickness_are_at_one_scale(
    pairs: Pairs, sheet: tuple[float, float], name: str
) -> None:
    given_mm = dict(pairs)
    fill = {"metal": "steel", "wood": "wood", "plastic": "plastic"}[given_mm["material_family"]]  # type: ignore[index]

    drawing = draw(Picture(name, pairs), *sheet, WORDS)

    assert width_of_bit(drawing) / height_of_work(drawing, fill) == pytest.approx(
        given_mm["diameter"].mm / given_mm["thickness"].mm,
        rel=0.01,  # type: ignore[union-attr]
    )


@pytest.mark.parametrize("sheet", SHEETS, ids=CARDS)
@pytest.mark.parametrize("pairs", [WOOD, SHALLOW, NEEDLE], ids=["wood", "shallow", "needle"])
def test_stop_point_and_floor_are_at_the_scale_of_the_work(
    pairs: Pairs, sheet: tuple[float, float]
) -> None:
    mm = lengths(pairs)

    drawing = draw(Picture("depth", pairs), *sheet, WORDS)

    work = work_of(drawing, mm["thickness"])
    top, bottom = heights(work)
    scale = (bottom - top) / mm["thickness"]
    tip = max(y for _, y in areas(drawing, "bit")[0].points)
    assert (tip - top) / scale == pytest.approx(mm["stop"], abs=0.02)
    assert (bottom - tip) / scale == pytest.approx(mm["thickness"] - mm["stop"], abs=0.02)
    assert full_width_ends(drawing) == pytest.approx(tip - mm["point"] * scale, abs=0.02)


@pytest.mark.parametrize("sheet", SHEETS, ids=CARDS)
@pytest.mark.parametrize("pairs", [WOOD, SHALLOW, NEEDLE], ids=["wood", "shallow", "needle"])
def test_the_depth_scale_has_its_zero_at_the_works_top_and_its_stop_at_the_tip(
    pairs: Pairs, sheet: tuple[float, float]
) -> None:
    drawing = draw(Picture("depth", pairs), *sheet, WORDS)

    zero = middle_height(areas(drawing, "paper")[1])
    collar = middle_height(areas(drawing, "action")[0])
    tip = max(y for _, y in areas(drawing, "bit")[0].points)
    assert zero == pytest.approx(heights(work_of(drawing, lengths(pairs)["thickness"]))[0])
    assert collar == pytest.approx(tip)


@pytest.mark.parametrize("language", WORDS.others)
@pytest.mark.parametrize("sheet", SHEETS, ids=CARDS)
@pytest.mark.parametrize("pairs", [WOOD, SHALLOW, NEEDLE], ids=["wood", "shallow", "needle"])
def test_the_number_that_is_set_is_never_left_out(
    pairs: Pairs, sheet: tuple[float, float], language: str
) -> None:
    words = WORDS.of(language)
    stop = "".join(words.number(Length(lengths(pairs)["stop"])).split())

    for name in ("depth", "tape"):
        assert stop in "".join(texts(draw(Picture(name, pairs), *sheet, words)).split()), name


@pytest.mark.parametrize("language", WORDS.others)
@pytest.mark.parametrize("sheet", SHEETS, ids=CARDS)
def test_what_is_chosen_is_written_on_every_card(sheet: tuple[float, float], language: str) -> None:
    words = WORDS.of(language)
    shown = {
        "belts": ("speed", STEEL),
        "dial": ("speed", PLANS["dial"]),
        "fit_bit": ("diameter", STEEL),
        "chuck": ("diameter", STEEL),
        "scrap": ("scrap", STEEL),
        "table": ("gap", STEEL),
        "set_up": ("diameter", STEEL),
    }

    for name, (value, pairs) in shown.items():
        written = " ".join(texts(draw(Picture(name, pairs), *sheet, words)).split())
        wanted = " ".join(words.number(dict(pairs)[value]).split())
        assert wanted in written, f"{name}: {wanted} not in {written!r}"


def test_the_works_size_is_written_under_it() -> None:
    drawing = draw(Picture("clamps", STEEL), 60.4, 54.5, WORDS.of("uk"))

    assert texts(drawing) == "120\u00a0мм × 40\u00a0мм"


def test_a_through_hole_goes_into_a_scrap_board_that_is_not_drilled_through() -> None:
    drawing = draw(Picture("depth", without(STEEL, "scrap")), 68, 56, WORDS)

    tip = max(y for _, y in areas(drawing, "bit")[0].points)
    board = [y for _, y in areas(drawing, "wood")[0].points]
    assert min(board) < tip < max(board)


def test_numbers_are_written_as_the_language_writes_them() -> None:
    drawing = draw(Picture("depth", WOOD), 73.7, 76.6, WORDS.of("uk"))

    written = {label.text.replace("\u00a0", " ") for label in labels(drawing)}
    assert {"10 мм", "32,5 мм", "0 мм", "Дно: 12,5 мм"} <= written


def test_the_bit_lifts_clear_as_deep_as_the_plan_says() -> None:
    drawing = draw(Picture("drilling", WOOD), 73.7, 76.6, WORDS)

    top, bottom = heights(work_of(drawing, 45))
    scale = (bottom - top) / 45
    path = max((s for s in drawing.shapes if isinstance(s, Line)), key=lambda s: len(s.points))
    first = path.points[1]
    assert (first[1] - top) / scale == pytest.approx(15, abs=0.05)
    assert path.points[3][1] < top, "clear of the work"


@pytest.mark.parametrize("sheet", (*SHEETS, BUTTON), ids=(*CARDS, "button"))
@pytest.mark.parametrize("pairs", PLANS.values(), ids=PLANS)
def test_the_trial_stroke_ends_where_the_tip_meets_the_work(
    pairs: Pairs, sheet: tuple[float, float]
) -> None:
    """Its words say so, and the drill stands."""
    drawing = draw(Picture("trial", pairs), *sheet, WORDS)

    top = heights(work_of(drawing, 1))[0]
    lowest = next(s for s in drawing.shapes if isinstance(s, Line) and s.dash)
    assert max(y for _, y in lowest.points) == pytest.approx(top)
    assert max(y for _, y in areas(drawing, "bit")[0].points) < top


@pytest.mark.parametrize("sheet", SHEETS, ids=CARDS)
@pytest.mark.parametrize("pairs", [WOOD, SHALLOW, NEEDLE], ids=["wood", "shallow", "needle"])
def test_tape_stands_above_the_tip_by_what_the_stop_would_be_set_to(
    pairs: Pairs, sheet: tuple[float, float]
) -> None:
    mm = lengths(pairs)

    drawing = draw(Picture("tape", pairs), *sheet, WORDS)

    bit, band = areas(drawing, "bit")[0], areas(drawing, "caution")[1]
    scale = width_of_bit(drawing) / mm["diameter"]
    tip = max(y for _, y in bit.points)
    assert (tip - heights(band)[1]) / scale == pytest.approx(mm["stop"], abs=0.02)


@pytest.mark.parametrize("pairs", [STEEL, WOOD, FINE, COARSE], ids=["steel", "wood", "1", "32"])
def test_the_table_stands_as_far_under_the_chuck_as_was_worked_out(pairs: Pairs) -> None:
    mm = lengths(pairs)

    drawing = draw(Picture("table", pairs), 60.4, 54.5, WORDS)

    work = work_of(drawing, mm["thickness"])
    ends = [s.points for s in drawing.shapes if isinstance(s, Line) and s.colour == "action"]
    gap = next(p[1][1] - p[0][1] for p in ends if p[0][0] == p[1][0] and len(p) == 2)
    scale = (heights(work)[1] - heights(work)[0]) / mm["thickness"]
    assert gap / scale == pytest.approx(mm["gap"], rel=0.01)


# --- measuring ---


def lengths(pairs: Pairs) -> dict[str, float]:
    """The lengths among the values, in mm."""
    return {name: value.mm for name, value in pairs if isinstance(value, Length)}


def width_of_bit(drawing: Drawing) -> float:
    return size_of(areas(drawing, "bit")[0])[0]


def full_width_ends(drawing: Drawing) -> float:
    """The lowest place of the bit's left and right side."""
    points = areas(drawing, "bit")[0].points
    sides = min(x for x, _ in points), max(x for x, _ in points)
    return max(y for x, y in points if min(abs(x - side) for side in sides) < 0.01)


def height_of_work(drawing: Drawing, fill: str) -> float:
    return size_of(work_among(areas(drawing, fill)))[1]


def work_of(drawing: Drawing, thickness: float) -> Area:
    """The work: the last wide box in a material's colour."""
    assert thickness > 0
    boxes = [s for fill in ("steel", "wood", "plastic") for s in areas(drawing, fill)]
    return work_among(boxes)


def work_among(boxes: list[Area]) -> Area:
    """Of the wide plain boxes the one that lies highest: scrap wood and table lie under it."""
    wide = [s for s in boxes if len(s.points) == 4 and size_of(s)[0] > 10]
    return min(wide, key=lambda s: heights(s)[0])


def heights(area: Area) -> tuple[float, float]:
    ys = [y for _, y in area.points]
    return min(ys), max(ys)


def middle_height(area: Area) -> float:
    return sum(heights(area)) / 2


def test_the_scrap_woods_caption_says_from_which_thickness_to_which() -> None:
    sheet = SHEETS[0]
    one = without(STEEL, "scrap_most")

    both = texts(draw(Picture("scrap", (*one, ("scrap_most", Length(18)))), *sheet, WORDS))
    alone = texts(draw(Picture("scrap", one), *sheet, WORDS))

    least = WORDS.number(dict(STEEL)["scrap"])
    assert f"{least}\u00a0– 18\u00a0mm" in both.replace("\n", " ")
    assert "–" not in alone and ">" not in both
