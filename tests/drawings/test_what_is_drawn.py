"""Whatever the content names has a drawing, and every step has the one of what it is about."""

from __future__ import annotations

import pytest

from kiosk.content.pictures import PICTURES as NAMED
from kiosk.core.model import Fact, Step
from kiosk.core.view import Picture
from kiosk.core.view.asides import DRAWN
from kiosk.drawings import PICTURES, draw
from kiosk.drawings.bits import KINDS
from kiosk.drawings.shapes import Label
from tests.core.story import CONTENT, WORDS
from tests.drawings.measuring import WORD_CARDS, areas, extremes
from tests.drawings.plans import STEEL, with_values

STEPS = CONTENT.drilling.steps
RECOVERY = tuple(step for recovery in CONTENT.recoveries for step in recovery.steps)
SHOP_WORDS = sorted(
    key.split(".")[1] for key in WORDS.texts if key.startswith("word.") and key.endswith(".forms")
)

# What a step's fact looks like: one of these has to be drawn for it.
LOOKS = {
    "eyes": ("goggles",),
    "hair": ("hair", "goggles"),
    "clothes": ("clothes", "goggles"),
    "stops pointed at": ("stops", "stops_plug"),
    "isolator off": ("isolator", "plug_out", "goggles", "next_hole"),
    "speed set": ("belts", "dial"),
    "table set": ("table",),
    "bit fitted": ("fit_bit",),
    "bit true": ("straight",),
    "key out": ("key_hook",),
    "set-up seen": ("set_up",),
    "marked": ("mark", "on_mark", "next_hole"),
    "held": ("clamps", "on_mark", "next_hole"),
    "on mark": ("on_mark", "next_hole"),
    "pushed": ("push", "next_hole"),
    "depth set": ("depth", "tape"),
    "trial stroke": ("trial", "next_hole"),
    "guard down": ("guard", "next_hole"),
    "dust controlled": ("extraction", "set_up"),
}


def test_every_name_that_a_step_may_have_can_be_drawn_and_the_other_way_round() -> None:
    assert set(NAMED) == {name for name in PICTURES if not name.startswith("word_")}


@pytest.mark.parametrize("step", (*STEPS, *RECOVERY), ids=lambda step: step.id)
def test_every_step_has_a_drawing(step: Step) -> None:
    assert step.picture in PICTURES


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.id)
def test_a_step_is_drawn_as_what_it_makes(step: Step) -> None:
    for fact in step.makes:
        assert step.picture in LOOKS.get(word_of(fact), (step.picture,)), word_of(fact)


def word_of(fact: Fact) -> str:
    return str(fact.value)


def test_what_a_step_makes_is_known_here() -> None:
    made = {word_of(fact) for step in STEPS for fact in step.makes}

    assert set(LOOKS) <= made
    assert made - set(LOOKS) == {"no gloves", "spindle still", "belt cover shut"}


@pytest.mark.parametrize("step", STEPS, ids=lambda step: step.id)
def test_a_step_without_a_depth_stop_shows_tape(step: Step) -> None:
    is_drilled = step.part == "drill"

    assert ("tape" in step.id) == (step.picture in ("tape", "drilling_tape")) or not is_drilled


@pytest.mark.parametrize("word", SHOP_WORDS)
def test_every_shop_word_has_a_drawing_that_fills_its_card(word: str) -> None:
    wide, tall, _ = WORD_CARDS["7inch"]

    drawing = draw(Picture(f"word_{word}"), wide, tall)

    assert f"word_{word}" in PICTURES
    xs, ys = zip(*extremes(drawing), strict=True)
    assert (max(xs) - min(xs)) * (max(ys) - min(ys)) > wide * tall * 0.2


def test_no_shop_word_is_drawn_that_nobody_asks_for() -> None:
    drawn = {name.removeprefix("word_") for name in PICTURES if name.startswith("word_")}

    assert drawn == set(SHOP_WORDS)


@pytest.mark.parametrize("language", WORDS.others)
@pytest.mark.parametrize("size", [(60.4, 54.5), (69.4, 47.5), (54.0, 43.0)])
@pytest.mark.parametrize(("name", "off"), [("stops", "isolator"), ("stops_plug", "plug")])
def test_where_the_stops_are_shown_each_has_its_name_in_every_language(
    name: str, off: str, size: tuple[float, float], language: str
) -> None:
    words = WORDS.of(language)
    drawing = draw(Picture(name), *size, words=words)
    written = " ".join(shape.text for shape in drawing.shapes if isinstance(shape, Label))

    for shop_word in ("red_stop", "room_stop", off):
        called = words.maybe(f"drawing.{shop_word}") or words.say(f"word.{shop_word}.forms")
        assert called.split("\n")[0] in written


@pytest.mark.parametrize("name", DRAWN)
def test_the_numbers_that_are_explained_belong_to_a_drawing(name: str) -> None:
    assert name in PICTURES


def test_each_kind_of_bit_has_an_outline_of_its_own_or_is_wound_like_a_twist_bit() -> None:
    kinds = {bit.id for bit in CONTENT.bits}
    outlines = {kind: outline_of(kind) for kind in kinds}

    assert kinds - set(KINDS) == {"twist", "plastics"}
    assert outlines["twist"] == outlines["plastics"]
    assert len(set(outlines.values())) == len(kinds) - 1


def outline_of(kind: str) -> tuple[tuple[float, float], ...]:
    drawing = draw(Picture("chuck", with_values(STEEL, bit=kind)), 60.4, 54.5)
    return areas(drawing, "bit")[0].points
