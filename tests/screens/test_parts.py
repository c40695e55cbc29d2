"""Fonts, texts, the head, the rail, drawings, the band; and memory over many views."""

from __future__ import annotations

import ast
import ctypes
import gc
import re
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.core.view import Band, Head, Rail

SCREENS = Path(__file__).parents[2] / "kiosk" / "screens"


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


# --- fonts ---


def test_fonts_are_made_once_and_used_again(tmp_path, monkeypatch):
    from kiosk.drawings import fonts as makers

    made = []

    def make(path: Path, weight: int) -> None:
        made.append(weight)
        path.write_bytes(b"font")

    monkeypatch.setattr(makers, "_make", make)

    first, second = makers.fonts(tmp_path), makers.fonts(tmp_path)

    assert made == [400, 600, 700]
    assert first == second


def test_the_font_files_are_static_and_hold_what_the_screens_write():
    from fontTools.ttLib import TTFont

    from kiosk.drawings.fonts import fonts

    for path in (fonts().regular, fonts().strong, fonts().bold):
        font = TTFont(path)
        letters = "aąłŵŷґїж0123456789·°’“”×½→✓\u00a0"
        missing = [letter for letter in letters if ord(letter) not in font.getBestCmap()]
        assert "fvar" not in font
        assert missing == []


def test_a_word_is_never_broken_and_a_number_stays_with_its_unit(window):
    from kiosk.drawings.fonts import fonts
    from kiosk.screens.parts.ruler import Ruler

    done = Ruler(fonts()).set("Set the stop 14.5\u00a0mm lower.", 400, 26, 160)

    assert all("14.5" not in line or "14.5\u00a0mm" in line for line in done.lines)
    assert " ".join(done.lines) == "Set the stop 14.5\u00a0mm lower."


# --- the head, the rail, the band ---


@pytest.mark.parametrize("isolator", ["off", "on", "unknown", "fault"])
def test_the_knob_shows_every_reading(hand, views, isolator):
    from kiosk.screens.parts.knob import Knob

    head = replace(views["step"].head, isolator=isolator)
    it = hand(view=replace(views["step"], head=head))

    assert [w for w in it.face.children if isinstance(w, Knob)]


def test_a_machine_without_a_contact_has_no_knob(hand, views):
    from kiosk.screens.parts.knob import Knob

    head = Head("Drill 2", "none", "", "No. 14", None)
    it = hand(view=replace(views["step"], head=head))

    assert not [w for w in it.face.children if isinstance(w, Knob)]


def test_the_table_of_the_rail_rises_with_progress(hand, views):
    from kiosk.screens.parts.rail import Column

    it = hand()
    heights = []
    for at in (1, 8, 15):
        it.show(replace(views["step"], rail=Rail(at, 15)))
        column = next(w for w in it.face.children if isinstance(w, Column))
        heights.append(column.table)

    assert heights == sorted(set(heights))
    assert heights[-1] < column.top


def test_a_flashing_band_swaps_its_colours_and_a_steady_one_does_not(hand, views):
    from kiosk.screens.parts.band import BandGround

    steady = replace(views["step"], band=Band("stop", "Lift clear."), flash=False)
    it = hand(view=steady)
    ground = next(w for w in it.face.children if isinstance(w, BandGround))
    before = tuple(ground._ground.rgba)

    it.show(replace(steady, flash=True))
    seen = {before}
    for _ in range(2):
        ground._swap()
        seen.add(tuple(ground._ground.rgba))
    it.show(steady)

    assert len(seen) == 2
    assert tuple(ground._ground.rgba) == before
    assert not ground._flashing._event.is_triggered


def test_the_band_stops_flashing_when_it_leaves(hand, views):
    from kiosk.screens.parts.band import BandGround

    it = hand(view=replace(views["step"], band=Band("stop", "Lift clear."), flash=True))
    ground = next(w for w in it.face.children if isinstance(w, BandGround))

    it.show(views["idle"])

    assert not ground._flashing._event.is_triggered


def test_a_repeated_action_goes_on_after_an_error(window):
    from kiosk.screens.parts.every import Every

    calls = []

    def fail() -> None:
        calls.append(1)
        raise ValueError("once")

    told = []
    every = Every(fail, 0.0, lambda: told.append(1))
    every._tick(0.0)
    every._tick(0.0)

    assert len(calls) == 2
    assert len(told) == 2, "an error that does not end could not end the process"


# --- drawings ---


def test_every_shape_of_a_drawing_is_painted_and_its_labels_are_texts(hand, window):
    from kiosk.drawings.fonts import fonts
    from kiosk.drawings.shapes import Area, Disc, Drawing, Label, Line
    from kiosk.screens.parts.ruler import Ruler
    from kiosk.screens.parts.sheet import Sheet

    shapes = (
        Area(((0, 0), (20, 0), (20, 8), (10, 4), (0, 8))),
        Line(((0, 9), (20, 9)), dash=True),
        Disc(10, 15, 3, "steel"),
        Label(10, 19, "18 mm", 3.5),
    )
    sheet = Sheet()
    sheet.size = (200, 200)

    sheet.show(Drawing(30, 20, shapes), 5.25, Ruler(fonts()))

    assert [text.text for text in sheet.children] == ["18 mm"]
    assert len(sheet._paint.children) > 10


def test_a_painted_drawing_is_kept_as_one_picture_and_not_as_its_strokes(hand, window):
    from kivy.graphics import Rectangle

    from kiosk.drawings.fonts import fonts
    from kiosk.drawings.shapes import Area, Drawing
    from kiosk.screens.parts.ruler import Ruler
    from kiosk.screens.parts.sheet import Sheet

    square = Area(((5, 5), (15, 5), (15, 15), (5, 15)), "ink", "ink")
    sheet = Sheet("paper")
    sheet.size = (100, 100)

    sheet.show(Drawing(20, 20, (square,)), 5, Ruler(fonts()))

    kept = [step for step in sheet._shown_as.children if isinstance(step, Rectangle)]
    pixels = kept[0].texture.pixels
    dark = sum(pixels[at] < 80 for at in range(0, len(pixels), 4))
    assert (len(kept), sheet._paint.children) == (1, [])
    assert dark == pytest.approx(2500, abs=300)


# --- many views ---


def resident() -> float:
    """Megabytes of memory in use, once the C library has given back what it only keeps ready.

    Without that the figure goes up and down by 4 MB by itself.
    """
    ctypes.CDLL(None).malloc_trim(0)
    pages = int(Path("/proc/self/statm").read_text().split()[1])
    return pages * 4096 / 1e6


def test_memory_stays_flat_and_no_widget_is_built_over_500_views(hand, views):
    from kivy.uix.widget import Widget

    it = hand()
    _show_each(it, views, 200)
    widgets = _count(Widget)

    tides = [_show_each(it, views, 100) for _ in range(6)]

    assert min(tides[3:]) - min(tides[:3]) < 5
    assert _count(Widget) == widgets


def _show_each(it, views, count):
    """Show so many views, one after the other; what is in memory then, in megabytes.

    It goes up and down by some megabytes with what is just kept: low tides are compared.
    """
    every = list(views.values())
    for at in range(count):
        it.show(replace(every[at % len(every)], number=it.face.view.number + 1))
    gc.collect()
    return resident()


def _count(kind: type) -> int:
    return sum(issubclass(type(thing), kind) for thing in gc.get_objects())


# --- how the code is written ---


def test_no_lambda_is_given_to_the_clock():
    for path in SCREENS.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, ast.Call) and re.search("schedule|trigger", ast.unparse(node.func)):
                assert not any(isinstance(part, ast.Lambda) for part in ast.walk(node)), path
                assert "partial" not in ast.unparse(node), path


def test_only_the_parts_and_the_window_name_kivy_widgets_and_none_is_a_kivy_button():
    for path in SCREENS.rglob("*.py"):
        text = path.read_text()
        if path.name != "geometry.py":
            assert "uix.button" not in text and "ButtonBehavior" not in text, path
            assert "markup=True" not in text, path
