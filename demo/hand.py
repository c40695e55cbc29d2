"""Plays a person at the kiosk's real window: reads what was shown, touches it through X.

Nothing is reached into: a touch is a pointer press of the window system, and what stands on the
screen is known from the log of what was shown.
"""

from __future__ import annotations

import json
import os
import subprocess
import time
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any, TextIO

SETTLE_S = 0.36  # the screens ignore a finger for 0.3 s after a new view
PATIENCE_S = 20.0
TURN_S = 1.5  # how long a button is looked for before the page is turned


class Lost(Exception):
    """What was waited for never came; says what stood on the screen."""


@dataclass(frozen=True)
class Spot:
    """A live button: its words, its look, and the middle of it in pixels from the top left."""

    label: str
    look: str
    x: int
    y: int


@dataclass(frozen=True)
class Sight:
    """One line of the log of what was shown."""

    number: int
    seq: int
    screen: str
    title: str
    spots: tuple[Spot, ...]
    problems: tuple[str, ...]
    raw: dict[str, Any] = field(compare=False, default_factory=dict)


def sight(line: str) -> Sight:
    """A line of the log as a value."""
    raw = json.loads(line)
    spots = tuple(Spot(s["label"], s["look"], s["x"], s["y"]) for s in raw["spots"])
    return Sight(
        raw["number"], raw["seq"], raw["screen"], raw["title"], spots, tuple(raw["problems"]), raw
    )


@dataclass(frozen=True)
class TouchMade:
    """A touch, whose it was, on which screen, and when (seconds since the tour began)."""

    at: float
    who: str
    screen: str
    title: str
    label: str


class Hand:
    """Looks and touches. `display` is the X display, `log` the log of what was shown."""

    def __init__(self, display: str, log: Path, on_sight: Callable[[Sight], None]) -> None:
        self._display, self._log = display, log
        self._file: TextIO | None = None
        self._part = ""
        self._on_sight = on_sight
        self.seen: Sight | None = None
        self.sights: list[tuple[float, Sight]] = []
        self.touches: list[TouchMade] = []
        self.began = time.monotonic()
        self.lives: Callable[[], bool] = lambda: True
        self._last_view = 0.0

    # --- looking -------------------------------------------------------------------------------

    def look(self) -> Sight | None:
        """The newest sight; every new one on the way is told to `on_sight` once it has settled."""
        for line in self._new_lines():
            new = sight(line)
            if self.seen is None or _meaning(new) != _meaning(self.seen):
                self._last_view = time.monotonic()
            self.seen = new
            self.sights.append((time.monotonic() - self.began, new))
        return self.seen

    def _new_lines(self) -> list[str]:
        if self._file is None:
            if not self._log.exists():
                return []
            self._file = self._log.open(encoding="utf-8")
        *whole, self._part = (self._part + self._file.read()).split("\n")
        return whole

    def wait(
        self, what: str, found: Callable[[Sight], bool], patience: float = PATIENCE_S
    ) -> Sight:
        """Wait until the screen shows what is wanted."""
        until = time.monotonic() + patience
        while time.monotonic() < until and self.lives():
            now = self.look()
            if now is not None and found(now):
                self._settle()
                return self.seen or now
            time.sleep(0.02)
        stands = f"{self.seen.screen} ({self.seen.title})" if self.seen else "nothing yet"
        raise Lost(f"waited {patience:g} s for {what}; on the screen stands {stands}")

    def on(self, screen: str, patience: float = PATIENCE_S) -> Sight:
        """Wait for a screen by its name."""
        return self.wait(f"the screen {screen!r}", lambda s: s.screen == screen, patience)

    def _settle(self) -> None:
        """Give the eye the moment that the screens give the finger, then show what stands."""
        left = self._last_view + SETTLE_S - time.monotonic()
        if left > 0:
            time.sleep(left)
        self.look()
        if self.seen is not None:
            self._on_sight(self.seen)

    # --- touching ------------------------------------------------------------------------------

    def touch(self, label: str, who: str, patience: float = PATIENCE_S) -> None:
        """Touch the live button whose words begin with `label`."""
        self._turn_to(label, who, time.monotonic() + patience)
        assert self.seen is not None
        spot = spot_of(self.seen, label)
        if spot is None:
            raise Lost(f"the button {label!r} went away")
        self._press(spot, who)

    def _turn_to(self, label: str, who: str, until: float) -> None:
        """Wait for a button; where the screen has pages and not this button, turn them."""
        while True:
            left = max(until - time.monotonic(), 0.1)
            try:
                self.wait(
                    f"a button {label!r}",
                    lambda s: spot_of(s, label) is not None,
                    min(left, TURN_S),
                )
                return
            except Lost:
                if not self.lives() or time.monotonic() > until:
                    raise
                key = _page_key(self.seen) if self.seen else None
                if key is not None:
                    self._press(key, who)

    def touch_look(self, look: str, who: str, patience: float = PATIENCE_S) -> str:
        """Touch the one live button of a look; returns its words."""
        self.wait(f"a {look} button", lambda s: any(p.look == look for p in s.spots), patience)
        assert self.seen is not None
        spot = next(p for p in self.seen.spots if p.look == look)
        self._press(spot, who)
        return spot.label

    def _press(self, spot: Spot, who: str) -> None:
        assert self.seen is not None
        at = time.monotonic() - self.began
        self.touches.append(TouchMade(at, who, self.seen.screen, self.seen.title, spot.label))
        click = ["xdotool", "mousemove", str(spot.x), str(spot.y), "click", "1"]
        self._run(click)
        self._last_view = time.monotonic()

    def _run(self, words: list[str]) -> None:
        subprocess.run(words, env={**os.environ, "DISPLAY": self._display}, check=True, timeout=10)

    def read_badge(self, digits: str, who: str) -> None:
        """A badge held to the reader, which types its digits and Enter."""
        assert self.seen is not None
        at = time.monotonic() - self.began
        held = "the badge held to the reader"
        self.touches.append(TouchMade(at, who, self.seen.screen, self.seen.title, held))
        typed = ["xdotool", "type", "--delay", "20", digits]
        for words in (typed, ["xdotool", "key", "Return"]):
            self._run(words)
        self._last_view = time.monotonic()

    def type_pin(self, digits: str, who: str) -> None:
        """Six digits on the pad."""
        pad = self.wait("the pad", lambda s: s.screen == "pin" and spot_of(s, "1") is not None)
        for digit in digits:
            spot = spot_of(pad, digit)
            assert spot is not None
            self._press(spot, who)


def _meaning(seen: Sight) -> tuple[object, ...]:
    """All that the screens hold a finger back for a moment for, when it changes."""
    said = tuple(str(seen.raw[name]) for name in ("lines", "band", "note"))
    return (seen.number, seen.screen, seen.title, seen.spots, said)


def _page_key(seen: Sight) -> Spot | None:
    """The key that turns a page on, where there is a further page."""
    keys = [s for s in seen.spots if s.look == "key" and not s.label]
    return keys[-1] if keys and seen.screen in ("menu", "form", "incident", "job") else None


def spot_of(seen: Sight, label: str) -> Spot | None:
    """The live button with these words, or whose words begin with them; any space is one."""
    words = " ".join(label.split())
    said = [(" ".join(spot.label.split()), spot) for spot in seen.spots]
    exact = next((spot for text, spot in said if text == words), None)
    return exact or next((spot for text, spot in said if text.startswith(words)), None)
