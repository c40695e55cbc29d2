"""A drawing of plain shapes in millimetres, painted to scale."""

from __future__ import annotations

from itertools import pairwise

from kivy.graphics import (
    ClearBuffers,
    ClearColor,
    Color,
    Fbo,
    Instruction,
    InstructionGroup,
    PopMatrix,
    PushMatrix,
    Rectangle,
    Translate,
)
from kivy.uix.widget import Widget

from kiosk.drawings.shapes import Area, Disc, Drawing, Label, Line, Shape
from kiosk.screens.parts import paint
from kiosk.screens.parts.ruler import Ruler, line_height
from kiosk.screens.parts.text import Text
from kiosk.screens.theme import CAPITAL, colour

ASCENT = 0.969  # of Inter, as a part of its font size: from the line's top to the baseline


class Sheet(Widget):
    """Paints one drawing; the same drawing in the same place is not painted again.

    On a `ground`, a colour's name, its shapes are painted once into one picture: without a
    graphics chip each of many layers would cost time in every frame.
    """

    def __init__(self, ground: str = "") -> None:
        super().__init__()
        self._ground = ground
        self._shown_as, self._paint = InstructionGroup(), InstructionGroup()
        self.canvas.add(self._shown_as)
        self._texts: list[Text] = []
        self._shown: tuple[object, ...] = ()

    def show(self, drawing: Drawing, scale: float, ruler: Ruler) -> None:
        """Paint a drawing in the middle of the box, `scale` pixels to its millimetre."""
        now = (drawing, scale, *self.pos, *self.size)
        if now == self._shown:
            return
        self._shown = now
        self._scale, self._ruler = scale, ruler
        self._left = self.center_x - drawing.width * scale / 2
        self._high = self.center_y + drawing.height * scale / 2
        self._paint.clear()
        self._place(drawing.shapes)
        self._shown_as.clear()
        for step in self._flattened() if self._ground else (self._paint,):
            self._shown_as.add(step)

    def _flattened(self) -> tuple[Instruction, ...]:
        """All shapes as one picture in their place; what painted it is let go of.

        Each stroke holds a texture and buffers of its own, megabytes for one drawing.
        """
        width, height = int(self.width), int(self.height)
        picture = Fbo(size=(width, height))
        moved = (PushMatrix(), Translate(-self.x, -self.y), self._paint, PopMatrix())
        for step in (ClearColor(*colour(self._ground)), ClearBuffers(), *moved):
            picture.add(step)
        picture.draw()
        picture.clear()
        self._paint.clear()
        shown = Rectangle(pos=self.pos, size=(width, height), texture=picture.texture)
        return (Color(), shown)

    def _place(self, shapes: tuple[Shape, ...]) -> None:
        self.clear_widgets()
        labels = [shape for shape in shapes if isinstance(shape, Label)]
        for shape in shapes:
            self._draw(shape)
        while len(self._texts) < len(labels):
            self._texts.append(Text())
        for text, label in zip(self._texts, labels, strict=False):
            self._write(text, label)

    def _draw(self, shape: Shape) -> None:
        if isinstance(shape, Area):
            self._draw_area(shape)
        elif isinstance(shape, Line):
            self._draw_line(shape)
        elif isinstance(shape, Disc):
            self._draw_disc(shape)

    def _at(self, x: float, y: float) -> paint.Point:
        return (self._left + x * self._scale, self._high - y * self._scale)

    def _draw_area(self, area: Area) -> None:
        points = [self._at(*point) for point in area.points]
        if area.fill != "none":
            paint.outline(self._paint, points, area.fill)
        if area.edge != "none":
            paint.stroke(self._paint, [*points, points[0]], area.edge, area.width * self._scale)

    def _draw_line(self, line: Line) -> None:
        points = [self._at(*point) for point in line.points]
        width = line.width * self._scale
        if not line.dash:
            paint.stroke(self._paint, points, line.colour, width)
            return
        for pair in pairwise(points):
            for dash in paint.dashes(pair, 1.6 * self._scale, 1.1 * self._scale):
                paint.stroke(self._paint, dash, line.colour, width)

    def _draw_disc(self, circle: Disc) -> None:
        centre, radius = self._at(circle.x, circle.y), circle.radius * self._scale
        if circle.fill != "none":
            paint.disc(self._paint, centre, radius, circle.fill)
        if circle.edge != "none":
            paint.ring(self._paint, centre, radius, circle.edge, circle.width * self._scale)

    def _write(self, text: Text, label: Label) -> None:
        size = round(label.size * self._scale / CAPITAL)
        done = self._ruler.set(label.text, 600 if label.bold else 400, size, 100_000)
        x, y = self._at(label.x, label.y)
        width = done.width + 2
        text.size = (width, line_height(done.font, size))
        left = {"left": x, "middle": x - width / 2, "right": x - width}[label.anchor]
        text.pos = (round(left), round(y + size * ASCENT - text.height))
        text.show(
            done, label.colour, {"left": "left", "right": "right"}.get(label.anchor, "center")
        )
        self.add_widget(text)
