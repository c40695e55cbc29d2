"""Mistakes in what people wrote, as values with a place.

`content`, `people` and `plan` return them; `cli` and the start screen print them. A problem
never stops the search for further ones.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from difflib import get_close_matches


@dataclass(frozen=True, order=True)
class Place:
    """Where something was written. Line 0 stands for the file as a whole."""

    file: str
    line: int = 0

    def __str__(self) -> str:
        return f"{self.file}:{self.line}" if self.line else self.file


@dataclass(frozen=True, order=True)
class Problem:
    """One mistake: where, what was found, what is allowed, and what to do."""

    place: Place
    found: str
    allowed: str = ""
    advice: str = ""

    def __str__(self) -> str:
        parts = [f"{self.place}: {self.found}"]
        if self.allowed:
            parts.append(f"allowed: {self.allowed}")
        if self.advice:
            parts.append(self.advice)
        return "; ".join(parts)


def nearest(word: str, allowed: Iterable[str]) -> str:
    """The allowed word most like `word` as advice, or an empty string if none is close."""
    close = get_close_matches(word.lower(), list(allowed), n=1, cutoff=0.6)
    return f"did you mean {close[0]!r}?" if close else ""
