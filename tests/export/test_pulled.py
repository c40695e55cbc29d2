"""The stick is pulled, or stops answering, at every single step of a download.

A step is a call to the system. Whatever the step: one word and one line, no false success,
nothing left on the card under the mount point, and the next stick takes the download.
"""

from __future__ import annotations

import errno
import os
import subprocess
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from kiosk.export import DownloadFault, folder, verify
from tests.export.conftest import Take
from tests.recording import small_card

WORDS = {"gone", "failing", "full", "read_only", "not_folder"}
CALLS = ("open", "mkdir", "stat", "fstat", "fstatvfs", "write", "fsync", "rename", "read")


class Steps:
    """Stands for the system before the download's code; at step `at` something happens."""

    def __init__(self, at: int, happens: Callable[[], None], for_good: bool) -> None:
        self.at, self.happens, self.for_good, self.count = at, happens, for_good, 0

    def __getattr__(self, name: str) -> Any:
        real = getattr(os, name)
        return self._stepping(real) if name in CALLS else real

    def _stepping(self, real: Callable[..., Any]) -> Callable[..., Any]:
        def step(*words: Any, **more: Any) -> Any:
            self.count += 1
            if self.count == self.at or (self.for_good and self.count > self.at):
                self.happens()
            return real(*words, **more)

        return step


def no_answer() -> None:
    raise OSError(errno.EIO, "Input/output error")


def steps_of(take: Take, to: Path, monkeypatch: pytest.MonkeyPatch, steps: Steps) -> str:
    """Take a download with something happening at one step; the word it ended with."""
    mounted = os.path.ismount(to)
    with monkeypatch.context() as patch:
        patch.setattr(folder, "os", steps)
        try:
            take(to=to, mounted=mounted)
        except DownloadFault as fault:
            assert "\n" not in str(fault)
            return fault.why
    return ""


def test_a_stick_that_stops_answering_at_any_step_is_no_success(
    take: Take, stick: Path, monkeypatch: pytest.MonkeyPatch, sum_up: Callable[[str], None]
) -> None:
    whole = Steps(0, no_answer, False)
    assert steps_of(take, stick, monkeypatch, whole) == ""
    before = sorted(p.name for p in stick.iterdir())

    ends = [
        steps_of(take, stick, monkeypatch, Steps(n, no_answer, True))
        for n in range(1, whole.count + 1)
    ]

    sum_up(f"stick: {len(ends)} steps without an answer, {ends.count('')} taken for a success")
    assert set(ends) <= {"failing", "gone"}
    assert before == sorted(p.name for p in stick.iterdir() if verify_is_whole(p))
    assert verify(take()).problems == ()


def verify_is_whole(path: Path) -> bool:
    """Whether a folder is a finished download; a torn one has no manifest."""
    return not verify(path).problems


def test_a_stick_pulled_at_any_step_is_no_success_and_the_card_stays_clean(
    take: Take, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, sum_up: Callable[[str], None]
) -> None:
    with small_card(tmp_path / "counted", "4m") as card:
        whole = Steps(0, no_answer, False)
        assert steps_of(take, card, monkeypatch, whole) == ""
    ends = []
    for n in range(1, whole.count + 1):
        at = tmp_path / f"stick{n}"
        with small_card(at, "4m"):

            def pull(at: Path = at) -> None:
                subprocess.run(["umount", "--lazy", str(at)], check=True)
                subprocess.run(["mount", "--bind", str(at), str(at)], check=True)

            ends.append(steps_of(take, at, monkeypatch, Steps(n, pull, False)))
        assert list(at.iterdir()) == [], f"step {n} wrote to the card"

    sum_up(f"stick: pulled at {len(ends)} steps, {ends.count('')} taken for a success")
    late = [n for n, why in enumerate(ends, 1) if not why]
    assert set(ends) - {""} <= WORDS
    assert all(n > whole.count - 2 for n in late), late  # whole, and looked at for the last time
