"""Whatever can be touched: it shows the press at once and does nothing else by itself.

It is no Kivy button. Those act on the wall clock, fire after their screen has gone, and fire
when disabled under the finger; here `finger` decides on one touch at a time.
"""

from __future__ import annotations

from collections.abc import Callable

from kivy.uix.widget import Widget

from kiosk.screens.parts.mark import Mark
from kiosk.screens.parts.plates import PlatePaint
from kiosk.screens.parts.sheet import Sheet
from kiosk.screens.parts.text import Text
from kiosk.screens.theme import TARGET_MM

# look: fill, edge, ink, fill while pressed
LOOKS = {
    "main": ("action", "action", "paper", "action_down"),
    "adult": ("adult", "adult", "paper", "adult_down"),
    "plain": ("paper", "edge", "ink", "action_pale"),
    "choice": ("paper", "edge", "ink", "action_pale"),
    "number": ("paper", "edge", "ink", "action_pale"),
    "danger": ("paper", "stop", "stop", "stop_pale"),
    "still": ("paper", "edge", "ink", "action_pale"),
    "picked": ("action_pale", "action", "ink", "paper"),
    "key": ("paper", "edge", "ink", "action_pale"),
    "words": ("none", "none", "ink", "action_pale"),
}
PALE = ("chalk", "line", "pale", "chalk")


def nothing() -> None:
    """Do nothing: what a target does before it is told."""


class Press(Widget):
    """A target with a plate, and a label, a drawing or a sign on it.

    `act` is called by `finger` when a touch that began here ends here. `steady` targets stand
    in the same place on every view and are never ignored after a change. `local` ones send
    nothing out of the screens. Texts may stand over one that `is_behind` them.
    """

    def __init__(self) -> None:
        super().__init__()
        self._paint = PlatePaint()
        self.canvas.add(self._paint)
        self.label, self.sheet, self.mark = Text(), Sheet(), Mark()
        self.act: Callable[[], None] = nothing
        self.live, self.steady, self.local = True, False, False
        self.is_behind = False
        self.least_mm = TARGET_MM
        self.pressed = self.refused = False
        self._look, self.inset, self._radius, self._edge = "plain", (0.0, 0.0), 8.0, 2.0

    def show(self, look: str, live: bool, act: Callable[[], None]) -> None:
        """Become a target of this look; the label, drawing or sign is placed by the stage."""
        self._look, self.live, self.act = look, live, act
        self.least_mm, self.steady, self.local = TARGET_MM, False, False
        self.is_behind = False
        self.pressed = self.refused = False
        self.inset = (0.0, 0.0)

    def shape(self, radius: float, edge: float, inset: tuple[float, float] = (0.0, 0.0)) -> None:
        """Give the plate its corners and edge; `inset` (below, above) makes it lower."""
        self._radius, self._edge, self.inset = radius, edge, inset
        self.paint()

    def feel(self, pressed: bool, refused: bool = False) -> None:
        """Show that a finger is on it, or that the touch is refused."""
        if (pressed, refused) != (self.pressed, self.refused):
            self.pressed, self.refused = pressed, refused
            self.paint()

    @property
    def look(self) -> str:
        """What it looks like: a name of `LOOKS`."""
        return self._look

    @property
    def words(self) -> str:
        """What stands on it, in one line."""
        return " ".join(self.label.text.split()) if self.label.parent else ""

    @property
    def ink(self) -> str:
        """The colour of what stands on it."""
        return self._colours()[2]

    def _colours(self) -> tuple[str, str, str, str]:
        return LOOKS.get(self._look, LOOKS["plain"]) if self.live else PALE

    def paint(self) -> None:
        """Paint the plate as it now is."""
        fill, edge, ink, down = self._colours()
        width = self._edge
        if self.refused:
            edge, width = "caution_deep", self._edge * 2.5
        elif self.pressed:
            fill, edge = down, "action" if down == "action_pale" else edge
        self._paint.show(fill, edge)
        below, above = self.inset
        pos, size = (self.x, self.y + below), (self.width, self.height - below - above)
        self._paint.place(pos, size, self._radius, width)
        self.label.tint(ink)
