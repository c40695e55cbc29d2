"""The kiosk's panel: draws a View and sends back the touch of a finger."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, replace

from kivy.input import MotionEvent
from kivy.uix.widget import Widget

from kiosk.core.inputs import BadgeRead, Touch, Touched
from kiosk.core.view import AT_REST, Head, Picture, View
from kiosk.drawings.fonts import Fonts, fonts
from kiosk.drawings.shapes import Drawing
from kiosk.screens.finger import Finger
from kiosk.screens.labels import Labels
from kiosk.screens.layouts import put
from kiosk.screens.layouts.asides import open_aside
from kiosk.screens.layouts.stage import Draw, Stage
from kiosk.screens.parts.ruler import Ruler
from kiosk.screens.rest import Rest
from kiosk.screens.theme import LARGE, Panel, Theme

NOBODY = Head("", "none", "", "", None)


@dataclass(frozen=True)
class Spot:
    """A target as a person sees it; `x` and `y` in pixels from the panel's top left."""

    words: str
    look: str
    x: int
    y: int


class Face(Widget):
    """Shows one View at a time. `post` gets the touches; `now` gives seconds that never step.

    `draw` gives the way of drawing with numbers in a language. `posted` is told of every touch
    after `post` has returned. `speak` is told of each view, to read it aloud if it is to be.
    """

    def __init__(
        self,
        panel: Panel,
        post: Callable[[Touched], None],
        *,
        letters: Fonts | None = None,
        labels: Labels | None = None,
        draw: Callable[[str], Draw] | None = None,
        scale: float = 1.0,
        left: bool = False,
        speak: Callable[[View], None] | None = None,
        now: Callable[[], float] = time.monotonic,
    ) -> None:
        super().__init__(size=(panel.width_px, panel.height_px), size_hint=(None, None))
        self.panel, self.view = panel, View("idle", NOBODY)
        self._post, self._scale, self._left, self._draw_in = post, scale, left, draw
        self._drawers: dict[str, Draw] = {}
        self.fresh = False  # drawn anew since somebody last looked
        self.posted: Callable[[Touched], None] | None = None
        self._labels = labels or Labels()
        self.finger = Finger(now)
        self.stage = Stage(self, Ruler(letters or fonts()), _draw, self._labels)
        self.stage.send, self.stage.again = self._send, self._again
        self.stage.turned = self._turned
        self.rest = Rest(now)
        self._speak = speak or _silent
        self.stage.speak = self._read_out if speak else None

    # --- drawing ---

    def show(self, view: View) -> None:
        """Draw a view, and drop the touch on what has gone."""
        before, self.view = self.view, view
        changed = scene(before) != scene(view)
        if changed:
            self.finger.quieten()
            self.rest.pause(0)
            self._forget(before, view)
        elif before.number != view.number and self.stage.typed.sent:
            self.stage.typed.clear_pin()
        self._again()
        self.finger.settle(changed)
        if changed:
            self._speak(view)

    def _read_out(self) -> None:
        """Have what stands on the panel read, be it the view or what lies over it."""
        aside = open_aside(self.stage, self.view)
        view = self.view
        if aside is not None:
            view = replace(view, title=aside.title, lines=aside.lines, note="", buttons=())
        self._speak(view)

    def _forget(self, before: View, view: View) -> None:
        """Forget what was typed for another screen, keep it where only an answer came."""
        typed = self.stage.typed
        if (before.screen, before.pad, before.keys) != (view.screen, view.pad, view.keys):
            typed.clear()
        elif before.number != view.number:
            typed.clear_pin()
        if before.lines != view.lines or _touches(before) != _touches(view):
            typed.page = typed.seen = 0
        if typed.aside >= 0:
            typed.open_aside(-1)

    def _again(self) -> None:
        view, stage = self.view, self.stage
        scale = max(self._scale, LARGE if view.large else 1.0)
        stage.waited, self.finger.held_s = self.rest.waited, self.rest.hold_s
        if self._draw_in:
            stage.draw_with(self._drawer(view.language))
        stage.begin(Theme(self.panel, scale), view.left or self._left)
        put(stage, view)
        if self.rest.is_dim:
            stage.shade()
        stage.end()
        self.fresh = True

    def _drawer(self, language: str) -> Draw:
        """The way of drawing in a language, always the same one."""
        if language not in self._drawers and self._draw_in:
            self._drawers[language] = self._draw_in(language)
        return self._drawers[language]

    def _turned(self) -> None:
        self.finger.quieten()
        aside = open_aside(self.stage, self.view)
        self.rest.pause(aside.seconds if aside else 0)
        self._again()
        if aside:
            self._read_out()

    def beat(self) -> None:
        """Time goes by: a pause to wipe the screen ends, a screen that nobody uses is dimmed."""
        if self.rest.ends_now:
            self.stage.open_aside(-1)
        elif self.rest.moves_on(self.view.screen in AT_REST and not self.view.flash):
            self._again()

    def show_fault(self) -> None:
        """Say plainly that the screen is at fault; needs nothing of the view but its number."""
        title, lines = self._labels.fault_title, self._labels.fault_lines
        self.show(View("record_fault", NOBODY, title, lines, number=self.view.number))

    def spots(self) -> tuple[Spot, ...]:
        """Every target that answers, by its words, its look and its middle on the panel."""
        live = (target for target in self.stage.targets if target.live)
        return tuple(
            Spot(t.words, t.look, round(t.center_x - self.x), round(self.top - t.center_y))
            for t in live
        )

    # --- touching ---

    def _send(self, touch: Touch) -> None:
        self.finger.quieten()
        touched = Touched(self.view.number, touch)
        self._post(touched)
        if self.posted is not None:
            self.posted(touched)

    def badge(self, digits: str) -> None:
        """A reader has typed a badge: it counts on the screen that stands."""
        self._send(BadgeRead(digits))

    def on_touch_down(self, touch: MotionEvent) -> bool:
        """A finger comes down on the panel."""
        if not self.collide_point(*touch.pos):
            return False
        if getattr(touch, "button", None) in (None, "left"):
            targets = [t for t in self.stage.targets if t.steady or not self.rest.is_dim]
            self.finger.down(touch.uid, touch.pos, targets)
            self._wake()
        return True

    def _wake(self) -> None:
        """A touch lights a dimmed screen, and does no more unless something is wrong."""
        if self.rest.end():
            self._again()

    def on_touch_move(self, touch: MotionEvent) -> bool:
        """A finger moves."""
        self.finger.move(touch.uid, touch.pos)
        return False

    def on_touch_up(self, touch: MotionEvent) -> bool:
        """A finger is lifted."""
        target = self.finger.up(touch.uid, touch.pos)
        if target is not None:
            target.act()
        return False


def scene(view: View) -> View:
    """A view without what can change under a finger without harm."""
    told = replace(NOBODY, wrong=view.head.wrong, stop=view.head.stop)
    return replace(view, head=told, progress=None, unsaved="", flash=False, number=0, seq=0)


def _touches(view: View) -> tuple[Touch, ...]:
    """What the choices do: with the same ones a list stays on its page, whichever is ticked."""
    return tuple(choice.touch for choice in view.choices)


def _silent(_view: View) -> None:
    """Nobody reads aloud."""


def _draw(picture: Picture, width: float, height: float) -> Drawing:
    from kiosk.drawings import draw

    return draw(picture, width, height)
