"""Runs the kiosk's window: an opening, then the latest View; it survives its own faults."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

from kiosk.screens.source import Source, Stages
from kiosk.screens.start import NoScreen, set_config, set_environment, size_of
from kiosk.screens.theme import Panel

if TYPE_CHECKING:
    from kivy.uix.widget import Widget

    from kiosk.core.view import View
    from kiosk.screens.face import Face


def run(
    stages: Stages,
    panel: Panel,
    *,
    title: str,
    embed: Callable[[], Widget] | None = None,
    embed_height: int = 0,
    on_ready: Callable[[], None] | None = None,
    on_beat: Callable[[], None] | None = None,
    shown: Callable[[View, Face], None] | None = None,
    scale: float = 1.0,
    left: bool = False,
    fullscreen: bool = False,
) -> int:
    """Show the kiosk until it is told to end; returns the process's exit code.

    The window opens first. Then `stages` is asked for one stage of the start after the other,
    each in a frame of its own: how much is done, from 0 to 1, and at last the Source; what it
    raises is raised here. `embed` makes one more widget to stand `embed_height` pixels high
    under the panel. `on_ready` is called after the first View was drawn, `shown` after every
    one (with the face that drew it, which knows where its targets are), `on_beat` at each look
    for a new one. `scale` is 1.0 or 1.3, `left` for a left hand.
    It must run in the main thread. Raises `NoScreen` where nobody could see the window.
    """
    set_environment()
    width, height = size_of(panel, embed_height if embed else 0)
    set_config(width, height, kiosk=embed is None, fullscreen=fullscreen)
    from kiosk.screens.window import KioskApp

    app = KioskApp(panel, stages, partial(_face, panel, scale, left), title=title, embed=embed)
    app.on_ready, app.shown, app.on_beat = on_ready, shown, on_beat
    return app.run_to_end()


def _face(panel: Panel, scale: float, left: bool, source: Source) -> Face:
    from kiosk.screens.face import Face

    told = {"labels": source.labels, "draw": source.draw, "speak": source.speak}
    return Face(panel, source.post, scale=scale, left=left, **told)  # type: ignore[arg-type]


__all__ = ["NoScreen", "Source", "Stages", "run"]
