"""Where the screens get what they show, and the stages of a start that leads to it."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from kiosk.core.inputs import Touched
    from kiosk.core.view import Picture, View
    from kiosk.drawings.shapes import Drawing
    from kiosk.screens.labels import Labels

LOOK_S = 0.5  # how often the latest View is asked for where nothing is going on
MOST_FAULTS = 20  # errors in a minute; then the process ends, and is started afresh


def _unheard(_call: Callable[[], None]) -> None:
    """Nobody tells of another View."""


@dataclass(frozen=True)
class Source:
    """What the screens show, and whom they tell; all but `listen` is called in their thread.

    `latest` gives the View to show and `post` takes a touch; both return at once. `listen` is
    given what to call, from any thread, when there is another View; while `restless` says that
    there may be one with no such call, it is asked for often. `draw` gives the way of making
    drawings with words and numbers in a language. `speak` is told of each new View, to read it
    aloud or fall silent.
    """

    latest: Callable[[], View]
    post: Callable[[Touched], None]
    listen: Callable[[Callable[[], None]], None] = _unheard
    restless: Callable[[], bool] = lambda: True
    labels: Labels | None = None
    draw: Callable[[str], Callable[[Picture, float, float], Drawing]] | None = None
    speak: Callable[[View], None] | None = None


Stages = Iterator[float | Source]
