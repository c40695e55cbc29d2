"""The app in a process of its own: keys that do nothing, signals, faults, no display."""

from __future__ import annotations

import os
import signal
import subprocess
import sys
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import pytest
from PIL import Image, ImageGrab

from tests.screens.pointer import pointer_pixels
from tests.screens.window import start_display

ROOT = Path(__file__).parents[2]
KEYS = (
    *("Escape", "alt+F4", "alt+Tab", "ctrl+alt+Delete", "Print", "super", "Menu"),
    *(f"ctrl+{letter}" for letter in "cqwez"),
    *(f"F{n}" for n in range(15, 0, -1)),
)
PATIENCE_S = 60.0  # an app that has not come to what is waited for by then never will
COMMAND = [sys.executable, "-m", "tests.screens.played_app"]


@pytest.fixture(scope="module")
def screen() -> str:
    """A display of the app's own, as large as the panel."""
    number, reason = start_display(800, 480)
    if not number:
        pytest.skip(reason)
    return number


@contextmanager
def app(
    screen: str, *words: str, env: Mapping[str, str] | None = None
) -> Iterator[subprocess.Popen[str]]:
    process = subprocess.Popen(
        [*COMMAND, *words],
        cwd=ROOT,
        env={**os.environ, "DISPLAY": screen, **(env or {})},
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
    )
    late = threading.Timer(PATIENCE_S, process.kill)
    late.start()
    try:
        yield process
    finally:
        late.cancel()
        process.kill()
        process.wait()


def until(process: subprocess.Popen[str], line: str) -> list[str]:
    """Everything printed up to a line."""
    seen = []
    for one in process.stdout:
        seen.append(one.strip())
        if seen[-1] == line:
            return seen
    raise AssertionError(f"{line!r} never came: {seen}")


def xdotool(screen: str, *words: str) -> str:
    env = {**os.environ, "DISPLAY": screen}
    done = subprocess.run(
        ["xdotool", *words], env=env, check=True, timeout=20, stdout=subprocess.PIPE, text=True
    )
    return done.stdout


def window_of(screen: str, process: subprocess.Popen[str]) -> str:
    """The number of the app's own window."""
    return xdotool(screen, "search", "--pid", str(process.pid)).split()[-1]


def settled(screen: str, like: Image.Image) -> Image.Image:
    """What stands on the screen once it is like a picture, or after ten seconds."""
    until_s = time.monotonic() + 10
    while True:
        now = ImageGrab.grab(xdisplay=screen)
        if time.monotonic() > until_s or now.tobytes() == like.tobytes():
            return now


@pytest.mark.window
def test_keys_do_nothing_and_a_touch_still_works(screen):
    with app(screen) as process:
        until(process, "ready")
        before = ImageGrab.grab(xdisplay=screen)
        xdotool(screen, "mousemove", "400", "300", "type", "--delay", "1", "stray letters " * 15)
        xdotool(screen, "key", "--delay", "5", *KEYS)
        after = settled(screen, before)

        xdotool(screen, "mousemove", "400", "430", "click", "1")

        assert after.tobytes() == before.tobytes()
        assert until(process, "shown idle")[0] == "touch SeenRight"
        assert process.poll() is None


@pytest.mark.window
def test_a_right_click_touches_nothing_and_leaves_nothing_held(screen):
    with app(screen) as process:
        until(process, "ready")
        before = ImageGrab.grab(xdisplay=screen)

        for x, y in ((400, 430), (200, 200)):
            xdotool(screen, "mousemove", str(x), str(y), "click", "3", "click", "2")
            xdotool(screen, "keydown", "ctrl", "click", "1", "keyup", "ctrl") if y < 300 else None
        after = settled(screen, before)
        xdotool(screen, "mousemove", "400", "430", "click", "1")

        assert after.tobytes() == before.tobytes()
        assert until(process, "shown idle") == ["touch SeenRight", "shown idle"]


@pytest.mark.window
def test_the_mouse_is_the_only_input_that_runs(screen):
    with app(screen) as process:
        told = until(process, "ready")

    # SDL's own provider is always there; on Linux Kivy hands it no finger.
    inputs = next(line for line in told if line.startswith("inputs")).split()[1:]
    assert sorted(inputs) == ["MouseMotionEventProvider", "SDL2MotionEventProvider"]


@pytest.mark.window
def test_what_another_thread_tells_is_drawn_by_the_screens_own(screen):
    with app(screen, "elsewhere") as process:
        until(process, "ready")

        xdotool(screen, "mousemove", "400", "430", "click", "1")

        assert until(process, "shown idle") == ["touch SeenRight", "shown idle"]


@pytest.mark.window
def test_a_driver_too_old_for_kivy_ends_it_with_a_reason():
    number, reason = start_display(800, 480)
    if not number:
        pytest.skip(reason)
    env = {**os.environ, "DISPLAY": number, "MESA_GL_VERSION_OVERRIDE": "1.4"}

    done = subprocess.run(COMMAND, cwd=ROOT, env=env, capture_output=True, text=True, timeout=60)

    assert "ended 1" in done.stdout
    assert "2.0 is needed" in done.stderr


@pytest.mark.window
def test_a_signal_to_end_ends_it_in_order(screen):
    with app(screen) as process:
        until(process, "ready")

        process.send_signal(signal.SIGTERM)

        assert until(process, "ended 0")
        assert process.wait(timeout=5) == 0


@pytest.mark.window
def test_a_view_that_cannot_be_drawn_does_not_end_it(screen):
    with app(screen, "faulty") as process:
        until(process, "ready")
        xdotool(screen, "mousemove", "400", "430", "click", "1")
        until(process, "touch SeenRight")

        process.send_signal(signal.SIGTERM)

        assert until(process, "ended 0")


@pytest.mark.window
def test_the_window_opens_before_the_kiosk_is_ready_and_what_keeps_it_from_starting_ends_it(screen):
    with app(screen, "stuck") as process:
        until(process, "opening")

        assert process.stdout.read() == ""
        assert process.wait(timeout=10) == 1


@pytest.mark.parametrize("driver", ["offscreen", "dummy"])
def test_without_a_display_it_refuses_to_start(driver):
    clean = {name: value for name, value in os.environ.items() if name != "DISPLAY"}
    clean["SDL_VIDEODRIVER"] = driver

    done = subprocess.run(COMMAND, cwd=ROOT, env=clean, capture_output=True, text=True, timeout=60)

    assert done.returncode == 3
    assert "nobody would see the kiosk" in done.stdout


def test_knowing_the_theme_loads_no_kivy():
    code = "import sys, kiosk.screens.app, kiosk.screens.theme; sys.exit('kivy' in sys.modules)"

    done = subprocess.run([sys.executable, "-c", code], cwd=ROOT, timeout=60)

    assert done.returncode == 0


# --- the display ---


@pytest.mark.window
def test_a_display_that_goes_away_ends_it_with_a_code():
    server = subprocess.Popen(
        ["Xvfb", "-displayfd", "1", "-screen", "0", "800x480x24"], stdout=subprocess.PIPE, text=True
    )
    number = f":{server.stdout.readline().strip()}"
    with app(number) as process:
        until(process, "ready")

        server.kill()
        server.wait()

        assert process.wait(timeout=10) != 0


@pytest.mark.window
def test_what_was_covered_is_drawn_again_and_answers(screen):
    with app(screen) as process:
        until(process, "ready")
        before = ImageGrab.grab(xdisplay=screen)
        window = window_of(screen, process)

        xdotool(screen, "windowunmap", "--sync", window)
        gone = ImageGrab.grab(xdisplay=screen)
        xdotool(screen, "windowmap", "--sync", window)
        after = settled(screen, before)
        xdotool(screen, "mousemove", "400", "430", "click", "1")

        assert gone.tobytes() != before.tobytes()
        assert after.tobytes() == before.tobytes()
        assert until(process, "shown idle")[0] == "touch SeenRight"


@pytest.mark.window
def test_the_window_covers_the_panel_and_no_pointer_is_seen_over_it(screen):
    with app(screen) as process:
        until(process, "ready")
        xdotool(screen, "mousemove", "400", "200")

        told = xdotool(screen, "getwindowgeometry", window_of(screen, process))

        assert "Position: 0,0" in told
        assert "Geometry: 800x480" in told
        assert pointer_pixels(screen) == 0


@pytest.mark.window
def test_full_screen_is_as_large_as_the_panel():
    number, reason = start_display(1280, 800)
    if not number:
        pytest.skip(reason)
    with app(number, "full") as process:
        until(process, "ready")

        told = xdotool(number, "getwindowgeometry", window_of(number, process))

        assert "Position: 0,0" in told
        assert "Geometry: 1280x800" in told


@pytest.mark.window
def test_it_runs_with_no_home_and_writes_no_file(screen, tmp_path):
    with app(screen, env={"HOME": "/nonexistent", "KIVY_HOME": str(tmp_path)}) as process:
        until(process, "ready")

        process.send_signal(signal.SIGTERM)

        assert until(process, "ended 0")
        assert [path for path in tmp_path.rglob("*") if path.is_file()] == []
        assert not Path("/nonexistent").exists()
