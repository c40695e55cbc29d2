"""A small app for the tests: shows one view, prints what happens, ends on SIGTERM."""

from __future__ import annotations

import sys
import time

from kiosk.core.inputs import Touched
from kiosk.core.view import View
from kiosk.screens.app import NoScreen, Source, Stages, run
from kiosk.screens.theme import SEVEN_INCH
from tests.screens.gallery import views


def say(*words: object) -> None:
    print(*words, flush=True)


def stages(source: Source, stuck: bool) -> Stages:
    yield 0.5
    say("opening")
    if stuck:
        raise OSError("no record to be had")
    yield source


def main(faulty: bool, stuck: bool) -> int:
    known = views()
    now = [known["step_plain"]]

    def post(touched: Touched) -> None:
        say("touch", type(touched.touch).__name__)
        now[0] = broken(known["idle"]) if faulty else known["idle"]

    def shown(view: View, _face: object) -> None:
        say("shown", view.screen)

    began: list[float] = []

    def ready() -> None:
        began.append(time.monotonic())

    def beat() -> None:
        """Say that touches are no longer ignored."""
        from kiosk.screens.finger import QUIET_S  # after Kivy is told to write nothing

        if began and time.monotonic() - began[0] > 2 * QUIET_S:
            began.clear()
            say("ready")

    ways = {"on_ready": ready, "shown": shown, "on_beat": beat}
    try:
        opening = stages(Source(lambda: now[0], post), stuck)
        code = run(opening, SEVEN_INCH, title="test", **ways)
    except NoScreen as no:
        say("refused", no)
        return 3
    say("ended", code)
    return code


def broken(view: View) -> View:
    """A view whose drawing must fail."""
    from dataclasses import replace

    return replace(view, screen="no such screen")


if __name__ == "__main__":
    sys.exit(main("faulty" in sys.argv, "stuck" in sys.argv))
