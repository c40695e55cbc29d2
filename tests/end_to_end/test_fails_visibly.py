"""An error within the program: a plain screen, the reason kept, an end, a start that asks."""

from __future__ import annotations

import os
import socket
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import ImageGrab

from kiosk.runtime.faults import FAULTS
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.start import start
from kiosk.store import ReadOnlyRecord

PLANTED = """
import sys
from kiosk.runtime.errands import Runners
Runners.carry_out = lambda self, request, kiosk: 1 // 0
from kiosk.main import command
command()
"""
PATIENCE_S = 90.0
CAUTION = (0xF9, 0xA8, 0x00)
"""The yellow of the sign on the plain screen: no screen at rest has so much of it."""


def until(found: Callable[[], bool], what: str) -> None:
    late = time.monotonic() + PATIENCE_S
    while not found():
        assert time.monotonic() < late, what
        time.sleep(0.1)


def shows_the_sign(display: str) -> bool:
    shot = ImageGrab.grab(xdisplay=display).convert("RGB")
    colours = shot.getcolors(1 << 24) or []
    return sum(count for count, colour in colours if colour == CAUTION) > 5000


@pytest.mark.kill
@pytest.mark.timeout(400)
def test_an_error_in_the_loop_is_shown_kept_and_ends_the_process(
    displays: Callable[[int, int], str], tmp_path: Path, full: bool
) -> None:
    if not full:
        pytest.skip("the plain screen stands for ten seconds: -m kill --full")
    display, record = displays(800, 480), tmp_path / "record.sqlite"
    told = record.with_name(record.name + ".sock")
    process = subprocess.Popen(
        [sys.executable, "-c", PLANTED, "run", "--record", str(record), "--boot", "b1"],
        cwd=TREE,
        env={**os.environ, "DISPLAY": display},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
    )
    until(told.exists, "the kiosk does not run")
    before = shows_the_sign(display)
    with socket.socket(socket.AF_UNIX) as caller:
        caller.connect(str(told))
        caller.sendall(b'{"do": "ping"}\n')

    until(lambda: shows_the_sign(display), "no plain screen")
    code = process.wait(PATIENCE_S)

    assert (before, code) == (False, 1)
    assert "ZeroDivisionError" in record.with_name(record.name + FAULTS).read_text("utf-8")
    with ReadOnlyRecord(record) as read:
        read.look_through()
    again = start(Settings(record=record, boot="b2"))
    shown = again.latest()
    again.stop()
    assert shown.title == "Is it turning? Press the red stop."
