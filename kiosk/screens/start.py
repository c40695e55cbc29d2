"""What must be settled before Kivy is imported, so that a kiosk neither hides nor leaks.

Without a display SDL quietly draws into nothing, so its driver is named here and looked at
again once the window stands.
"""

from __future__ import annotations

import ctypes
import os
import re
import tempfile
from glob import glob
from pathlib import Path

from kiosk.screens.theme import Panel

SOCKETS = "/tmp/.X11-unix/X"  # Xserver(1)
UNSEEN = ("offscreen", "dummy")


class NoScreen(Exception):
    """There is no display on which anybody could see the kiosk."""


def set_environment() -> None:
    """Set what Kivy reads from the environment; raises `NoScreen` where nothing could be seen."""
    os.environ["SDL_VIDEODRIVER"] = _driver()
    os.environ.update(
        KIVY_NO_ARGS="1",
        KIVY_NO_CONFIG="1",
        KIVY_NO_FILELOG="1",
        KIVY_LOG_MODE="PYTHON",
        KIVY_WINDOW="sdl2",
        KIVY_TEXT="sdl2",
        KIVY_METRICS_DENSITY="1",
        KIVY_METRICS_FONTSCALE="1",
        KIVY_DPI="96",
    )
    os.environ.setdefault("KIVY_HOME", str(Path(tempfile.gettempdir()) / f"kivy-{os.getuid()}"))


def _driver() -> str:
    asked = os.environ.get("SDL_VIDEODRIVER", "")
    if asked in UNSEEN:
        raise NoScreen(f"SDL_VIDEODRIVER is {asked}: nobody would see the kiosk; use x11")
    if display := os.environ.get("DISPLAY"):
        if not _is_there(display):
            raise NoScreen(
                f"no display: DISPLAY is {display} and no X runs there; start it under X"
            )
        return "x11"
    if glob("/dev/dri/card*"):
        return "kmsdrm"
    raise NoScreen("no display: DISPLAY is not set and there is no /dev/dri; start it under X")


def _is_there(display: str) -> bool:
    """Whether a display of this computer has its socket; another computer's is believed in."""
    local = re.match(r":(\d+)", display)
    if local is None:
        return True
    socket = f"{SOCKETS}{local[1]}"
    listed = Path("/proc/net/unix").read_text(errors="replace").split()
    return Path(socket).exists() or socket in listed or f"@{socket}" in listed


def set_config(width: int, height: int, *, kiosk: bool, fullscreen: bool) -> None:
    """Set Kivy's own settings for a window of `width` by `height` pixels."""
    from kivy.config import Config

    for section, values in _settings(width, height, kiosk, fullscreen).items():
        for name, value in values.items():
            Config.set(section, name, value)
    for name in Config.options("input"):
        Config.remove_option("input", name)
    Config.set("input", "mouse", "mouse,disable_multitouch,disable_hover")


def _settings(width: int, height: int, kiosk: bool, full: bool) -> dict[str, dict[str, str]]:
    graphics = {
        "width": str(width),
        "height": str(height),
        "fullscreen": "auto" if full else "0",
        "borderless": "1" if kiosk else "0",
        "position": "custom" if kiosk else "auto",
        "left": "0",
        "top": "0",
        "resizable": "0",
        "multisamples": "0",
        "maxfps": "60",
        "show_cursor": "0" if kiosk else "1",
        "allow_screensaver": "0",
    }
    own = {"exit_on_escape": "0", "kivy_clock": "interrupt", "keyboard_mode": ""}
    return {"graphics": graphics, "kivy": {**own, "log_level": "warning"}}


def size_of(panel: Panel, strip: int) -> tuple[int, int]:
    """The window's size in pixels with a strip of some height under the panel."""
    return panel.width_px, panel.height_px + strip


def refuse_unseen() -> None:
    """Raise `NoScreen` if SDL draws where nobody sees it."""
    driver = video_driver()
    if driver in UNSEEN:
        raise NoScreen(f"the window system is SDL's {driver} driver: nobody would see the kiosk")


def refuse_old(version: str, renderer: str) -> None:
    """Raise `NoScreen` for a graphics driver before OpenGL 2.0: Kivy only says that it leaves."""
    found = re.search(r"\d+", version)
    if found is None or int(found[0]) < 2:
        told = f"OpenGL {version or 'of no version'} by {renderer or 'nobody'}"
        raise NoScreen(f"{told}: 2.0 is needed; update the graphics driver")


def video_driver() -> str:
    """The driver that SDL really uses, asked of the library that Kivy has loaded."""
    for line in Path("/proc/self/maps").read_text().splitlines():
        path = line.split(maxsplit=5)[-1]
        if "libSDL2-2" in path:
            library = ctypes.CDLL(path)
            library.SDL_GetCurrentVideoDriver.restype = ctypes.c_char_p
            return (library.SDL_GetCurrentVideoDriver() or b"").decode()
    return ""
