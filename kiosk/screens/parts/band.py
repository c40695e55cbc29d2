"""The ground of the band under the head; flashes by swapping its two colours."""

from __future__ import annotations

from kivy.graphics import Color, Rectangle
from kivy.uix.widget import Widget

from kiosk.screens.parts.every import Every
from kiosk.screens.parts.mark import Mark
from kiosk.screens.parts.text import Text
from kiosk.screens.theme import colour

LOOKS = {
    "adult": ("adult", "paper", "alert"),
    "caution": ("caution", "ink", "caution"),
    "stop": ("stop", "paper", "halt"),
}
HALF_SECOND = 0.5  # swapped twice a second: one flash a second


class BandGround(Widget):
    """Owns the band's colours, and those of the sign and the text that stand on it."""

    def __init__(self) -> None:
        super().__init__()
        self._ground, self._area = Color(), Rectangle()
        self.canvas.add(self._ground)
        self.canvas.add(self._area)
        self._look, self._swapped = "adult", False
        self._parts: tuple[Mark, Text] | None = None
        self.bind(parent=self._left)
        self._flashing = Every(self._swap, HALF_SECOND)

    def show(self, look: str, mark: Mark, text: Text, flash: bool) -> None:
        """Paint the band in the colours of `look`; `flash` swaps them once a second."""
        self._look, self._parts = look, (mark, text)
        if flash:
            self._flashing.start()
        else:
            self.still()
        self._colour()

    def still(self) -> None:
        """End the flashing."""
        self._swapped = False
        self._flashing.stop()

    def _left(self, _band: Widget, parent: object) -> None:
        """A band that is shown no longer does not flash either."""
        if parent is None:
            self.still()

    def _swap(self) -> None:
        self._swapped = not self._swapped
        self._colour()

    def _colour(self) -> None:
        ground, ink, sign = LOOKS.get(self._look, LOOKS["adult"])
        if self._swapped:
            ground, ink = ink, ground
        self._ground.rgba = colour(ground)
        self._area.pos, self._area.size = self.pos, self.size
        if self._parts:
            mark, text = self._parts
            mark.show(sign, ink, ground)
            text.tint(ink)
