"""The sheet a picture is drawn on, and how a picture made on a frame is fitted to it."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace

from kiosk.core.words import Words
from kiosk.drawings.shapes import Area, Disc, Drawing, Label, Line, Shape

LEAST_TEXT = 3.0  # capital height in mm that can be read standing up
CHARACTER = 0.62 * 1.4  # width of a character for a capital height of 1
LEAST_STROKE = 0.4
FRAME = (60.0, 48.0)  # pictures that are not to scale are made on this

in_english = Words("en", {}).number


@dataclass(frozen=True)
class Sheet:
    """Width and height in millimetres, and how quantities are written."""

    width: float
    height: float
    number: Callable[[object], str] = in_english

    @property
    def small(self) -> bool:
        """Whether the sheet is a button's: bold shapes only, no text."""
        return self.width < 45 or self.height < 34

    def drawing(self, shapes: Iterable[Shape]) -> Drawing:
        """The shapes on this sheet, without its texts where the sheet is small."""
        kept = tuple(s for s in shapes if not (self.small and isinstance(s, Label)))
        return Drawing(self.width, self.height, kept)


def text_width(text: str, size: float) -> float:
    """How wide a text of that capital height comes out, on the safe side, in mm."""
    return len(text) * CHARACTER * size


def fitted(
    shapes: Iterable[Shape], sheet: Sheet, frame: tuple[float, float] = FRAME
) -> tuple[Shape, ...]:
    """Shapes made on a frame, scaled alike in both ways and set in the middle of the sheet."""
    margin = 1.0 if sheet.small else 3.0
    scale = min((sheet.width - 2 * margin) / frame[0], (sheet.height - 2 * margin) / frame[1])
    left = (sheet.width - frame[0] * scale) / 2
    top = (sheet.height - frame[1] * scale) / 2
    return moved(shapes, left, top, scale)


def moved(
    shapes: Iterable[Shape], right: float, down: float, scale: float = 1.0
) -> tuple[Shape, ...]:
    """Shapes scaled about the frame's corner and then moved."""
    return tuple(_moved(shape, right, down, scale) for shape in shapes)


def _moved(shape: Shape, right: float, down: float, scale: float) -> Shape:
    if isinstance(shape, Label):
        size = max(LEAST_TEXT, shape.size * scale)
        return replace(shape, x=right + shape.x * scale, y=down + shape.y * scale, size=size)
    width = max(LEAST_STROKE, shape.width * scale) if shape.width else 0.0
    if isinstance(shape, Disc):
        x, y = right + shape.x * scale, down + shape.y * scale
        return replace(shape, x=x, y=y, radius=shape.radius * scale, width=width)
    points = tuple((right + x * scale, down + y * scale) for x, y in shape.points)
    return _with_points(shape, points, width)


def _with_points(
    shape: Line | Area, points: tuple[tuple[float, float], ...], width: float
) -> Line | Area:
    if isinstance(shape, Line):
        return replace(shape, points=points, width=width)
    return replace(shape, points=points, width=width)
