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
    if shutil.which("Xvfb") is None:
        return "no DISPLAY is set and Xvfb is not installed"
    return _start_display()


def _start_display() -> str:
    """Start Xvfb on the first free number, which it writes to a pipe once it is ready."""
    ready, tell = os.pipe()
    command = ["Xvfb", "-displayfd", str(tell), "-screen", "0", f"{WIDTH}x{HEIGHT}x24"]
    server = subprocess.Popen(
        [*command, "-nolisten", "tcp"], pass_fds=(tell,), stderr=subprocess.DEVNULL
    )
    os.close(tell)
    with os.fdopen(ready) as pipe:
        number = pipe.readline().strip()
    if not number:
        return f"Xvfb ended with {server.wait()}"
    atexit.register(server.terminate)
    os.environ["DISPLAY"] = f":{number}"
    return ""


def open_window() -> object:
    """Kivy's window, set up as the app sets it up."""
    from kiosk.screens.start import set_config, set_environment

    set_environment()
    set_config(WIDTH, HEIGHT, kiosk=True, fullscreen=False)
    from kivy.clock import Clock
    from kivy.core.window import Window

    Clock._max_fps = 0
    return Window
