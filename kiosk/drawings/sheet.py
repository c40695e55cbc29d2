"""The sheet a picture is drawn on, and how a picture made on a frame is fitted to it."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import TypeAlias

from kiosk.core.words import Words
from kiosk.drawings.lettering import LEAST_TEXT, Caption, overlap, text_box, text_width
from kiosk.drawings.shapes import Area, Disc, Drawing, Label, Line, Shape

EDGE = 0.6  # mm kept free at the sheet's edge by texts
LEAST_STROKE = 0.4
LEAST_SIDE = 29.5  # mm of a sheet that still holds a text
FRAME = (60.0, 48.0)  # pictures that are not to scale are made on this

IN_ENGLISH = Words("en", {})

Mark: TypeAlias = Shape | Caption
Shapes: TypeAlias = tuple[Shape, ...]
Marks: TypeAlias = tuple[Mark, ...]


@dataclass(frozen=True)
class Sheet:
    """Width and height in millimetres, and the reader's words."""

    width: float
    height: float
    words: Words = IN_ENGLISH

    @property
    def small(self) -> bool:
        """Whether the sheet is a button's: bold shapes only, no text."""
        return min(self.width, self.height) < LEAST_SIDE

    def number(self, value: object, room: float = 1000.0, size: float = LEAST_TEXT) -> str:
        """A quantity with its unit; in millimetres alone where both units are too long."""
        text = self.words.number(value)
        is_long = self.words.inches and text_width(text, size) > room
        return replace(self.words, inches=False).number(value) if is_long else text

    def say(self, name: str) -> str:
        """A word of the drawings, or nothing where the language has none."""
        return self.words.maybe(f"drawing.{name}")

    def name(self, word: str) -> str:
        """What a shop word is called, or nothing where the language has none."""
        return self.words.maybe(f"word.{word}.forms").split("\n")[0]

    def drawing(self, marks: Iterable[Mark]) -> Drawing:
        """The shapes on this sheet. A text that has no room is left out, the later of two.

        Numbers are put in first: a name goes before a number does.
        """
        marks = tuple(marks)
        shapes = [mark for mark in marks if not isinstance(mark, Caption | Label)]
        texts = [mark for mark in marks if isinstance(mark, Caption | Label)]
        labels = list[Label]()
        for text in sorted(() if self.small else texts, key=_is_name):
            labels += self._fits(text, labels)
        return Drawing(self.width, self.height, (*shapes, *labels))

    def _fits(self, mark: Caption | Label, others: list[Label]) -> tuple[Label, ...]:
        """All lines of a text, pushed in from the edge together; none if one has no room."""
        lines = tuple(line for line in _lines(mark) if line.text)
        if any(text_width(line.text, line.size) > self.width - 2 * EDGE for line in lines):
            return ()
        right, down = self._push(lines)
        put = tuple(replace(line, x=line.x + right, y=line.y + down) for line in lines)
        return () if any(overlap(line, other) for line in put for other in others) else put

    def _push(self, lines: tuple[Label, ...]) -> tuple[float, float]:
        """How far right and down a text must go to stand on the sheet whole."""
        boxes = [text_box(line) for line in lines] or [(EDGE, EDGE, EDGE, EDGE)]
        left, top = (min(box[at] for box in boxes) for at in (0, 1))
        right, bottom = (max(box[at] for box in boxes) for at in (2, 3))
        return _inward(left, right, self.width), _inward(top, bottom, self.height)


def _lines(text: Caption | Label) -> tuple[Label, ...]:
    return text.lines if isinstance(text, Caption) else (text,)


def _is_name(text: Caption | Label) -> bool:
    """Whether no number stands in it."""
    return not any(each.isdigit() for line in _lines(text) for each in line.text)


def _inward(low: float, high: float, length: float) -> float:
    return max(0.0, EDGE - low) if low < EDGE else min(0.0, length - EDGE - high)


@dataclass(frozen=True)
class Fit:
    """Where a frame lies on a sheet: its corner, and sheet millimetres to one of the frame."""

    left: float
    top: float
    scale: float

    def at(self, x: float, y: float) -> tuple[float, float]:
        """A point of the frame on the sheet."""
        return self.left + x * self.scale, self.top + y * self.scale

    def place(self, shapes: Iterable[Shape]) -> Shapes:
        """Shapes of the frame on the sheet."""
        return moved(shapes, self.left, self.top, self.scale)


def fit(sheet: Sheet, frame: tuple[float, float] = FRAME) -> Fit:
    """The frame scaled alike in both ways and set in the middle of the sheet."""
    margin = 1.0 if sheet.small else 1.6
    scale = min((sheet.width - 2 * margin) / frame[0], (sheet.height - 2 * margin) / frame[1])
    left = (sheet.width - frame[0] * scale) / 2
    return Fit(left, (sheet.height - frame[1] * scale) / 2, scale)


def fitted(shapes: Iterable[Shape], sheet: Sheet, frame: tuple[float, float] = FRAME) -> Shapes:
    """Shapes made on a frame, put in the middle of the sheet as large as they fit."""
    return fit(sheet, frame).place(shapes)


def moved(shapes: Iterable[Shape], right: float, down: float, scale: float = 1.0) -> Shapes:
    """Shapes scaled about the frame's corner and then moved."""
    return tuple(_moved(shape, right, down, scale) for shape in shapes)


def _moved(shape: Shape, right: float, down: float, scale: float) -> Shape:
    if isinstance(shape, Label):
        return _moved_text(shape, right, down, scale)
    width = max(LEAST_STROKE, shape.width * scale) if shape.width else 0.0
    if isinstance(shape, Disc):
        x, y = right + shape.x * scale, down + shape.y * scale
        return replace(shape, x=x, y=y, radius=shape.radius * scale, width=width)
    points = tuple((right + x * scale, down + y * scale) for x, y in shape.points)
    return _with_points(shape, points, width)


def _moved_text(text: Label, right: float, down: float, scale: float) -> Label:
    size = max(LEAST_TEXT, text.size * scale)
    return replace(text, x=right + text.x * scale, y=down + text.y * scale, size=size)


def _with_points(
    shape: Line | Area, points: tuple[tuple[float, float], ...], width: float
) -> Line | Area:
    if isinstance(shape, Line):
        return replace(shape, points=points, width=width)
    return replace(shape, points=points, width=width)
