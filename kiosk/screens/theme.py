"""Colours, and sizes in millimetres turned into the panel's own pixels."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache
from math import ceil

CAPITAL = 0.727  # capital height of Inter as a part of its font size
TARGET_MM = 15.0
PIN_KEY_MM = 17.0
LARGE = 1.3  # text scale of the large text setting


@dataclass(frozen=True)
class Panel:
    """A screen by its name, pixels and visible millimetres."""

    name: str
    width_px: int
    height_px: int
    width_mm: float
    height_mm: float

    @property
    def px_per_mm(self) -> float:
        """Pixels a millimetre, from the direction in which they lie closer."""
        return min(self.width_px / self.width_mm, self.height_px / self.height_mm)


SEVEN_INCH = Panel("7 inch", 800, 480, 152.4, 91.4)
TEN_INCH = Panel("10.1 inch", 1280, 800, 217.0, 136.0)
PANELS = {"7": SEVEN_INCH, "10.1": TEN_INCH}


@dataclass(frozen=True)
class Role:
    """What a text is for: wanted and least capital height in millimetres, and its weight."""

    capital: float
    least: float
    weight: int = 400


# Body text is at least 20 arc minutes of capital height at 600 mm, which is 3.5 mm.
ROLES = {
    "title": Role(4.25, 3.5, 700),
    "question": Role(3.5, 3.5, 600),
    "body": Role(3.5, 3.5),
    "numeral": Role(3.5, 3.5, 700),
    "note": Role(3.5, 3.5),
    "answer": Role(3.5, 3.5, 600),
    "machine": Role(3.5, 3.0, 700),
    "reading": Role(3.1, 3.0, 600),
    "who": Role(3.0, 3.0),
    "wrong": Role(3.1, 3.0, 700),
    "band": Role(3.95, 3.5, 700),
    "main": Role(3.8, 3.5, 700),
    "plain": Role(3.6, 3.5, 400),
    "choice": Role(3.5, 3.5, 600),
    "caption": Role(3.5, 3.5, 600),
    "number": Role(5.0, 4.0, 600),
    "digit": Role(5.5, 4.5, 600),
    "key": Role(3.8, 3.5, 600),
    "rail": Role(3.5, 3.5, 700),
    "sign": Role(3.6, 3.0, 700),
}

COLOURS = {
    "ink": "#1D2B36",
    "chalk": "#F4F2EC",
    "paper": "#FFFFFF",
    "line": "#C9C5B8",
    "edge": "#66717A",
    "bar": "#E7E3D7",
    "soft": "#51606B",
    "pale": "#5A6770",
    "action": "#0F5C63",
    "action_down": "#0A4146",
    "action_pale": "#DDEBEA",
    "adult": "#005387",
    "adult_down": "#003A5F",
    "caution": "#F9A800",
    "caution_deep": "#8A5A00",
    "caution_pale": "#FFF6DD",
    "stop": "#9B2423",
    "stop_pale": "#F7E1DF",
    "steel": "#D8DDE1",
    "wood": "#E9D9B8",
    "plastic": "#CFE0EA",
    "bit": "#0F5C63",
}


@lru_cache
def colour(name: str) -> tuple[float, float, float, float]:
    """A colour's red, green, blue and opacity from 0 to 1; `none` is clear, unknown is ink."""
    if name == "none":
        return (0.0, 0.0, 0.0, 0.0)
    text = COLOURS.get(name, COLOURS["ink"])
    red, green, blue = (int(text[at : at + 2], 16) / 255 for at in (1, 3, 5))
    return (red, green, blue, 0.92 if name == "bit" else 1.0)


@dataclass(frozen=True)
class Theme:
    """Sizes on one panel at a text scale of 1.0 or 1.3."""

    panel: Panel
    scale: float = 1.0

    @property
    def grow(self) -> float:
        """How much bigger than needed everything is drawn where the panel has the room."""
        return max(1.0, min(1.22, self.panel.height_mm / 91.4))

    def mm(self, length: float) -> int:
        """Pixels of a length in millimetres, never less than it."""
        return ceil(length * self.panel.px_per_mm - 1e-6)

    def room(self, length: float) -> int:
        """Pixels of a length in millimetres that grows with the panel."""
        return self.mm(length * self.grow)

    def font(self, role: str) -> int:
        """The wanted font size in pixels."""
        return self._font(ROLES[role].capital * self.grow * self.scale)

    def least_font(self, role: str) -> int:
        """The smallest font size in pixels; large text keeps at least half of its gain."""
        return self._font(ROLES[role].least * (1 + (self.scale - 1) / 2))

    def bare_font(self, role: str) -> int:
        """The smallest font size in pixels whatever the text scale."""
        return self._font(ROLES[role].least)

    def _font(self, capital_mm: float) -> int:
        return ceil(capital_mm * self.panel.px_per_mm / CAPITAL - 1e-6)

    @property
    def target(self) -> int:
        """The least side of anything that can be touched."""
        return self.mm(TARGET_MM)

    @property
    def pin_key(self) -> int:
        """The least side of a PIN key."""
        return self.mm(PIN_KEY_MM)
