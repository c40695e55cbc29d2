"""Dotted rules under words that can be asked about."""

from __future__ import annotations

from dataclasses import dataclass

from kivy.graphics import InstructionGroup
from kivy.uix.widget import Widget

from kiosk.screens.parts import paint


@dataclass(frozen=True)
class Span:
    """A rule from `left` to `right`, `down` below the top of its box, in pixels."""

    left: float
    right: float
    down: float


class Rules(Widget):
    """Rules in one box; the same rules in the same place are not drawn again."""

    def __init__(self) -> None:
        super().__init__()
        self._paint = InstructionGroup()
        self.canvas.add(self._paint)
        self._shown: tuple[object, ...] = ()

    def show(self, spans: tuple[Span, ...], ink: str, width: float) -> None:
        """Draw the rules, `width` pixels thick."""
        now = (spans, ink, width, *self.pos, *self.size)
        if now == self._shown:
            return
        self._shown = now
        self._paint.clear()
        for span in spans:
            y = self.top - span.down
            ends = ((self.x + span.left, y), (self.x + span.right, y))
            for dash in paint.dashes(ends, 2 * width, 1.5 * width):
                paint.stroke(self._paint, dash, ink, width)
