"""A small app for the tests: shows one view, prints what happens, ends on SIGTERM."""

from __future__ import annotations

import sys

from kiosk.core.inputs import Touched
from kiosk.core.view import View
from kiosk.screens.app import NoScreen, run
from kiosk.screens.gallery import views
from kiosk.screens.theme import SEVEN_INCH


def say(*words: object) -> None:
    print(*words, flush=True)


def main(faulty: bool) -> int:
    known = views()
    now = [known["step_plain"]]

    def post(touched: Touched) -> None:
        say("touch", type(touched.touch).__name__)
        now[0] = broken(known["idle"]) if faulty else known["idle"]

    def shown(view: View, _face: object) -> None:
        say("shown", view.screen)

    def ready() -> None:
        say("ready")

    try:
        code = run(lambda: now[0], post, SEVEN_INCH, title="test", on_ready=ready, shown=shown)
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
    sys.exit(main("faulty" in sys.argv))
