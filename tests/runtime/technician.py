"""A technician at a simulated drill: does what the walk asks, types once it stands still."""

from __future__ import annotations

import time
from collections.abc import Callable
from dataclasses import dataclass, field

from hardware.simulator import SimulatedDrill

HANDS: dict[str, Callable[[SimulatedDrill], None]] = {
    "isolator to O": lambda drill: drill.turn_isolator(False),
    "isolator to I": lambda drill: drill.turn_isolator(True),
    "Leave the drill stopped": lambda drill: drill.press_stop(),
    "start the drill": lambda drill: drill.press_start(),
    "Press the red stop": lambda drill: drill.press_stop(),
    "guard right up": lambda drill: drill.swing_guard(False),
    "guard right down": lambda drill: drill.swing_guard(True),
    "extraction off": lambda drill: drill.switch_extraction(False),
    "extraction on": lambda drill: drill.switch_extraction(True),
}
STILL_S = 0.4  # levels that have not moved for so long have settled
PATIENCE_S = 15.0


@dataclass
class Technician:
    """`types` holds answers other than Enter for the requests that come, the first first."""

    drill: SimulatedDrill
    types: list[str] = field(default_factory=list)
    answers: dict[str, str] = field(default_factory=dict)
    said: list[str] = field(default_factory=list)
    requests: list[str] = field(default_factory=list)
    shown: set[str] = field(default_factory=set)

    def say(self, text: str) -> None:
        self.said.append(text)

    def ask(self, question: str, usual: str) -> str:
        self.said.append(question)
        return self.answers.get(question, usual)

    def watch(self, request: str, look: Callable[[], str]) -> str:
        self.requests.append(request)
        for words, do in HANDS.items():
            if words in request:
                do(self.drill)
        self._until_still(request, look)
        return self.types.pop(0) if self.types else ""

    def _until_still(self, request: str, look: Callable[[], str]) -> None:
        """Look until nothing moves any more, and the spindle where it has to be still."""
        until, last, since = time.monotonic() + PATIENCE_S, "", time.monotonic()
        still = "Press the red stop" in request
        while time.monotonic() < until:
            now = look()
            if now != last or (still and self.drill.state.turning):
                last, since = now, time.monotonic()
            self.shown.add(now)
            if time.monotonic() - since > STILL_S:
                return
            time.sleep(0.02)
