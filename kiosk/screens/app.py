"""Runs the kiosk's window: shows the latest View, posts touches, survives its own faults."""

from __future__ import annotations

import logging
from collections.abc import Callable
from typing import TYPE_CHECKING

from kiosk.core.inputs import Touched
from kiosk.core.view import Picture, View
from kiosk.drawings.shapes import Drawing
from kiosk.screens.labels import Labels
from kiosk.screens.start import NoScreen, set_config, set_environment, size_of
from kiosk.screens.theme import Panel

if TYPE_CHECKING:
    from kivy.uix.widget import Widget

    from kiosk.screens.face import Face

LOG = logging.getLogger(__name__)


def run(
    latest: Callable[[], View],
    post: Callable[[Touched], None],
    panel: Panel,
    *,
    title: str,
    embed: Callable[[], Widget] | None = None,
    on_ready: Callable[[], None] | None = None,
    shown: Callable[[View, Face], None] | None = None,
    labels: Labels | None = None,
    draw: Callable[[str], Callable[[Picture, float, float], Drawing]] | None = None,
    scale: float = 1.0,
    left: bool = False,
    fullscreen: bool = False,
    embed_height: int = 0,
    on_beat: Callable[[], None] | None = None,
    listen: Callable[[Callable[[], None]], None] | None = None,
    restless: Callable[[], bool] | None = None,
    speak: Callable[[View], None] | None = None,
) -> int:
    """Show the kiosk until it is told to end; returns the process's exit code.

    `latest` gives the View to show and `post` takes a touch; both return at once. `listen` is
    given what to call, from any thread, when there is another View; without it, and while
    `restless` says that there may be one without a call, it is asked for often. `embed` makes
    one more widget to stand `embed_height` pixels high under the panel. `on_ready` is called
    after the first frame, `shown` after every View that was drawn (with the face that drew it,
    which knows where its targets are), `on_beat` at each look for a new View. `draw` gives
    the way of making drawings with numbers in a language, `scale` is 1.0 or 1.3,
    `left` for a left hand. `speak` is told of each new View, to read it aloud or fall silent.
    It must run in the main thread. Raises `NoScreen` where nobody could see the window.
    """
    set_environment()
    width, height = size_of(panel, embed_height if embed else 0)
    set_config(width, height, kiosk=embed is None, fullscreen=fullscreen)
    from kiosk.screens.face import Face
    from kiosk.screens.window import KioskApp

    face = Face(panel, post, labels=labels, draw=draw, scale=scale, left=left, speak=speak)
    app = KioskApp(face, latest, title=title, embed=embed)
    app.on_ready, app.shown, app.on_beat = on_ready, shown, on_beat
    if listen is not None:
        app.restless = restless or (lambda: False)
        listen(app.news)
    return app.run_to_end()


__all__ = ["NoScreen", "run"]
