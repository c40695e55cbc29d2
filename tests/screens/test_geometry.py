"""The checker finds each fault that is planted, and nothing in a faultless screen."""

from __future__ import annotations

from dataclasses import replace

import pytest


@pytest.fixture
def root(window):
    from kivy.uix.widget import Widget

    return Widget(size=(800, 480), pos=(0, 0))


@pytest.fixture
def found(root):
    from kiosk.screens.geometry import problems
    from kiosk.screens.theme import SEVEN_INCH

    def look() -> str:
        return "\n".join(problems(root, SEVEN_INCH))

    return look


def label(root, text, pos=(100, 100), size=(300, 60), **how):
    from kivy.uix.label import Label

    wish = {"font_size": 26, "text_size": size, **how}
    part = Label(text=text, pos=pos, size=size, **wish)
    root.add_widget(part)
    return part


def press(root, pos=(100, 100), size=(120, 120)):
    from kiosk.screens.parts.press import Press

    part = Press()
    part.pos, part.size = pos, size
    root.add_widget(part)
    return part


def test_a_faultless_screen_has_no_problems(root, found):
    label(root, "Lift clear.", pos=(100, 300))
    press(root)

    assert found() == ""


def test_a_target_under_15_mm_is_found(root, found):
    press(root, size=(120, 77))

    assert "less than 15 mm" in found()


def test_a_pin_key_under_17_mm_is_found(root, found):
    key = press(root, size=(88, 88))
    key.least_mm = 17.0

    assert "less than 17 mm" in found()


def test_a_kivy_button_counts_as_a_target(root, found):
    from kivy.uix.button import Button

    root.add_widget(Button(text="x", pos=(10, 10), size=(40, 40), font_size=26))

    assert "less than 15 mm" in found()


def test_a_target_off_the_panel_is_found(root, found):
    press(root, pos=(700, 100))

    assert "20 px off the panel" in found()


def test_overlapping_targets_are_found(root, found):
    press(root)
    press(root, pos=(215, 100))

    assert "targets" in found() and "overlap" in found()


def test_touching_targets_do_not_overlap(root, found):
    press(root)
    press(root, pos=(220, 100))

    assert found() == ""


def test_overlapping_texts_are_found(root, found):
    label(root, "Lift clear.")
    label(root, "Red stop.", pos=(110, 105))

    assert "texts 'Lift clear.' and 'Red stop.' overlap" in found()


def test_texts_in_overlapping_boxes_whose_letters_are_apart_are_fine(root, found):
    label(root, "One", size=(300, 60), halign="left")
    label(root, "Two", size=(300, 60), halign="right")

    assert found() == ""


def test_a_text_running_into_a_target_is_found(root, found):
    label(root, "Lift clear.", pos=(60, 120), size=(100, 60), text_size=(None, None))
    press(root, pos=(120, 100))

    assert "runs into target" in found()


def test_a_text_larger_than_its_box_is_found(root, found):
    label(root, "Lift clear. Press the red stop now.", size=(120, 40), text_size=(None, None))

    assert "clipped by its box" in found()


def test_a_text_cut_by_its_own_text_size_is_found(root, found):
    label(root, "Lift clear. Press the red stop. Wait until it is still.", size=(160, 60))

    assert "is cut" in found()


def test_a_line_that_kivy_drops_is_found(root, found):
    high = label(root, "one\ntwo\nthree", size=(300, 200), valign="middle")
    high.texture_update()
    exact = high._label.get_extents("one")[1] * 3

    high.text_size = (300, exact)

    assert "lacks 1 of 3 lines" in found()


def test_a_shortened_text_is_found(root, found):
    label(root, "Lift clear. Press the red stop.", size=(120, 40), shorten=True, max_lines=1)

    assert "shortened" in found()


def test_a_word_broken_inside_is_found(root, found):
    label(root, "countersinking", size=(100, 120))

    assert "broken inside a word" in found()


def test_text_too_small_to_read_is_found(root, found):
    label(root, "small", font_size=14)

    assert "less than 3 mm" in found()


def test_a_text_that_reports_its_own_problem_is_found(root, found, window):
    from kiosk.drawings.fonts import fonts
    from kiosk.screens.parts.ruler import Ruler
    from kiosk.screens.parts.text import Text

    text = Text()
    text.pos, text.size = (100, 100), (100, 60)
    text.show(Ruler(fonts()).set("countersinking", 400, 26, 100), "ink")
    root.add_widget(text)

    assert "too long for its box" in found()


def test_a_line_higher_than_a_page_is_turned_over_by_its_own_lines(hand):
    from kiosk.core.view import Aside
    from kiosk.screens.geometry import problems
    from kiosk.screens.theme import LARGE, SEVEN_INCH
    from tests.screens.gallery import views

    long = "\n".join(("It is the fastest one here that is gentle enough. " * 4,) * 2)
    worked = Aside("How?", "How was this worked out?", "Back", (long, long))
    it = hand(scale=LARGE)
    it.show(replace(views()["step_plain"], asides=(worked,)))
    it.face.stage.open_aside(0)
    seen = set()

    for _ in range(8):
        it.frame()
        seen.update(w.text for w in it.face.children if hasattr(w, "problem"))
        assert problems(it.face, SEVEN_INCH) == []
        down = [t for t in it.face.stage.targets if t.mark.parent and t.mark.name == "down"]
        if down and down[0].live:
            down[0].act()

    assert sum("fastest" in text for text in seen) >= 1
