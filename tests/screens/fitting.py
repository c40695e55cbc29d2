"""Walks screens on one panel and keeps what does not fit, cannot be read or told apart."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field, replace
from math import radians, tan
from pathlib import Path
from typing import Any

from kivy.clock import Clock
from kivy.uix.widget import Widget

from kiosk.core.view import View
from kiosk.screens.geometry import problems
from kiosk.screens.layouts.frame import HEAD_MM
from kiosk.screens.parts.press import Press
from kiosk.screens.parts.sheet import Sheet
from kiosk.screens.parts.text import Text
from kiosk.screens.theme import CAPITAL, Panel
from tests.screens.hand import Hand
from tests.screens.seen import pairs

READING_MM, ARC_MINUTES = 600.0, 20.0
BODY_MM = READING_MM * tan(radians(ARC_MINUTES / 60))  # capital height, ISO 9241-303
MOST_PAGES = 30


@dataclass
class Walk:
    """One panel at one text size. `faults` holds a line for each fault, with where it was.

    Each text is looked at once, whatever the drawing beside it. Colours do not depend on words:
    they are counted in the picture of the first screen of each build.
    """

    hand: Hand
    panel: Panel
    screens: int = 0
    faults: dict[str, str] = field(default_factory=dict)
    _seen: set[object] = field(default_factory=set)

    def over(self, views: Mapping[str, View]) -> None:
        """Look at every screen and every page of it."""
        for name, view in views.items():
            if self._is_new(_texts(view)):
                self._show(name, view)
            for at, aside in enumerate(view.asides):
                if self._is_new((aside, view.large, view.left)):
                    self.hand.face.show(view)
                    self._read(at, f"{name}, {aside.title}")

    def _is_new(self, what: object) -> bool:
        new = what not in self._seen
        self._seen.add(what)
        return new

    def _show(self, name: str, view: View) -> None:
        self.hand.face.show(view)
        self._look(name)
        self._turn_pages(name)

    def _look(self, name: str) -> None:
        self.screens += 1
        face = self.hand.face
        Clock.tick()
        found = [*problems(face, self.panel), *too_small(face, self.panel)]
        if self._is_new(build_of(face.view)):
            self.hand.frame()
            found += [pair.problem for pair in pairs(face) if pair.problem]
        for problem in found:
            self.faults.setdefault(f"{face.view.screen}: {problem}", name)

    def _read(self, at: int, name: str) -> None:
        """Look at what can be read beside the screen, and lay it away again."""
        stage = self.hand.face.stage
        stage.open_aside(at)
        self._look(name)
        self._turn_pages(name)
        stage.open_aside(-1)

    def _turn_pages(self, name: str) -> None:
        for _ in range(MOST_PAGES):
            keys = [t for t in self.hand.face.stage.targets if _turns_on(t)]
            if not keys:
                return
            keys[-1].act()
            self._look(f"{name}, a further page")
            if self.hand.face.stage.typed.page == 0:
                return


def _texts(view: View) -> object:
    """All that a screen writes and how, without its drawings."""
    bare = replace(view, picture=None, asides=(), number=0, seq=0, flash=False)
    return (bare, tuple(aside.label for aside in view.asides))


def build_of(view: View) -> object:
    """What screens of one build have in common: the same parts in the same places."""
    counts = (min(len(view.lines), 3), len(view.choices) > 3, len(view.buttons))
    said = (bool(view.note), bool(view.answer), bool(view.unsaved))
    return (view.screen, view.band and view.band.look, said, counts)


def _turns_on(target: Press) -> bool:
    return target.live and bool(target.mark.parent) and target.mark.name == "down"


def too_small(face: Any, panel: Panel) -> Iterator[str]:
    """Texts of the body, between head and bar and on the bar, too small to read standing up."""
    head = face.top - HEAD_MM * panel.px_per_mm
    for text in face.walk(restrict=True):
        if not isinstance(text, Text) or not text.text.strip() or text.center_y > head:
            continue
        capital = text.font_size * CAPITAL / panel.px_per_mm
        if capital < BODY_MM - 0.005 and not _in_a_drawing(text, face):
            yield f"text {text.text!r} has capitals of {capital:.2f} mm, less than {BODY_MM:.2f}"


def _in_a_drawing(text: Widget, face: Widget) -> bool:
    parent = text.parent
    while parent is not None and parent is not face:
        if isinstance(parent, Sheet):
            return True
        parent = parent.parent
    return False


def languages(root: Path) -> tuple[str, ...]:
    """Every language that has a file."""
    files = (root / "sequences" / "languages").glob("*.yaml")
    return tuple(sorted(path.stem for path in files if path.stem != "glossary"))
