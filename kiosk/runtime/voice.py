"""Reads a screen aloud through an offline speech program, where one is installed.

The program is a child process that nobody waits for: a new screen ends what is still being read.
"""

from __future__ import annotations

import logging
import shutil
import subprocess
from contextlib import suppress

from kiosk.core.view import View

LOG = logging.getLogger(__name__)
PROGRAMS = ("espeak-ng", "espeak")
SPEED = "140"  # words a minute; slower than the programs' own
END_WITHIN_S = 1.0


def speech_program() -> str:
    """Where the first speech program lies that is installed; empty if there is none."""
    return next((found for name in PROGRAMS if (found := shutil.which(name))), "")


def has_voice() -> bool:
    """Whether screens can be read aloud here."""
    return bool(speech_program())


def text_of(view: View) -> str:
    """What is read of a screen: its words from top to bottom, and the one thing to touch."""
    main = [button.label for button in view.buttons if button.look == "main"]
    parts = [part for part in (view.title, *view.lines, view.note, *main) if part]
    return "\n".join(" ".join(part.split()) for part in parts)


class Voice:
    """One voice: it says the newest screen that is to be read, and falls silent for all others."""

    def __init__(self) -> None:
        self._program = speech_program()
        self._child: subprocess.Popen[bytes] | None = None

    def tell(self, view: View) -> None:
        """Begin to read a view, if it is to be read; returns at once."""
        self.hush()
        if not (self._program and view.aloud):
            return
        words = [self._program, "-v", view.language, "-s", SPEED, "--stdin"]
        silent = subprocess.DEVNULL
        try:
            child = subprocess.Popen(words, stdin=subprocess.PIPE, stdout=silent, stderr=silent)
            with suppress(BrokenPipeError), child.stdin as heard:  # type: ignore[union-attr]
                heard.write(text_of(view).encode())
        except OSError:
            LOG.exception("the speech program %s could not be started", self._program)
        else:
            self._child = child

    def hush(self) -> None:
        """Read no further."""
        if self._child is not None and self._child.poll() is None:
            self._child.terminate()

    def stop(self) -> None:
        """End it, and wait for its end."""
        self.hush()
        if self._child is not None:
            with suppress(subprocess.TimeoutExpired):
                self._child.wait(END_WITHIN_S)
