"""Rounded plates with an edge, painted once into a small picture and stretched in its middle.

One painted area each: on a computer without a graphics chip every further layer costs time.
"""

from __future__ import annotations

from functools import lru_cache
from math import ceil, hypot

from kivy.graphics import BorderImage, Color, InstructionGroup
from kivy.graphics.texture import Texture

from kiosk.screens.theme import colour

Pair = tuple[float, float]


class PlatePaint(InstructionGroup):
    """A rounded plate with an edge; changed in place, never rebuilt."""

    def __init__(self) -> None:
        super().__init__()
        self._colours = ("none", "none")
        self._shape = (1, 0)
        self._image = BorderImage()
        self.add(Color(1, 1, 1, 1))
        self.add(self._image)

    def show(self, fill: str, edge: str) -> None:
        """Paint it in other colours."""
        self._colours = (fill, edge)
        self._paint()

    def place(self, pos: Pair, size: Pair, radius: float, edge: float) -> None:
        """Put it somewhere; `edge` is the edge's width in pixels."""
        most = int(min(size) / 2) - 1
        self._shape = (max(1, min(round(radius), most)), round(edge))
        self._image.pos, self._image.size = pos, size
        self._paint()

    def _paint(self) -> None:
        corner = self._shape[0] + 1
        self._image.texture = picture(*self._colours, *self._shape)
        self._image.border = (corner, corner, corner, corner)


@lru_cache(maxsize=256)
def picture(fill: str, edge: str, radius: int, width: int) -> Texture:
    """The smallest plate of this kind: four corners and a middle of two pixels."""
    side = 2 * (radius + 1) + 2
    texture = Texture.create(size=(side, side), colorfmt="rgba")
    pixels = bytearray()
    for y in range(side):
        for x in range(side):
            pixels += _pixel(_depth(x, y, side, radius), colour(fill), colour(edge), width)
    texture.blit_buffer(bytes(pixels), colorfmt="rgba", bufferfmt="ubyte")
    texture.min_filter = texture.mag_filter = "nearest"
    return texture


def _depth(x: int, y: int, side: int, radius: int) -> float:
    """How deep a pixel's middle lies inside the plate's outline; negative outside."""
    across = max(0.0, abs(x + 0.5 - side / 2) - (side / 2 - radius))
    along = max(0.0, abs(y + 0.5 - side / 2) - (side / 2 - radius))
    if across and along:
        return radius - hypot(across, along)
    return radius - max(across, along)


def _pixel(depth: float, fill: tuple[float, ...], edge: tuple[float, ...], width: int) -> bytes:
    """Red, green, blue and opacity of a pixel, smooth across both outlines."""
    inner = min(1.0, max(0.0, depth - width + 0.5))
    outer = min(1.0, max(0.0, depth + 0.5))
    mixed = [part * inner + rest * (1 - inner) for part, rest in zip(fill, edge, strict=True)]
    mixed[3] *= outer
    return bytes(ceil(part * 255 - 0.5) for part in mixed)
