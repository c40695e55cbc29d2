"""A small app for the tests: shows one view, prints what happens, ends on SIGTERM.

`faulty`: the second view can't be drawn. `stuck`: the start fails. `elsewhere`: the second view
comes from another thread. `full`: full screen on the larger panel.
"""

from __future__ import annotations

import sys
import threading
import time
from collections.abc import Callable, Container

from kiosk.core.inputs import Touched
from kiosk.core.view import View
from kiosk.screens.app import NoScreen, Source, Stages, run
from kiosk.screens.theme import SEVEN_INCH, TEN_INCH
from tests.screens.gallery import views


def say(*words: object) -> None:
    print(*words, flush=True)


def stages(source: Source, stuck: bool) -> Stages:
    yield 0.5
    say("opening")
    if stuck:
        raise OSError("no record to be had")
    yield source


class Played:
    """What stands on the screen, and what is said of it."""

    def __init__(self, ways: Container[str]) -> None:
        self.ways, self.known = ways, views()
        self.now = self.known["step_plain"]
        self.told: list[Callable[[], None]] = []
        self.began = 0.0

    def post(self, touched: Touched) -> None:
        say("touch", type(touched.touch).__name__)
        if "elsewhere" in self.ways:
            threading.Thread(target=self.answer).start()
        else:
            self.answer()

    def answer(self) -> None:
        idle = self.known["idle"]
        self.now = broken(idle) if "faulty" in self.ways else idle
        for news in self.told:
            news()

    def shown(self, view: View, _face: object) -> None:
        thread = threading.current_thread()
        say("shown", view.screen, *([] if thread is threading.main_thread() else [thread.name]))

    def ready(self) -> None:
        self.began = time.monotonic()

    def beat(self) -> None:
        """Say that touches are no longer ignored."""
        from kiosk.screens.finger import QUIET_S  # after Kivy is told to write nothing

        if self.began and time.monotonic() - self.began > 2 * QUIET_S:
            self.began = 0.0
            say("inputs", *inputs())
            say("ready")


def main(ways: Container[str]) -> int:
    played, full = Played(ways), "full" in ways
    source = Source(lambda: played.now, played.post, played.told.append)
    heard = {"on_ready": played.ready, "shown": played.shown, "on_beat": played.beat}
    try:
        opening, panel = stages(source, "stuck" in ways), TEN_INCH if full else SEVEN_INCH
        code = run(opening, panel, title="test", fullscreen=full, **heard)
    except NoScreen as no:
        say("refused", no)
        return 3
    say("ended", code)
    return code


def inputs() -> list[str]:
    """What Kivy reads touches from."""
    from kivy.base import EventLoop

    return [type(provider).__name__ for provider in EventLoop.input_providers]


def broken(view: View) -> View:
    """A view whose drawing must fail."""
    from dataclasses import replace

    return replace(view, screen="no such screen")


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
