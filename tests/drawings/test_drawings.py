"""Every picture at every size: on the sheet, texts apart, in the theme's colours."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from itertools import combinations

import pytest

from kiosk.core.view import Picture
from kiosk.drawings import PICTURES, Drawing, draw, to_svg
from kiosk.drawings.shapes import Label, Line
from kiosk.drawings.svg import COLOURS
from tests.drawings.measuring import (
    NAMES,
    PART_WAY,
    SHEETS,
    VALUES,
    Pairs,
    extremes,
    labels,
    overlap,
)

every_picture = pytest.mark.parametrize("name", NAMES)
every_sheet = pytest.mark.parametrize("sheet", SHEETS, ids=["7inch", "10inch", "button"])
every_values = pytest.mark.parametrize("values", VALUES.values(), ids=VALUES)


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
