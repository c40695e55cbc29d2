"""How the bench strip looks: a dark band, plainly not part of the kiosk."""

from __future__ import annotations

from functools import partial
from typing import Any, Protocol

from kivy.clock import Clock
from kivy.graphics import Color, Rectangle, RoundedRectangle
from kivy.input import MotionEvent
from kivy.uix.label import Label
from kivy.uix.widget import Widget

from kiosk.drawings.fonts import fonts

GROUND, PLATE, LIT = (0.13, 0.14, 0.16, 1), (0.27, 0.29, 0.32, 1), (0.72, 0.47, 0.08, 1)
INK = (0.95, 0.95, 0.93, 1)
GAP, HEAD = 8, 44


class Acts(Protocol):
    """What the strip asks of the bench."""

    state: dict[str, Any]

    def act(self, name: str) -> None: ...


class Key(Widget):
    """One act: lit while what it stands for is so."""

    def __init__(self, words: str, act: Any) -> None:
        super().__init__()
        self._act = act
        with self.canvas:
            self._colour = Color(*PLATE)
            self._plate = RoundedRectangle(radius=[6])
        self.words = Label(text=words, font_name=fonts().of(600), font_size=19, color=INK)
        self.add_widget(self.words)
        self.bind(pos=self._place, size=self._place)

    def _place(self, *_: object) -> None:
        self._plate.pos, self._plate.size = self.pos, self.size
        self.words.pos, self.words.size = self.pos, self.size

    def light(self, lit: bool) -> None:
        """Show whether it is so."""
        self._colour.rgba = LIT if lit else PLATE

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """The hand acts."""
        if not self.collide_point(*touch.pos):
            return False
        self._act()
        return True


class Strip(Widget):
    """The bench under the panel."""

    def __init__(
        self, bench: Acts, pins: str, acts: tuple[tuple[str, str], ...], columns: int
    ) -> None:
        super().__init__()
        self._bench, self._columns = bench, columns
        with self.canvas.before:
            Color(*GROUND)
            self._ground = Rectangle()
        self.words = Label(font_name=fonts().of(400), font_size=19, color=INK, halign="left")
        self._pins = pins
        self.add_widget(self.words)
        self.keys = {name: Key(words, partial(bench.act, name)) for name, words in acts}
        for key in self.keys.values():
            self.add_widget(key)
        self.bind(pos=self._place, size=self._place)
        Clock.schedule_interval(self._look, 0.1)

    def _place(self, *_: object) -> None:
        self._ground.pos, self._ground.size = self.pos, self.size
        self.words.pos, self.words.size = (self.x + 14, self.top - HEAD), (self.width - 28, HEAD)
        self.words.text_size = self.words.size
        rows = -(-len(self.keys) // self._columns)
        wide = (self.width - GAP * (self._columns + 1)) / self._columns
        high = (self.height - HEAD - GAP * rows) / rows
        for at, key in enumerate(self.keys.values()):
            row, column = divmod(at, self._columns)
            key.size = (wide, high)
            key.pos = (
                self.x + GAP + column * (wide + GAP),
                self.top - HEAD - (row + 1) * high - row * GAP,
            )

    def _look(self, _dt: float) -> None:
        """Show how the bench stands."""
        state = self._bench.state
        turning = "turning" if state.get("turning") else "still"
        knob = {"on": "I", "off": "O"}.get(str(state.get("knob")), "between O and I")
        self.words.text = f"Bench: isolator at {knob}, drill {turning}.   PINs: {self._pins}"
        self.words.valign = "middle"
        for name, key in self.keys.items():
            key.light(bool(state.get(name)))
        if answer := self.keys.get("answer"):
            answer.words.text = str(state.get("answer") or "Next answer").replace("_", " ")
