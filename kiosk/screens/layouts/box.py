"""Boxes in pixels from the panel's top left, cut into smaller ones."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True)
class Box:
    """A box: x to the right, y downwards."""

    x: float
    y: float
    w: float
    h: float

    def inset(self, across: float, along: float | None = None) -> Box:
        """Smaller by `across` at the sides and `along` (or the same) above and below."""
        down = across if along is None else along
        return Box(self.x + across, self.y + down, self.w - 2 * across, self.h - 2 * down)

    def cut_top(self, height: float, gap: float = 0) -> tuple[Box, Box]:
        """The upper part of a height, and what is left below a gap."""
        used = height + gap
        rest = Box(self.x, self.y + used, self.w, max(0.0, self.h - used))
        return Box(self.x, self.y, self.w, height), rest

    def cut_bottom(self, height: float, gap: float = 0) -> tuple[Box, Box]:
        """The lower part of a height, and what is left above a gap."""
        lower = Box(self.x, self.y + self.h - height, self.w, height)
        return lower, Box(self.x, self.y, self.w, max(0.0, self.h - height - gap))

    def cut_left(self, width: float, gap: float = 0) -> tuple[Box, Box]:
        """The left part of a width, and what is left beyond a gap."""
        used = width + gap
        rest = Box(self.x + used, self.y, max(0.0, self.w - used), self.h)
        return Box(self.x, self.y, width, self.h), rest

    def cut_right(self, width: float, gap: float = 0) -> tuple[Box, Box]:
        """The right part of a width, and what is left before a gap."""
        right = Box(self.x + self.w - width, self.y, width, self.h)
        return right, Box(self.x, self.y, max(0.0, self.w - width - gap), self.h)

    def middle(self, width: float, height: float) -> Box:
        """A box of this size in the middle."""
        x, y = self.x + (self.w - width) / 2, self.y + (self.h - height) / 2
        return Box(x, y, width, height)
