"""Plain shapes in millimetres, the same for the screen and for paper.

x grows to the right, y downwards, from the top left of the drawing. Colours are names of the
theme: `ink`, `soft` (secondary ink), `line`, `paper`, `action`, `adult`, `caution`, `stop`,
`steel`, `wood`, `plastic`, `bit`, `none`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import TypeAlias


@dataclass(frozen=True)
class Line:
    """A stroke through points. `dash` draws it broken."""

    points: tuple[tuple[float, float], ...]
    colour: str = "ink"
    width: float = 0.3
    dash: bool = False


@dataclass(frozen=True)
class Area:
    """A filled outline."""

    points: tuple[tuple[float, float], ...]
    fill: str = "steel"
    edge: str = "ink"
    width: float = 0.3


@dataclass(frozen=True)
class Disc:
    """A circle."""

    x: float
    y: float
    radius: float
    fill: str = "none"
    edge: str = "ink"
    width: float = 0.3


@dataclass(frozen=True)
class Label:
    """Text on its baseline, anchored `left`, `middle` or `right`; `size` is capital height."""

    x: float
    y: float
    text: str
    size: float = 3.5
    anchor: str = "middle"
    colour: str = "ink"
    bold: bool = False


Shape: TypeAlias = Line | Area | Disc | Label


@dataclass(frozen=True)
class Drawing:
    """Shapes on a sheet of `width` by `height` millimetres, painted in order."""

    width: float
    height: float
    shapes: tuple[Shape, ...]
