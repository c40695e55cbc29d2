"""What stands until the kiosk is ready: the drill, and a bar that fills. It needs no words."""

from __future__ import annotations

from kivy.uix.widget import Widget

from kiosk.screens.parts.emblem import Emblem
from kiosk.screens.parts.gauge import Gauge
from kiosk.screens.theme import Panel, Theme

SIGN_MM, BAR_MM, BEGUN = 44.0, (70.0, 5.2), 0.08


class Opening(Widget):
    """Nothing on it can be touched. It has the panel's size."""

    def __init__(self, panel: Panel) -> None:
        super().__init__(size=(panel.width_px, panel.height_px), size_hint=(None, None))
        self._theme = Theme(panel)
        self._sign, self._bar = Emblem(), Gauge()
        self.add_widget(self._sign)
        self.add_widget(self._bar)
        self.bind(pos=self._place)
        self._place()

    def _place(self, *_: object) -> None:
        side = self._theme.room(SIGN_MM)
        width, height = (self._theme.room(length) for length in BAR_MM)
        low = round(self.center_y - (side + 3 * height) / 2)
        self._bar.size, self._bar.pos = (width, height), (round(self.center_x - width / 2), low)
        self._sign.size = (side, side)
        self._sign.pos = (round(self.center_x - side / 2), low + 3 * height)
        self._sign.show("drill")
        self.show(BEGUN)

    def show(self, part: float) -> None:
        """Fill the bar to a part of the whole."""
        self._bar.show(round(part * 100), 100)
