"""What kiosks on Kivy are known to fall over: DEVELOPERS.md lists each with its test."""

from __future__ import annotations

import ast
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.core.inputs import SeenRight

ROOT = Path(__file__).parents[2]
SCREENS = ROOT / "kiosk" / "screens"

TABLE = "| known to fail | the test, or why not here |"


def faults():
    """The table in DEVELOPERS.md: each fault, and its tests or why it can't happen."""
    text = (ROOT / "DEVELOPERS.md").read_text("utf-8")
    rows = text.split(TABLE)[1].split("\n\n")[0].strip().splitlines()[1:]
    return [tuple(cell.strip() for cell in row.strip("|").split("|")) for row in rows]


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


def test_every_known_fault_has_tests_that_are_there():
    for fault, answer in faults():
        named = re.findall(r"`(tests/[^`]+\.py)::(test_\w+)`", answer)
        assert bool(named) != answer.startswith("not here"), fault
        for file, test in named:
            assert f"def {test}(" in (ROOT / file).read_text("utf-8"), (fault, test)


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


def test_of_a_hundred_quick_taps_each_counts_or_is_seen_to_be_refused(hand, views):
    it = hand(view=views["step"])
    label, refused = views["step"].buttons[-1].label.replace("\u00a0", " "), 0

    for number in range(100):
        tip = it.down(label)
        refused += it.target(label).refused
        it.up(tip)
        if len(it.posted) + refused < number + 1:
            raise AssertionError(f"tap {number} was lost without a sign")
        it.show(replace(views["step"], number=1000 + number, title=f"Step {number}"))
        it.wait(0.2)

    assert len(it.posted) + refused == 100
    assert it.posted and refused


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
        "os.environ['DISPLAY'] = 'elsewhere:0'; set_environment(); import kivy\n"
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
        assert ast.unparse(node) not in ("time.time", "time.time_ns", "time.localtime"), path
    for path, node in _nodes((ast.Import, ast.ImportFrom)):
        names = {alias.name for alias in node.names}
        assert "datetime" not in names and getattr(node, "module", "") != "time", path


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
    from kiosk.screens.parts.text import Text

    it = hand(view=replace(views["step"], title=text, lines=(text,)))

    it.frame()
    widest = max(max(t.texture_size) for t in it.face.walk() if isinstance(t, Text))
    it.show(views["step_plain"])

    assert widest <= 4096  # so large a picture a small computer's chip takes
    assert it.face.view == views["step_plain"]


# --- at rest, and with many errors ---


def test_a_screen_at_rest_draws_nothing_whichever_it_is(hand, views, window):
    it, drawn = hand(), []

    for name, view in views.items():
        it.show(replace(view, flash=False))
        it.frame()
        window.bind(on_flip=drawn.append)
        for _ in range(10):
            it.face.beat()
            it.frame()
        window.unbind(on_flip=drawn.append)
        assert drawn == [], name


def test_errors_that_do_not_end_end_the_process(window):
    from kiosk.screens.window import MOST_FAULTS, Faults

    shown = []
    faults = Faults(lambda: shown.append(1))

    lasts = [faults.note() for _ in range(MOST_FAULTS)]

    assert lasts == [True] * (MOST_FAULTS - 1) + [False]
    assert len(shown) == MOST_FAULTS - 1
