"""A text that never runs out of its box: set beforehand, and drawn as it was set."""

from __future__ import annotations

from functools import lru_cache

from kivy.core.text import Label as Pen
from kivy.graphics import Color, Rectangle
from kivy.uix.widget import Widget

from kiosk.screens.parts.ruler import Set, width_of
from kiosk.screens.theme import colour

KEPT = 192  # texts kept as they were written: those of a turn's screens

Limits = tuple[float, float | None]  # the width and the height that a text is written in


@lru_cache(maxsize=KEPT)
def written(text: str, font: str, size: int, limits: Limits, align: str) -> Pen:
    """A text as it was written, in white: its texture is tinted where it stands."""
    how = {"text_size": limits, "halign": align, "valign": "top"}
    pen = Pen(text=text, font_name=font, font_size=size, color=(1, 1, 1, 1), **how)
    pen.refresh()
    return pen


class Text(Widget):
    """Lines already broken by the ruler. `problem` says what did not fit, if anything.

    No label of Kivy's: those write a text anew whenever they show another one. In the middle of
    its box it is written with no limit in height: Kivy drops a line of a text that is set in the
    middle and fits exactly.
    """

    valign, line_height = "top", 1.0

    def __init__(self) -> None:
        super().__init__()
        self._ink, self._area = Color(), Rectangle()
        self.canvas.add(self._ink)
        self.canvas.add(self._area)
        self.text = self.font_name = self.problem = ""
        self.font_size, self.halign = 1, "left"
        self.text_size: Limits = (0.0, None)
        self.pen: Pen | None = None

    @property
    def texture_size(self) -> tuple[int, int]:
        """Pixels that what is written takes."""
        return self.pen.size if self.pen and self.text.strip() else (0, 0)

    @property
    def color(self) -> tuple[float, ...]:
        """Red, green, blue and opacity of the letters, from 0 to 1."""
        return tuple(self._ink.rgba)

    def show(self, done: Set, ink: str, align: str = "left", valign: str = "middle") -> None:
        """Show a set text; its place and size have been given to the widget before."""
        self.font_name, self.font_size, self.halign = done.font, done.size, align
        self.text_size = (self.width, self.height if valign == "top" else None)
        self.text = "\n".join(done.lines)
        self.problem = self._problem(done)
        self.pen = written(self.text, done.font, done.size, self.text_size, align)
        self.tint(ink)
        self._lay()

    def tint(self, ink: str) -> None:
        """Give the letters another colour."""
        self._ink.rgba = colour(ink)

    def _lay(self) -> None:
        """Lay what is written into the middle of the box."""
        width, height = self.texture_size
        self._area.texture = self.pen.texture if self.pen and width else None
        self._area.size = (width, height)
        self._area.pos = (int(self.center_x - width / 2), int(self.center_y - height / 2))

    def _problem(self, done: Set) -> str:
        if done.broken:
            return f"the word {done.broken!r} is too long for its box"
        widest = max((width_of(line, done.font, done.size) for line in done.lines), default=0)
        if widest > self.width + 1 or done.height > self.height + 1:
            return f"{self.text!r} does not fit its box"
        return ""
