"""The parts about the screen: display, touch, clock, ports, font, speech, watchdog."""

from __future__ import annotations

import os
import re
from collections.abc import Mapping
from pathlib import Path

from kiosk.drawings.fonts import WEIGHTS, fonts
from kiosk.selftest.finding import Finding, bad, good, look

ROOT = Path("/")
ABS_MT_POSITION_X = 0x35  # linux/input-event-codes.h
CLOCK_WORDS = ("never set", "running on from before", "set by the network or a clock chip")


def display(environment: Mapping[str, str], root: Path = ROOT) -> Finding:
    """A display to draw on: an X display, or a graphics card that is connected."""
    if environment.get("DISPLAY"):
        return good("display", f"X display {environment['DISPLAY']}")
    connected = [
        path.parent.name
        for path in sorted(root.glob("sys/class/drm/*/status"))
        if path.read_text().strip() == "connected"
    ]
    if connected:
        return good("display", f"connected: {', '.join(connected)}")
    return bad("display", "none is connected", "look at its cable and its power")


def touch(root: Path = ROOT) -> Finding:
    """A touch screen: a device of the kernel's that tells positions of fingers."""
    try:
        listed = (root / "proc/bus/input/devices").read_text("utf-8", errors="replace")
    except OSError:
        listed = ""
    found = [_name(device) for device in listed.split("\n\n") if _tells_fingers(device)]
    if found:
        return good("touch", ", ".join(found))
    return look("touch", "no touch screen is told of", "look at its USB cable; a mouse works too")


def _name(device: str) -> str:
    match = re.search(r'^N: Name="(.*)"$', device, re.MULTILINE)
    return match[1].strip() if match else "a touch screen"


def _tells_fingers(device: str) -> bool:
    """Whether the bits of `B: ABS=` hold that of a finger's place; the last word is the lowest."""
    match = re.search(r"^B: ABS=([0-9a-f ]+)$", device, re.MULTILINE)
    if match is None:
        return False
    bits = 0
    for word in match[1].split():
        bits = bits << 64 | int(word, 16)
    return bool(bits >> ABS_MT_POSITION_X & 1)


def clock(quality: int, has_chip: bool) -> Finding:
    """How far the wall clock can be trusted: 0, 1 or 2 as the record has it."""
    found = CLOCK_WORDS[quality]
    if quality == 2:
        return good("clock", found)
    advice = "connect the network once" if has_chip else "fit a clock battery, or a network"
    return look("clock", found, f"{advice}; days in the record may be wrong until then")


def has_clock_chip(root: Path = ROOT) -> bool:
    """Whether there is a clock that runs on without power."""
    return any(root.glob("sys/class/rtc/rtc*"))


def ports(port: str, root: Path = ROOT) -> Finding:
    """The contact reader's serial port, and whether this user may read it."""
    there = sorted(path.name for path in root.glob("dev/serial/by-id/*"))
    if not port:
        seen = f"; plugged in: {', '.join(there)}" if there else ""
        return good("ports", f"no port: in the settings, so no contact is read{seen}")
    if not port.startswith("/"):
        known = f"; there are: {', '.join(there)}" if there else ""
        allowed = f"give a path such as /dev/serial/by-id/usb-...{known}"
        return bad("ports", f"{port} is no path", allowed)
    place = root / port.lstrip("/")
    if not place.exists():
        known = f"there are: {', '.join(there)}" if there else "nothing is plugged in"
        return bad("ports", f"{port} is not there", f"{known}; see port: in the settings")
    if not os.access(place, os.R_OK | os.W_OK):
        return bad("ports", f"{port} may not be read by this user", "add it to the group dialout")
    return good("ports", port)


def font(cache: Path | None = None) -> Finding:
    """The letters of the screens, cut from the typeface where that has not been done yet."""
    try:
        made = fonts(cache)
    except (OSError, ImportError) as error:
        return bad("font", f"no letters could be made: {error}", "set the program up again")
    return good("font", f"{len(WEIGHTS)} weights in {made.regular.parent}")


def speech(program: str) -> Finding:
    """What reads a screen aloud; it need not be there."""
    if program:
        return good("speech", program)
    return look("speech", "not installed, nothing is read aloud", "apt-get install espeak-ng")


def watchdog(asked: str) -> Finding:
    """The time in microseconds after which systemd starts a screen that stands still anew."""
    if asked.isdigit() and int(asked):
        seconds = int(asked) / 1e6
        return good("watchdog", f"a screen that stands still starts anew after {seconds:g} s")
    return look("watchdog", "nothing watches the screen", "pillarside install sets one up")
