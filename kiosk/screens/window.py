"""Kivy's own application: one window, one panel in it, and nothing that Kivy would add."""

from __future__ import annotations

import logging
import signal
import time
from collections import deque
from collections.abc import Callable
from typing import TYPE_CHECKING

from kivy.app import App
from kivy.base import ExceptionHandler, ExceptionManager
from kivy.clock import Clock
from kivy.core.window import Window
from kivy.event import EventDispatcher
from kivy.graphics.opengl import GL_RENDERER, GL_VERSION, glGetString
from kivy.uix.widget import Widget

from kiosk.screens.opening import Opening
from kiosk.screens.parts.every import Every
from kiosk.screens.reader import Reader
from kiosk.screens.source import LOOK_S, MOST_FAULTS, Source, Stages
from kiosk.screens.start import refuse_old, refuse_unseen
from kiosk.screens.theme import Panel, colour

if TYPE_CHECKING:
    from kiosk.core.inputs import Touched
    from kiosk.core.view import View
    from kiosk.screens.face import Face

LOG = logging.getLogger(__name__)

QUICK_S = 0.2  # in a start no frame is drawn for what takes no longer
OFTEN_S = 1 / 25  # how often the latest View is asked for where there may be another one soon


class Faults(ExceptionHandler):
    """Counts errors in callbacks, has the fault screen shown, and gives up if they don't end."""

    def __init__(self, show: Callable[[], None]) -> None:
        self._show = show
        self._times: deque[float] = deque(maxlen=MOST_FAULTS)

    @property
    def count(self) -> int:
        """How many of the last errors are kept in mind."""
        return len(self._times)

    def handle_exception(self, error: BaseException) -> int:
        """Called by Kivy with whatever a callback raised."""
        if not isinstance(error, Exception):
            return ExceptionManager.RAISE
        LOG.error("an error in the screens", exc_info=error)
        return ExceptionManager.PASS if self.note() else ExceptionManager.RAISE

    def note(self) -> bool:
        """Count one error and show the fault screen; False if there were too many."""
        now = time.monotonic()
        self._times.append(now)
        if len(self._times) == MOST_FAULTS and now - self._times[0] < 60:
            return False
        try:
            self._show()
        except Exception:
            LOG.exception("the fault screen failed too")
            return False
        return True


def _nothing(_dt: float) -> None:
    """What is due is only that a frame comes."""


def answer_at_once(window: EventDispatcher) -> None:
    """Have the frame after a finger came down or was lifted begin at once, not at its turn.

    Kivy reads the window's events after a frame and gives touches out in the next one, for which
    its clock waits unless something is due.
    """
    due = Clock.create_trigger(_nothing)

    def felt(*_: object) -> None:
        due()

    window.bind(on_mouse_down=felt, on_mouse_up=felt)


class KioskApp(App):
    """Shows the opening, then what its source gives, above a strip if there is one.

    `make_face` makes the panel once the source is there.
    """

    use_kivy_settings = False

    def __init__(
        self,
        panel: Panel,
        stages: Stages,
        make_face: Callable[[Source], Face],
        *,
        title: str,
        embed: Callable[[], Widget] | None = None,
    ) -> None:
        super().__init__()
        self.title = title
        self.on_ready: Callable[[], None] | None = None
        self.on_beat: Callable[[], None] | None = None
        self.shown: Callable[[View, Face], None] | None = None
        self.faults = Faults(self._show_fault)
        self._stages, self._make_face, self._embed = stages, make_face, embed
        self._opening = Opening(panel)
        self._source: Source | None = None
        self._face: Face | None = None
        self._last: View | None = None
        self._ready = self._opening_stood = False
        self._open = Clock.create_trigger(self._open_further)
        self._look = Every(self._poll, LOOK_S, self._failed)
        self._news = Clock.create_trigger(self._called)
        self._soon = Clock.create_trigger(self._called, OFTEN_S)
        self._code = 0
        self._error: Exception | None = None
        self._reader = Reader(self._badge, time.monotonic)

    # --- beginning and end ---

    def run_to_end(self) -> int:
        """Run until stopped; 0 after an orderly end, 1 after too many errors.

        Raises what a stage of the start has raised.
        """
        signal.signal(signal.SIGTERM, self._asked_to_end)
        ExceptionManager.add_handler(self.faults)
        try:
            self.run()
        except Exception:
            LOG.exception("the screens ended with an error")
            self._code = 1
        finally:
            ExceptionManager.remove_handler(self.faults)
        if self._error is not None:
            raise self._error
        return self._code

    def build(self) -> Widget:
        """The panel, with the strip under it."""
        refuse_unseen()
        refuse_old(*(glGetString(name).decode() for name in (GL_VERSION, GL_RENDERER)))
        Window.clearcolor = colour("chalk")
        root = Widget()
        strip = self._embed() if self._embed else None
        if strip is not None:
            strip.size = (Window.width, Window.height - self._opening.height)
            strip.pos = (0, 0)
            root.add_widget(strip)
        self._opening.pos = (0, Window.height - self._opening.height)
        root.add_widget(self._opening)
        return root

    def on_start(self) -> None:
        """Answer keys; the start goes on once a frame stands."""
        Window.bind(on_flip=self._flipped, on_key_down=self._key)
        answer_at_once(Window)

    def _open_further(self, _dt: float) -> None:
        """The next stages of the start, as many as are quick; after the last one the first View."""
        until = time.monotonic() + QUICK_S
        try:
            stage = next(self._stages)
            while not isinstance(stage, Source) and time.monotonic() < until:
                stage = next(self._stages)
            if isinstance(stage, Source):
                self._begin(stage)
            else:
                self._opening.show(stage)
                self._open()
        except Exception as error:
            self._error = error
            self.stop()

    def _begin(self, source: Source) -> None:
        """Put the panel in place of the opening, and begin to look for Views."""
        self._source, self._face = source, self._make_face(source)
        self._face.posted, self._face.pos = self._answered, self._opening.pos
        self.root.remove_widget(self._opening)
        self.root.add_widget(self._face)
        source.listen(self._news)
        self._poll()
        self._look.start()

    def _key(self, _window: object, code: int, _scan: int, letter: str | None, *_: object) -> bool:
        """Keys are a badge reader's and nobody else's."""
        self._reader.key(code, letter)
        return True

    def _badge(self, digits: str) -> None:
        if self._face is not None:
            self._face.badge(digits)

    def open_settings(self, *_args: object) -> bool:
        """F1 opens nothing."""
        return False

    def _asked_to_end(self, _signal: int, _frame: object) -> None:
        Clock.schedule_once(self._end)

    def _end(self, _dt: float) -> None:
        self.stop()

    # --- showing ---

    def _poll(self) -> None:
        """Draw the latest View if it is another one than the last."""
        if self._source is None or self._face is None:
            return
        if self.on_beat is not None:
            self.on_beat()
        self._take(self._face, self._source.latest())
        self._face.beat()
        if self._source.restless():
            self._soon()

    def _called(self, _dt: float) -> None:
        self._poll()

    def _take(self, face: Face, view: View) -> bool:
        if view is self._last or view == self._last:
            return False
        self._last = view
        try:
            face.show(view)
        except Exception:
            LOG.exception("view %s could not be drawn", view.screen)
            self._failed()
        return True

    def _failed(self) -> None:
        """An error was kept: say so, and end the process if there is no end of them."""
        if not self.faults.note():
            self._code = 1
            self.stop()

    def _answered(self, _touched: Touched) -> None:
        """After a touch: show its answer if it has come already, or look out for it."""
        if self._source is None or self._face is None:
            return
        if not self._take(self._face, self._source.latest()):
            self._soon()

    def _show_fault(self) -> None:
        if self._face is not None:
            self._face.show_fault()

    def _flipped(self, _window: object) -> None:
        """A frame stands on the screen: tell of the View that it shows."""
        if self._face is None:
            if not self._opening_stood:
                self._opening_stood = True
                self._open()
            return
        drawn, self._face.fresh = self._face.fresh, False
        if drawn and self._last is not None and self.shown is not None:
            self.shown(self._last, self._face)
        if not self._ready and self._last is not None:
            self._ready = True
            if self.on_ready is not None:
                self.on_ready()
