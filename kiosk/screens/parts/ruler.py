"""How wide and high texts are, and where their lines break."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import lru_cache

from kivy.core.text import Label as CoreLabel

from kiosk.drawings.fonts import Fonts

SLACK = 2  # pixels kept free so that Kivy's own rounding never breaks a line again
LONGEST = 2000  # letters of one text
UNDRAWN = re.compile("[\\x00-\\x09\\x0b-\\x1f\\x7f\\u202a-\\u202e\\u2066-\\u2069\\ud800-\\udfff]")


@lru_cache(maxsize=64)
def _pen(font: str, size: int) -> CoreLabel:
    return CoreLabel(font_name=font, font_size=size)


@lru_cache(maxsize=8192)
def width_of(text: str, font: str, size: int) -> int:
    """Pixels of one line."""
    return int(_pen(font, size).get_extents(text)[0]) if text else 0


@lru_cache(maxsize=64)
def line_height(font: str, size: int) -> int:
    """Pixels of a usual line."""
    return height_of("Hg|", font, size)


@lru_cache(maxsize=8192)
def height_of(line: str, font: str, size: int) -> int:
    """Pixels of one line; some letters make it higher, and Kivy drops a line that lacks one."""
    return int(_pen(font, size).get_extents(line or " ")[1])


@dataclass(frozen=True)
class Set:
    """A text set in lines of one size; `broken` names a word too long for its line."""

    lines: tuple[str, ...]
    font: str
    size: int
    broken: str = ""

    @property
    def height(self) -> int:
        """Pixels of all its lines."""
        return sum(height_of(line, self.font, self.size) for line in self.lines)

    @property
    def width(self) -> int:
        """Pixels of its longest line."""
        return max((width_of(line, self.font, self.size) for line in self.lines), default=0)


@dataclass(frozen=True)
class Ruler:
    """Sets texts in the weights of one typeface."""

    fonts: Fonts

    def set(self, text: str, weight: int, size: int, width: float) -> Set:
        """The text broken into lines no wider than `width` pixels, at spaces, a path at its /."""
        return _set(text, self.fonts.of(weight), size, int(width) - SLACK)

    def fit(self, text: str, weight: int, sizes: range, width: float, height: float) -> Set:
        """The text at the first of `sizes` at which it fits, or else at the last of them."""
        for size in sizes:
            done = self.set(text, weight, size, width)
            if not done.broken and done.height <= height:
                return done
        return self.set(text, weight, sizes[-1], width)


def legible(text: str) -> str:
    """A text without signs that end Kivy's drawing or turn it round, and not without end."""
    return UNDRAWN.sub("?", text[:LONGEST])


@lru_cache(maxsize=4096)
def _set(text: str, font: str, size: int, width: int) -> Set:
    lines: list[str] = []
    text = legible(text)
    for part in text.split("\n"):
        lines += _break(part, font, size, width)
    pieces = (
        piece for word in re.split("[ \n]", text) for piece in _pieces(word, font, size, width)
    )
    broken = (piece for piece in pieces if width_of(piece, font, size) > width)
    return Set(tuple(lines), font, size, next(broken, ""))


def _break(text: str, font: str, size: int, width: int) -> list[str]:
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        for at, piece in enumerate(_pieces(word, font, size, width)):
            longer = line + (" " if line and not at else "") + piece
            if line and width_of(longer, font, size) > width:
                lines.append(line)
                line = piece
            else:
                line = longer
    return [*lines, line]


def _pieces(word: str, font: str, size: int, width: int) -> list[str]:
    """A word, or the parts of a path that is too long for a line, each up to its stroke."""
    if "/" not in word or width_of(word, font, size) <= width:
        return [word]
    return [piece for piece in re.split("(?<=/)", word) if piece]
