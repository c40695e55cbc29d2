"""A person at a terminal: text by Rich, levels live, one line typed at a time."""

from __future__ import annotations

import os
import select
import sys
from collections.abc import Callable
from typing import TextIO

from rich.console import Console
from rich.live import Live
from rich.text import Text

from kiosk.runtime.commissioning.walking import KEYS

LOOK_S = 0.2


class Terminal:
    """Also works through pipes: levels are then printed whenever they change."""

    def __init__(self, source: TextIO = sys.stdin, out: TextIO | None = None) -> None:
        self._fd = source.fileno()
        self._typed = b""
        self.console = Console(file=out, highlight=False, markup=False, soft_wrap=True)

    def say(self, text: str) -> None:
        """Print a line."""
        self.console.print(text)

    def ask(self, question: str, usual: str) -> str:
        """One line; an empty one is the usual answer, the end of the input is `q`."""
        self.console.print(f"{question} [{usual}]")
        while (line := self._line(LOOK_S)) is None:
            pass
        return line or usual

    def watch(self, request: str, look: Callable[[], str]) -> str:
        """Show what `look` says until a line is typed; the end of the input is `q`."""
        self.console.print(f"\n{request}\n{KEYS}")
        if not self.console.is_terminal:
            return self._watch_plainly(look)
        with Live(Text(look()), console=self.console, transient=True) as live:
            while (line := self._line(LOOK_S)) is None:
                live.update(Text(look()))
        return line

    def _watch_plainly(self, look: Callable[[], str]) -> str:
        last = ""
        while (line := self._line(LOOK_S)) is None:
            before, last = last, look()
            if last != before:
                self.console.print(f"  {last}")
        return line

    def _line(self, seconds: float) -> str | None:
        """A whole line if one comes within the time; the system's buffer alone is asked."""
        if b"\n" not in self._typed:
            ready, _, _ = select.select([self._fd], [], [], seconds)
            if not ready:
                return None
            came = os.read(self._fd, 1024)
            if not came:
                return "q"
            self._typed += came
        if b"\n" not in self._typed:
            return None
        line, _, self._typed = self._typed.partition(b"\n")
        return line.decode("utf-8", errors="replace").strip()
