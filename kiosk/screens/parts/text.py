"""A text that never runs out of its box: set beforehand, and drawn as it was set."""

from __future__ import annotations

from kivy.uix.label import Label

from kiosk.screens.parts.ruler import Set, width_of
from kiosk.screens.theme import colour


class Text(Label):
    """Lines already broken by the ruler. `problem` says what did not fit, if anything.

    In the middle of its box it is drawn with no limit in height: Kivy drops a line of a text
    that is set in the middle and fits exactly.
    """

    def __init__(self) -> None:
        super().__init__(markup=False, shorten=False)
        self.problem = ""

    def show(self, done: Set, ink: str, align: str = "left", valign: str = "middle") -> None:
        """Show a set text; its size has been given to the widget before."""
        self.font_name, self.font_size = done.font, done.size
        self.halign, self.valign = align, "top"
        self.text_size = (self.width, self.height if valign == "top" else None)
        self.color = colour(ink)
        self.text = "\n".join(done.lines)
        self.problem = self._problem(done)

    def _problem(self, done: Set) -> str:
        if done.broken:
            return f"the word {done.broken!r} is too long for its box"
        widest = max((width_of(line, done.font, done.size) for line in done.lines), default=0)
        if widest > self.width + 1 or done.height > self.height + 1:
            return f"{self.text!r} does not fit its box"
        return ""
