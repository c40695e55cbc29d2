"""A hand at a panel: touches go through Kivy's own input, time moves when told."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import Any

from kivy.base import EventLoop
from kivy.input import MotionEvent

from kiosk.core.inputs import Touched
from kiosk.core.view import Picture, View
from kiosk.drawings import draw
from kiosk.drawings.shapes import Drawing
from kiosk.screens.face import Face
from kiosk.screens.parts.press import Press
from kiosk.screens.theme import SEVEN_INCH, Panel
from tests.core.story import WORDS


class Tip(MotionEvent):
    """A finger's tip as a touch of Kivy's."""

    def __init__(self, uid: int, x: float, y: float, window: Any) -> None:
        super().__init__("hand", uid, (x / (window.width - 1), y / (window.height - 1)))
        self.is_touch, self.type_id = True, "touch"

    def depack(self, args: tuple[float, float]) -> None:
        self.sx, self.sy = args
        self.profile = ("pos",)
        super().depack(args)


def drawn_in(language: str) -> Callable[[Picture, float, float], Drawing]:
    """Drawings with their words and numbers in a language, as the app makes them."""
    return partial(draw, words=WORDS.of(language))


class Hand:
    """A panel in the window, and what it has posted. `seconds` is its clock."""

    def __init__(
        self,
        window: Any,
        panel: Panel = SEVEN_INCH,
        scale: float = 1.0,
        view: View | None = None,
        left: bool = False,
    ) -> None:
        self.window, self.seconds = window, 100.0
        self.posted: list[Touched] = []
        self.heard: list[View] = []
        told = {"scale": scale, "left": left, "speak": self.heard.append, "now": self.now}
        self.face = Face(panel, self.posted.append, draw=drawn_in, **told)
        EventLoop.ensure_window()
        EventLoop.status = "started"
        window.add_widget(self.face)
        if view is not None:
            self.show(view)
            self.wait(1.0)

    def now(self) -> float:
        return self.seconds

    def wait(self, seconds: float) -> None:
        self.seconds += seconds

    def show(self, view: View) -> None:
        self.face.show(view)
        self.frame()

    def frame(self) -> None:
        EventLoop.idle()

    def leave(self) -> None:
        self.window.remove_widget(self.face)

    # --- finding and touching ---

    def target(self, words: str) -> Press:
        found = [target for target in self.face.stage.targets if target.words == words]
        assert found, f"no target {words!r} among {[t.words for t in self.face.stage.targets]}"
        return found[0]

    def down(self, words: str | Press, uid: int = 1) -> Tip:
        target = self.target(words) if isinstance(words, str) else words
        tip = Tip(uid, *target.center, self.window)
        self.feel("begin", tip)
        return tip

    def up(self, tip: Tip) -> None:
        self.feel("end", tip)

    def feel(self, what: str, tip: Tip) -> None:
        EventLoop._dispatch_input(what, tip)
        self.frame()

    def tap(self, words: str | Press) -> None:
        self.up(self.down(words))

    @property
    def touches(self) -> list[object]:
        return [posted.touch for posted in self.posted]
