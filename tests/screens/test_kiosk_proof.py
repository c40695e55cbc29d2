"""What kiosks on Kivy are known to fall over, and the test that holds each off here.

`#n` is a thread of github.com/kivy/kivy. A fault that cannot reach this kiosk says why not.
"""

from __future__ import annotations

import ast
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.core.inputs import SeenRight

ROOT = Path(__file__).parents[2]
SCREENS = ROOT / "kiosk" / "screens"
HERE, TOUCH, APP, PARTS = "test_kiosk_proof", "test_touch", "test_app", "test_parts"

# The fault with its threads, then the file and test; or an empty file and why it can't happen.
FAULTS = (
    ("one finger as two touches, #1903 #7756", HERE, "the_mouse_is_the_only_input"),
    (
        "touch mirrored or turned, #4677",
        "",
        "the system under it turns; nothing here does",
    ),
    ("a reader of raw devices dies, #3758", HERE, "the_mouse_is_the_only_input"),
    ("keys reach the console too, #3913", HERE, "the_mouse_is_the_only_input"),
    ("a right click leaves a held touch, #4105", APP, "a_right_click_touches_nothing"),
    ("Escape ends it, #1634", APP, "keys_do_nothing_and_a_touch_still_works"),
    ("F1 opens settings, #1377", APP, "keys_do_nothing_and_a_touch_still_works"),
    ("a bounce reaches the next screen, #7756", TOUCH, "a_bounce_does_not_reach_the_next_view"),
    ("transitions swallow touches, #648", HERE, "what_has_these_faults_is_not_used"),
    ("a finger held over a change fires, #729", TOUCH, "a_finger_held_while_the_view_changes"),
    ("disabled under the finger fires", TOUCH, "a_button_disabled_under_the_finger"),
    ("in a scrolling list a press shows late", HERE, "what_has_these_faults_is_not_used"),
    ("a dialogue closes by a touch beside it", HERE, "what_has_these_faults_is_not_used"),
    ("Kivy's keyboard hides the field, #7702", HERE, "what_has_these_faults_is_not_used"),
    ("a pointer is seen, #3441", APP, "the_window_covers_the_panel_and_no_pointer"),
    ("no debounce", HERE, "ten_taps_in_half_a_second_are_one"),
    ("no display: drawn where nobody sees", APP, "without_a_display_it_refuses"),
    ("another window provider takes over, #8150", HERE, "the_window_is_sdls_and_as_large"),
    ("the console without X, #6474", "", "needs the hardware; started under X, see start.py"),
    ("a compositor hides the exit code", "", "a matter of the service that starts the kiosk"),
    ("full screen of another size, #2151", APP, "the_window_covers_the_panel"),
    ("density guessed, #7499", HERE, "a_pixel_is_a_pixel"),
    ("the screen saver blanks, #4921", HERE, "kivys_settings_are_a_kiosks"),
    ("black with multisampling, #6615", HERE, "kivys_settings_are_a_kiosks"),
    ("removed widgets wait for the collector, #2560", PARTS, "memory_stays_flat_and_no_widget"),
    ("a lambda in the clock keeps a screen, #545", PARTS, "no_lambda_is_given_to_the_clock"),
    ("texts and textures leak, #5660", PARTS, "memory_stays_flat_and_no_widget"),
    ("transitions hold buffers, #6713", HERE, "what_has_these_faults_is_not_used"),
    ("a weak reference is gone, #6865 #8954", HERE, "what_has_these_faults_is_not_used"),
    ("an endless animation heats the computer, #7805", HERE, "a_screen_at_rest_draws_nothing"),
    ("a step of the clock holds a button, #3952", HERE, "no_time_of_the_wall_clock"),
    ("a callback from a thread waits a frame", HERE, "kivys_settings_are_a_kiosks"),
    ("Kivy reads the arguments, #7001", HERE, "importing_kivy_leaves_the_process_as_it_was"),
    ("files in the home folder, #2510", APP, "it_runs_with_no_home_and_writes_no_file"),
    ("the root logger is taken over, #8282", HERE, "importing_kivy_leaves_the_process_as_it_was"),
    ("an error in a callback ends it, #3454", APP, "a_view_that_cannot_be_drawn_does_not_end_it"),
    ("errors without end", HERE, "errors_that_do_not_end_end_the_process"),
    ("an error ends an interval, #6926", PARTS, "a_repeated_action_goes_on_after_an_error"),
    ("drawing from a thread, #7859", HERE, "the_screens_start_no_thread"),
    ("a request to end is refused", APP, "a_signal_to_end_ends_it_in_order"),
    ("importing opens a window, #5162", APP, "knowing_the_theme_loads_no_kivy"),
    ("another version's buttons, #9036", PARTS, "only_the_parts_and_the_window_name_kivy_widgets"),
    ("a letter has no shape, #4741", "../content/test_languages", "every_letter"),
    ("right to left with numbers turned, #7704", "", "no language shipped is written so"),
    ("markup in data, #4226", HERE, "brackets_in_data_are_drawn_as_they_are"),
    ("a torn letter ends the drawing", HERE, "torn_letters_and_noughts_are_drawn"),
    ("texts spill and are cut, #1376", "test_fits", "every_screen_fits_in_every_language"),
    ("a screenshot's name changes, #1455", "", "the kiosk takes none"),
    (
        "the record lies in memory, #bookworm-feedback 137",
        "",
        "a folder's matter: not the screens'",
    ),
    ("no clipboard: an error at each start", HERE, "what_has_these_faults_is_not_used"),
    ("the display goes away", APP, "a_display_that_goes_away_ends_it_with_a_code"),
    ("the window is covered and shown again", APP, "what_was_covered_is_drawn_again"),
    ("a long press", HERE, "a_long_press_counts_once_when_lifted"),
    ("a second finger", TOUCH, "a_second_finger_does_nothing"),
    ("a drag", TOUCH, "a_finger_that_slides_off_sends_nothing"),
    ("a dirty screen", "test_rest", "for_thirty_seconds_nothing_answers"),
)


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


@pytest.mark.parametrize(("fault", "file", "test"), FAULTS, ids=[f[0] for f in FAULTS])
def test_every_fault_has_its_test(fault, file, test):
    if file:
        text = (Path(__file__).parent / f"{file}.py").resolve().read_text()
        assert f"def test_{test}" in text, fault
    else:
        assert test


# --- touches ---


def test_the_mouse_is_the_only_input(window):
    from kivy.config import Config
    from kivy.input.factory import MotionEventFactory

    asked = Config.items("input")

    assert asked == [("mouse", "mouse,disable_multitouch,disable_hover")] or dict(asked) == {
        "mouse": "mouse,disable_multitouch,disable_hover"
    }
    assert MotionEventFactory.get("mouse") is not None


def test_ten_taps_in_half_a_second_are_one(hand, views):
    it = hand(view=views["step"])

    for _ in range(10):
        it.tap(views["step"].buttons[-1].label.replace("\u00a0", " "))
        it.wait(0.025)

    assert it.touches == [SeenRight("s7")]


def test_a_long_press_counts_once_when_lifted(hand, views):
    it = hand(view=views["step"])

    tip = it.down(views["step"].buttons[-1].label.replace("\u00a0", " "))
    it.wait(9.0)
    held = list(it.touches)
    it.up(tip)

    assert held == []
    assert it.touches == [SeenRight("s7")]


# --- settings ---


def test_kivys_settings_are_a_kiosks():
    from kiosk.screens.start import _settings

    found = _settings(800, 480, True, False)

    graphics = {n: found["graphics"][n] for n in ("allow_screensaver", "multisamples", "resizable")}
    assert graphics == {"allow_screensaver": "0", "multisamples": "0", "resizable": "0"}
    assert found["graphics"]["show_cursor"] == "0"
    assert found["kivy"]["exit_on_escape"] == "0"
    assert found["kivy"]["kivy_clock"] == "interrupt"


def test_the_window_is_sdls_and_as_large_as_was_asked(window):
    from tests.screens.window import HEIGHT, WIDTH

    assert type(window).__name__ == "WindowSDL"
    assert window.size == [WIDTH, HEIGHT] or tuple(window.size) == (WIDTH, HEIGHT)
    assert not window.allow_screensaver


def test_a_pixel_is_a_pixel(window):
    from kivy.metrics import dp, sp

    assert (dp(48), sp(48)) == (48, 48)


def test_importing_kivy_leaves_the_process_as_it_was():
    code = (
        "import logging, os, sys\n"
        "from kiosk.screens.start import set_environment\n"
        "before = (sys.stderr, list(sys.argv), logging.root.level, list(logging.root.handlers))\n"
        "os.environ['DISPLAY'] = ':0'; set_environment(); import kivy\n"
        "after = (sys.stderr, list(sys.argv), logging.root.level, list(logging.root.handlers))\n"
        "sys.exit(before != after)\n"
    )

    done = subprocess.run([sys.executable, "-c", code, "-d", "-c", "x.yaml"], cwd=ROOT, timeout=60)

    assert done.returncode == 0


# --- what is not used, and what must not be written ---


def test_what_has_these_faults_is_not_used():
    faulty = ("screenmanager", "animation", "popup", "modalview", "scrollview", "textinput")
    faulty = (*faulty, "vkeyboard", "recycleview", "kivy.lang", "settings")
    for path, node in _nodes(ast.ImportFrom):
        assert not any(word in (node.module or "") for word in faulty), path


def test_no_time_of_the_wall_clock_is_asked_for():
    for path, node in _nodes(ast.Attribute):
        assert ast.unparse(node) not in ("time.time", "datetime.now"), path


def test_the_screens_start_no_thread():
    for path, node in _nodes((ast.Import, ast.ImportFrom)):
        names = [alias.name for alias in node.names] + [getattr(node, "module", "") or ""]
        assert not {"threading", "concurrent.futures", "multiprocessing"} & set(names), path


def _nodes(kind):
    for path in SCREENS.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text())):
            if isinstance(node, kind):
                yield path, node


# --- data ---


@pytest.mark.parametrize("text", ["[size=abc]x", "[font=x]y", "[size=4000]z[/size]", "[", "&bl;"])
def test_brackets_in_data_are_drawn_as_they_are(hand, views, text):
    it = hand(view=replace(views["step"], title=text))

    shown = [w.text for w in it.face.children if hasattr(w, "problem")]

    assert text in shown


@pytest.mark.parametrize(
    "text", ["torn \udc80 letter", "a nought \0 in it", "x" * 20_000, "\u202e"]
)
def test_torn_letters_and_noughts_are_drawn_as_far_as_they_can_be(hand, views, text):
    it = hand(view=replace(views["step"], title=text, lines=(text,)))

    it.frame()
    it.show(views["step_plain"])

    assert it.face.view == views["step_plain"]


# --- at rest, and with many errors ---


def test_a_screen_at_rest_draws_nothing(hand, views, window):
    it = hand(view=views["step"])
    it.frame()
    drawn = []
    window.bind(on_flip=drawn.append)

    for _ in range(30):
        it.face.beat()
        it.frame()
    window.unbind(on_flip=drawn.append)

    assert drawn == []


def test_errors_that_do_not_end_end_the_process(window):
    from kiosk.screens.window import MOST_FAULTS, Faults

    shown = []
    faults = Faults(lambda: shown.append(1))

    lasts = [faults.note() for _ in range(MOST_FAULTS)]

    assert lasts == [True] * (MOST_FAULTS - 1) + [False]
    assert len(shown) == MOST_FAULTS - 1
