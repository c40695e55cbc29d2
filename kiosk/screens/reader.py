"""A badge reader that types: digits and Enter, much faster than a hand."""

from __future__ import annotations

from collections.abc import Callable

WITHIN_S = 0.3  # between two letters of one badge; whoever types by hand is slower or gives up
LONGEST = 32
ENTER = (13, 271)  # the codes of Enter and of the keypad's


class Reader:
    """Collects what a reader types; `read` is called with a whole badge. `now` gives seconds."""

    def __init__(self, read: Callable[[str], None], now: Callable[[], float]) -> None:
        self._read, self._now = read, now
        self._typed, self._last = "", 0.0

    def key(self, code: int, letter: str | None) -> None:
        """One key has come. Every other key than a letter, a digit or Enter is left aside."""
        now = self._now()
        if now - self._last > WITHIN_S:
            self._typed = ""
        self._last = now
        if code in ENTER:
            typed, self._typed = self._typed, ""
            if typed:
                self._read(typed)
        elif letter and letter.isascii() and letter.isalnum():
            self._typed = (self._typed + letter)[: LONGEST + 1]
