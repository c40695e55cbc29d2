"""Every picture with every plan on every card: on the sheet, to be read, in the theme's colours.

Small: the plans at the edge in English, one plan in each other language. With `--full` every plan
in every language.
"""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from collections.abc import Iterator
from itertools import combinations

import pytest

from kiosk.core.view import Picture
from kiosk.core.words import Words
from kiosk.drawings import Drawing, draw, to_svg
from kiosk.drawings.shapes import Area, Disc, Label, Line, Shape
from kiosk.drawings.svg import COLOURS
from tests.core.story import WORDS
from tests.drawings.measuring import (
    BUTTON,
    CARDS,
    NAMES,
    WORD_CARDS,
    contrast,
    crossed,
    ground,
    labels,
    outside,
    overlap,
)
from tests.drawings.plans import PLANS, STEEL, WOOD, Pairs

every_picture = pytest.mark.parametrize("name", NAMES)
LANGUAGES = tuple(WORDS.others)
READING_MM = 3.5  # 20 arc minutes at 600 mm, ISO 9241-303
STEP_SIZES = (*((w, h) for w, h, _ in CARDS.values()), BUTTON)
WORD_SIZES = tuple((w, h) for w, h, _ in WORD_CARDS.values())


def said(full: bool) -> list[tuple[str, Pairs, Words]]:
    """What pictures are drawn with: the plan's name, its values, the words."""
    every = [(plan, pairs, lang) for plan, pairs in PLANS.items() for lang in LANGUAGES]
    kept = [e for e in every if full or e[2] == "en" or e[0] in ("wood", "moved")]
    return [(f"{plan}, {lang}", pairs, WORDS.of(lang)) for plan, pairs, lang in kept]


def drawn(name: str, full: bool) -> Iterator[tuple[str, Drawing]]:
    """One picture in every way it can come out, with a word for which."""
    is_word = name.startswith("word_")
    for what, pairs, words in said(full)[: 1 if is_word else None]:
        for wide, tall in WORD_SIZES if is_word else STEP_SIZES:
            where = f"{name}, {what}, {wide} by {tall}"
            yield where, draw(Picture(name, pairs), wide, tall, words)


@every_picture
def test_a_picture_can_be_read_whatever_the_plan_and_language(name: str, full: bool) -> None:
    faults = [f"{where}: {fault}" for where, each in drawn(name, full) for fault in amiss(each)]

    assert not faults, "\n".join(faults[:12])


def amiss(drawing: Drawing) -> Iterator[str]:
    """What is wrong with a drawing: off the sheet, too small, overlapped, struck through, pale."""
    if not drawing.shapes:
        yield "it is empty"
    yield from (f"off the sheet: {shape}" for shape in outside(drawing))
    found = labels(drawing)
    yield from (f"too small: {label}" for label in found if label.size < READING_MM)
    for one, other in combinations(found, 2):
        if overlap(one, other):
            yield f"{one.text!r} lies on {other.text!r}"
    yield from (f"struck through: {text!r} by {shape}" for text, shape in crossed(drawing))
    yield from pale_texts(drawing)
    yield from pale_shapes(drawing)


def pale_texts(drawing: Drawing) -> Iterator[str]:
    """Texts with less than 4.5:1 to what they stand on (WCAG 2.1, 1.4.3)."""
    shapes = tuple(shape for shape in drawing.shapes if not isinstance(shape, Label))
    for label in labels(drawing):
        under = ground(shapes, (label.x, label.y - label.size / 2))
        if contrast(label.colour, under) < 4.5:
            yield f"{label.text!r} in {label.colour} on {under}"


def pale_shapes(drawing: Drawing) -> Iterator[str]:
    """Shapes that nothing but a pale colour tells from what they lie on (WCAG 2.1, 1.4.11)."""
    for at, shape in enumerate(drawing.shapes):
        if isinstance(shape, Label) or stands_out(shape, drawing.shapes[:at]):
            continue
        yield f"pale: {shape}"


def stands_out(shape: Shape, before: tuple[Shape, ...]) -> bool:
    """Whether its line, its edge or its filling has 3:1 to the ground, or it only covers."""
    if isinstance(shape, Line):
        middle = shape.points[len(shape.points) // 2]
        start = shape.points[0]
        between = ((middle[0] + start[0]) / 2, (middle[1] + start[1]) / 2)
        grounds = [ground(before, at) for at in (start, middle, between)]
        return shape.colour in ("paper", "caution") or any(
            contrast(shape.colour, under) >= 3 for under in grounds
        )
    colours = {shape.edge if shape.width else "none", shape.fill} - {"none"}
    return "paper" in colours or any(contrast(each, "paper") >= 3 for each in colours)


def test_only_the_paper_and_caution_may_be_pale() -> None:
    pale = {name for name in COLOURS if name != "none" and contrast(name, "paper") < 3}

    assert pale == {"paper", "line", "caution", "steel", "wood", "plastic"}


@every_picture
@pytest.mark.parametrize("pairs", PLANS.values(), ids=PLANS)
def test_a_button_has_bold_strokes_and_no_text(name: str, pairs: Pairs) -> None:
    drawing = draw(Picture(name, pairs), *BUTTON, WORDS)

    assert not labels(drawing)
    assert all(s.width >= 0.3 for s in drawing.shapes if isinstance(s, Line))


@every_picture
def test_only_colours_of_the_theme_are_used(name: str) -> None:
    drawing = draw(Picture(name, WOOD), 68, 56, WORDS)

    for shape in drawing.shapes:
        names = [shape.colour] if isinstance(shape, Line | Label) else [shape.fill, shape.edge]
        assert set(names) <= set(COLOURS)


@pytest.mark.parametrize("name", [name for name in NAMES if "word_" not in name])
def test_right_and_wrong_are_told_by_sign_and_word_and_not_by_colour(name: str) -> None:
    drawing = draw(Picture(name, STEEL), *CARDS["7inch"][:2], WORDS)

    rounds = [s for s in drawing.shapes if isinstance(s, Disc) and s.fill == "action"]
    octagons = [s for s in drawing.shapes if isinstance(s, Area) and s.fill == "stop"]
    written = {label.text for label in labels(drawing)}
    assert ("Right" in written) == ("Wrong" in written)
    if "Right" in written:
        assert rounds
        assert [s for s in octagons if len(s.points) == 8]


SHEETS = ((68, 56), (80, 70), (26, 18))


@pytest.mark.parametrize("sheet", SHEETS)
def test_an_unknown_name_gives_a_blank_with_that_name(sheet: tuple[int, int]) -> None:
    drawing = draw(Picture("a very long name that nobody has ever drawn"), *sheet)

    written = [label.text for label in labels(drawing)]
    assert not outside(drawing)
    assert sheet == (26, 18) or (written and "a very long name".startswith(written[0][:16]))


@every_picture
def test_svg_is_well_formed_and_holds_every_shape(name: str) -> None:
    drawing = draw(Picture(name, WOOD), 68, 56, WORDS)

    root = ElementTree.fromstring(to_svg(drawing))

    assert len(list(root)) == len(drawing.shapes)
    assert root.attrib["viewBox"] == "0 0 68 56"


def test_svg_escapes_texts_and_takes_the_colours_given() -> None:
    label = Label(5, 5, "<8 & 9>", colour="action")

    text = to_svg(Drawing(10, 10, (label,)), {"action": "#123456"})

    assert "&lt;8 &amp; 9&gt;" in text
    assert 'fill="#123456"' in text
