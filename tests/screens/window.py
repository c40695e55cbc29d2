"""One window for all tests of the screens, on a display of its own if there is none."""

from __future__ import annotations

import atexit
import os
import shutil
import subprocess

WIDTH, HEIGHT = 1280, 900


def why_no_window() -> str:
    """Open the display if there is none; the reason if that can't be done."""
    if os.environ.get("DISPLAY"):
        return ""
    number, reason = start_display(WIDTH, HEIGHT)
    if number:
        os.environ["DISPLAY"] = number
    return reason


def start_display(width: int, height: int) -> tuple[str, str]:
    """Start Xvfb on the first free number, which it tells once it is ready; or the reason."""
    if shutil.which("Xvfb") is None:
        return "", "no DISPLAY is set and Xvfb is not installed"
    ready, tell = os.pipe()
    command = ["Xvfb", "-displayfd", str(tell), "-screen", "0", f"{width}x{height}x24"]
    server = subprocess.Popen(
        [*command, "-nolisten", "tcp"], pass_fds=(tell,), stderr=subprocess.DEVNULL
    )
    os.close(tell)
    with os.fdopen(ready) as pipe:
        number = pipe.readline().strip()
    if not number:
        return "", f"Xvfb ended with {server.wait()}"
    atexit.register(server.terminate)
    return f":{number}", ""


def open_window() -> object:
    """Kivy's window, set up as the app sets it up."""
    from kiosk.screens.start import set_config, set_environment
    from kiosk.screens.theme import colour

    set_environment()
    set_config(WIDTH, HEIGHT, kiosk=True, fullscreen=False)
    from kivy.clock import Clock
    from kivy.core.window import Window

    Clock._max_fps = 0
    Window.clearcolor = colour("chalk")
    return Window
