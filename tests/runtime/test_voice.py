"""Reading aloud: a program of its own that nobody waits for; a small one stands in for it here."""

from __future__ import annotations

import os
import signal
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from kiosk.core.inputs import SeenRight
from kiosk.core.view import Button, Head, View
from kiosk.runtime.voice import Voice, has_voice, text_of

NOBODY = Head("Drill", "none", "", "", None)
STEP = View(
    "step",
    NOBODY,
    "Fit the bit",
    ("Push it in.", "Turn the key."),
    buttons=(Button("Back", SeenRight("x")), Button("The bit is in", SeenRight("s"), "main")),
    aloud=True,
    language="pl",
)


@pytest.fixture
def heard(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A speech program that writes down what it was told, and then reads on for a minute."""
    program, said = tmp_path / "espeak-ng", tmp_path / "said"
    lines = ("#!/bin/sh", f'echo "$@" > {said}.args', f"cat > {said}.part")
    end = (f"mv {said}.part {said}", "exec sleep 60")
    program.write_text("\n".join((*lines, *end)) + "\n")
    program.chmod(0o755)
    monkeypatch.setenv("PATH", f"{tmp_path}:{os.environ['PATH']}")
    return said


def until(found: Callable[[], bool]) -> bool:
    end = time.monotonic() + 20
    while not found() and time.monotonic() < end:
        time.sleep(0.01)
    return found()


def test_a_screen_is_read_in_its_language_from_top_to_bottom(heard: Path) -> None:
    voice = Voice()

    voice.tell(STEP)

    assert until(heard.exists)
    assert "-v pl" in Path(f"{heard}.args").read_text()
    assert heard.read_text().split("\n") == [
        "Fit the bit",
        "Push it in.",
        "Turn the key.",
        "The bit is in",
    ]
    voice.stop()


def test_the_next_screen_ends_what_is_still_being_read(heard: Path) -> None:
    voice = Voice()
    voice.tell(STEP)
    until(heard.exists)
    first = voice._child

    voice.tell(View("drilling", NOBODY, "Drill", language="pl"))

    assert first is not None
    assert first.wait(10) == -signal.SIGTERM
    voice.stop()


def test_what_is_not_to_be_read_starts_nothing(heard: Path) -> None:
    voice = Voice()

    voice.tell(View("step", NOBODY, "Fit the bit", language="pl"))

    assert voice._child is None
    assert has_voice()


def test_without_a_program_there_is_no_voice(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("PATH", str(tmp_path))

    Voice().tell(STEP)

    assert not has_voice()


def test_what_is_read_has_no_line_in_the_middle_of_a_sentence() -> None:
    text = text_of(View("step", NOBODY, "Set the\nstop", ("14.5\u00a0mm more",)))

    assert text == "Set the stop\n14.5 mm more"
