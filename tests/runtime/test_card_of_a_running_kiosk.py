"""A card that is full or read-only under a running kiosk: told in plain words, nothing lost."""

from __future__ import annotations

import shutil
import subprocess
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from kiosk.core.inputs import ReadingIs
from kiosk.core.model import Reading
from kiosk.core.view import View
from kiosk.runtime.settings import Settings
from kiosk.runtime.start import Running, start
from kiosk.store import Record
from tests.ageing import days
from tests.recording import DAY_US, MAY_2026_US, Playing, small_card
from tests.store.test_card import fill

PATIENCE_S = 30.0
REFUSING = ("The card can't be written to.", "The card does not answer as it should.")


def see(running: Running, found: Callable[[View], bool], what: str) -> View:
    until = time.monotonic() + PATIENCE_S
    while time.monotonic() < until:
        view = running.latest()
        if found(view):
            return view
        time.sleep(0.02)
    raise AssertionError(f"waited for {what}; there stands {running.latest().title!r}")


def turn_the_isolator(running: Running, times: int) -> None:
    """Something to record."""
    assert running.loop is not None
    for n in range(times):
        reading = (Reading.ON, Reading.OFF)[n % 2]
        running.loop.post(ReadingIs("isolator", reading, "settled"))


def is_fault(view: View) -> bool:
    return view.screen == "record_fault"


def lines_of(path: Path) -> list[int]:
    record = Record.open(path)
    try:
        assert record.set_aside is None
        return [entry.seq for entry in record.entries()]
    finally:
        record.close()


def test_a_full_card_is_told_and_work_goes_on_once_there_is_room(tmp_path: Path) -> None:
    with small_card(tmp_path / "card", "2m") as card:
        running = start(Settings(record=card / "record.sqlite", boot="b1"))
        try:
            ballast = fill(card)
            stood = running.latest().seq
            for _ in range(40):
                turn_the_isolator(running, 2)
                if is_fault(running.latest()):
                    break
                time.sleep(0.05)
            told = see(running, is_fault, "the full card")
            ballast.unlink()
            after = see(running, lambda v: not is_fault(v) and v.seq > stood, "work going on")
        finally:
            running.stop()

        assert told.title == "The card is full."
        assert lines_of(card / "record.sqlite")[: after.seq] == list(range(1, after.seq + 1))


def test_a_kiosk_on_a_read_only_card_says_so_and_starts_once_it_is_not(tmp_path: Path) -> None:
    with small_card(tmp_path / "card", "2m") as card:
        start(Settings(record=card / "record.sqlite", boot="b1")).stop()
        before = lines_of(card / "record.sqlite")
        subprocess.run(["mount", "-o", "remount,ro", str(card)], check=True)

        running = start(Settings(record=card / "record.sqlite", boot="b2"))
        told = running.latest()
        running.stop()

        assert (told.screen, told.title) == ("record_fault", "The card can't be written to.")
        subprocess.run(["mount", "-o", "remount,rw", str(card)], check=True)
        assert lines_of(card / "record.sqlite") == before


@contextmanager
def real_card(at: Path) -> Iterator[tuple[Path, str]]:
    """A file system on a loop device, and the device; skips where none can be had."""
    image = at.with_suffix(".img")
    image.write_bytes(b"\0" * (16 << 20))
    at.mkdir()
    made = _can(["mkfs.ext4", "-q", "-F", str(image)])
    loop = subprocess.run(
        ["losetup", "--find", "--show", str(image)], capture_output=True, text=True, check=False
    )
    device = loop.stdout.strip()
    if not made or loop.returncode or not _can(["mount", device, str(at)]):
        if device:
            subprocess.run(["losetup", "--detach", device], check=False)
        pytest.skip("needs root, mkfs.ext4 and a loop device that can be mounted")
    try:
        yield at, device
    finally:
        subprocess.run(["umount", "--lazy", str(at)], check=False)
        subprocess.run(["losetup", "--detach", device], check=False)


def _can(words: list[str]) -> bool:
    if shutil.which(words[0]) is None:
        return False
    return subprocess.run(words, capture_output=True, check=False).returncode == 0


def test_a_card_that_turns_read_only_under_a_running_kiosk_is_told(tmp_path: Path) -> None:
    """As the kernel does it after an error of the card (ext4's `abort`); nothing told is lost."""
    with real_card(tmp_path / "card") as (card, device):
        running = start(Settings(record=card / "record.sqlite", boot="b1"))
        try:
            see(running, lambda v: v.seq > 0, "the start")
            stood = running.latest().seq
            subprocess.run(["mount", "-o", "remount,abort", str(card)], check=True)
            turn_the_isolator(running, 1)
            told = see(running, is_fault, "the card that refuses")
        finally:
            running.stop()

        assert told.title in REFUSING
        subprocess.run(["umount", "--lazy", str(card)], check=True)
        subprocess.run(["mount", device, str(card)], check=True)
        assert len(lines_of(card / "record.sqlite")) >= stood


def test_a_running_kiosk_takes_away_what_was_kept_long_enough(tmp_path: Path) -> None:
    path = tmp_path / "record.sqlite"
    playing = Playing(Record.open(path), wall_us=MAY_2026_US - 900 * DAY_US)
    days(playing, 4)
    playing.record.close()
    running = start(Settings(record=path, boot="b1"))
    assert running.loop is not None
    kept = dict.fromkeys(("events", "incident", "near_miss", "note"), 400)

    try:
        stood = running.latest().seq
        keeper: Any = running.loop._keeper
        runners: Any = running.loop._errands
        runners.tidy({**kept, "adult_left": 400, "pupil_left": 400}, (), after_s=0)
        see(running, lambda _: keeper.begin.first > 1, "what was kept long enough to go")
    finally:
        running.stop()

    left = lines_of(path)
    assert left[0] > 1
    assert left[-1] > stood


def test_a_record_in_memory_is_warned_of_on_the_screen(tmp_path: Path) -> None:
    with small_card(tmp_path / "card", "4m") as card:
        running = start(Settings(record=card / "record.sqlite", boot="b1"))
        assert running.loop is not None
        warning = running.words.say("idle.forgets")
        try:
            before = running.latest().lines
            runners: Any = running.loop._errands
            runners.tidy({}, (), after_s=0)
            after = see(running, lambda v: warning in v.lines, "the warning").lines
        finally:
            running.stop()

    assert warning not in before
    assert warning in after
