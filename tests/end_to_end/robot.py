"""A robot at the kiosk's real window: slips of fingers and stray keys, through X.

It reads what was shown and touches without sense: targets and bare places, drags, double taps,
long presses, other buttons, keys. So that a lesson runs at all, what leads on is touched oftener,
and a PIN pad that comes up gets its adult's PIN.
"""

from __future__ import annotations

import os
import random
import subprocess
import time
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field

from demo.bench import Bench
from demo.hand import SETTLE_S, Hand, Sight, Spot, spot_of

WIDE, HIGH = 800, 480
KEYS = (
    *("Escape", "F1", "F4", "F5", "F11", "F12", "Tab", "Return", "space", "BackSpace", "Delete"),
    *("Up", "Down", "Left", "Right", "Home", "End", "Page_Up", "Menu", "Print", "Pause", "Super_L"),
    *("alt+F4", "ctrl+q", "ctrl+c", "ctrl+w", "ctrl+e", "ctrl+Tab", "alt+Tab", "ctrl+z"),
    *("a", "z", "0", "7", "shift+a", "dead_acute", "XF86PowerOff", "KP_Enter"),
)
LEADING = {"main": 40.0, "still": 40.0, "adult": 25.0, "number": 15.0, "picked": 1.0, "danger": 0.1}
ON = (
    "Pressed by mistake",
    "Open a lesson",
    "These jobs",
    "All of these",
    "Set up again",
    "Return",
    "Work goes on",
)
BACK = (
    "Back",
    "Close",
    "Take the drill",
    "Drill for",
    "End",
    "Everyone",
    "One is not",
    "Not right",
    "Use a spare code",
)


class Pointer:
    """One xdotool that is told line by line what pointer and keyboard do; waits for each line."""

    def __init__(self, display: str) -> None:
        self._tool = subprocess.Popen(
            ["xdotool", "-"],
            env={**os.environ, "DISPLAY": display},
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )

    def do(self, *words: object) -> None:
        """Carry out one line of xdotool's."""
        assert self._tool.stdin is not None and self._tool.stdout is not None
        self._tool.stdin.write(" ".join(map(str, words)) + "\ngetmouselocation\n")
        self._tool.stdin.flush()
        self._tool.stdout.readline()

    def end(self) -> None:
        """Let it go."""
        assert self._tool.stdin is not None
        self._tool.stdin.close()
        self._tool.wait(10)


@dataclass
class Robot:
    """A pointer, a hand that looks, the bench and the adults' PINs; `made` counts its acts."""

    hand: Hand
    pointer: Pointer
    bench: Bench
    pins: dict[str, str]
    chance: random.Random
    made: Counter[str] = field(default_factory=Counter)
    turns: bool = False

    def play(self, count: int) -> None:
        """So many touches, drags, double taps and keys; the drill is played in between."""
        acts = dict(zip(self._acts(), (60, 8, 8, 8, 3, 5, 8), strict=True))
        while self.made.total() < count and self.hand.lives():
            self.hand.look()
            if self.hand.seen and self.hand.seen.screen == "pin" and self.chance.random() < 0.9:
                self._type_pin(self.hand.seen)
                continue
            act = self.chance.choices(list(acts), list(acts.values()))[0]
            act()
            self.made[act.__name__] += 1
            if self.chance.random() < 0.08:
                self._turn_something()

    def _acts(self) -> tuple[Callable[[], None], ...]:
        return (
            self.touch,
            self.stab,
            self.double_tap,
            self.drag,
            self.press_long,
            self.other,
            self.key,
        )

    # --- what it does ----------------------------------------------------------------------------

    def touch(self) -> None:
        """A target that is shown, most often after the time that the screens hold a finger back."""
        if self.chance.random() < 0.5:
            time.sleep(SETTLE_S)
            self.hand.look()
        self.pointer.do("mousemove", *self._somewhere(aimed=0.97), "click", 1)

    def stab(self) -> None:
        """Anywhere at all."""
        self.pointer.do("mousemove", *self._somewhere(), "click", 1)

    def double_tap(self) -> None:
        """Two or three taps 5 to 400 ms apart."""
        taps, apart = self.chance.choice((2, 2, 3)), self.chance.choice((5, 60, 80, 150, 310, 400))
        where = self._somewhere(aimed=0.8)
        self.pointer.do("mousemove", *where, "click", "--repeat", taps, "--delay", apart, 1)

    def drag(self) -> None:
        """Down in one place, up in another."""
        there, on = self._somewhere(aimed=0.7), self._somewhere(aimed=0.3)
        between = ((there[0] + on[0]) // 2, (there[1] + on[1]) // 2)
        self.pointer.do("mousemove", *there, "mousedown", 1, "mousemove", *between)
        self.pointer.do("mousemove", *on, "mouseup", 1)

    def press_long(self) -> None:
        """A finger that stays."""
        self.pointer.do("mousemove", *self._somewhere(aimed=0.8), "mousedown", 1)
        time.sleep(self.chance.uniform(0.1, 0.9))
        self.pointer.do("mouseup", 1)

    def other(self) -> None:
        """The middle and the right button, and the wheel."""
        self.pointer.do(
            "mousemove", *self._somewhere(aimed=0.7), "click", self.chance.choice((2, 3, 4, 5))
        )

    def key(self) -> None:
        """A stray key."""
        self.pointer.do("key", self.chance.choice(KEYS))

    def _type_pin(self, seen: Sight) -> None:
        """The PIN of whoever is asked for; whoever was asked for a code goes back to it."""
        time.sleep(SETTLE_S)
        if back := spot_of(seen, "Back") if "code" in seen.title else None:
            self.pointer.do("mousemove", back.x, back.y, "click", 1)
            self.made["touch"] += 1
            return
        pin = next((pin for name, pin in self.pins.items() if name in seen.title), "")
        for digit in pin if spot_of(seen, "1") else ():
            spot = spot_of(seen, digit)
            if spot is not None:
                self.pointer.do("mousemove", spot.x, spot.y, "click", 1)
                self.made["digit"] += 1
        if not spot_of(seen, "1"):
            self.touch()
            self.made["touch"] += 1

    def _turn_something(self) -> None:
        """The drill is used as it should be, and now and then as it should not."""
        drilling = self.hand.seen is not None and self.hand.seen.screen == "drilling"
        starts = drilling and not self.turns and self.chance.random() < 0.5
        self.turns = starts is not (self.chance.random() < 0.02)
        start = (self.bench.isolator_on, self.bench.press_start)
        for act in start if self.turns else (self.bench.press_stop, self.bench.isolator_off):
            act()

    # --- where -----------------------------------------------------------------------------------

    def _somewhere(self, aimed: float = 0.0) -> tuple[int, int]:
        """A place on the panel, with this chance within a target that is shown."""
        spots = self.hand.seen.spots if self.hand.seen else ()
        if not spots or self.chance.random() >= aimed:
            return self.chance.randrange(WIDE), self.chance.randrange(HIGH)
        spot = self.chance.choices(spots, [_weight(spot) for spot in spots])[0]
        return self._near(spot.x, WIDE), self._near(spot.y, HIGH)

    def _near(self, at: int, most: int) -> int:
        return min(max(0, round(self.chance.gauss(at, 6))), most - 1)


def _weight(spot: Spot) -> float:
    if spot.label.startswith("Wipe"):
        return 0.02
    if spot.label.startswith(ON):
        return 30.0
    return 0.4 if spot.label.startswith(BACK) else LEADING.get(spot.look, 3.0)
