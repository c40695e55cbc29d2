"""A lesson played by touching what is shown, with what goes wrong in one: always a way on is found.

What leads on is touched first; now and then, by chance, anything else that answers.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import dataclass, field

from kiosk.core.inputs import (
    Act,
    AskAdult,
    Choose,
    LeavePage,
    NameTrouble,
    PickAdult,
    PickJob,
    PickPupil,
    SeenRight,
    SomethingWrong,
    Still,
    StillThere,
    StopEveryone,
    Touch,
    Touched,
    TypePin,
)
from kiosk.core.view import View
from tests.soak.driven import PIN, Driven

LEADING = (StillThere, SeenRight, Still, NameTrouble, PickJob, PickPupil, PickAdult, Choose)
"""Kinds of touch that lead on wherever they answer, the first before the others."""

ACTS = ("return", "pre_use_right", "jobs_done", "again", "look", "resume", "end")
STRAY = (LeavePage, SomethingWrong, StopEveryone, NameTrouble, AskAdult, Choose, PickPupil)
"""What a finger may touch that has no business there."""

ASTRAY, LONG, LOST = 0.01, 0.01, 0.002
TOUCH_S, WAIT_S, LONG_S = 0.8, 6.0, 200.0
MOST_TOUCHES = 1000
USUAL = "key_tag"  # one hole: most turns are short


class Stuck(AssertionError):
    """No touch leads on."""


@dataclass
class Lessons:
    """Plays lessons at a kiosk, one after the other; counts touches, turns and screens seen."""

    kiosk: Driven
    chance: random.Random
    touches: int = 0
    turns: int = 0
    losses: int = 0
    screens: set[str] = field(default_factory=set)

    def one(self, turns: int) -> None:
        """A lesson: opened by an adult, so many pupils' turns begun and ended, closed."""
        self._until(lambda: self.kiosk.loop.kiosk.lesson is not None, "open")
        for _ in range(turns):
            self._until(lambda: self._in_turn, "turn")
            self._until(lambda: not self._in_turn, "turn")
            self.turns += 1
        self._until(lambda: self.kiosk.loop.kiosk.lesson is None, "close")

    @property
    def _in_turn(self) -> bool:
        return self.kiosk.loop.kiosk.session is not None

    def _until(self, done: Callable[[], bool], goal: str) -> None:
        for _ in range(MOST_TOUCHES):
            if done():
                return
            if goal == "turn" and self.kiosk.loop.kiosk.lesson is None:
                return  # an adult has closed it, or its time was over
            self._go_on(goal)
        view = self.kiosk.loop.latest()
        raise Stuck(f"{goal}: stands at {view.screen}, {view.title!r}: {live(view)}")

    def _go_on(self, goal: str) -> None:
        """One touch, and what the drill does meanwhile."""
        view = self.kiosk.loop.latest()
        self.screens.add(view.screen)
        if view.pad is not None and view.pad.busy:
            self.kiosk.answer()
            return
        self._at_the_drill(view)
        view = self.kiosk.loop.latest()
        touch = self._next(view, goal)
        if touch is None:
            self.kiosk.wait(LONG_S if self.chance.random() < LONG else WAIT_S)
            return
        self.touches += 1
        self.kiosk.post(Touched(view.number, touch))
        self.kiosk.wait(TOUCH_S)

    def _at_the_drill(self, view: View) -> None:
        """The isolator as the step wants it; the drill runs where it is to drill, and stops."""
        kiosk, session = self.kiosk, self.kiosk.loop.kiosk.session
        if self.chance.random() < LOST:
            self.losses += 1
            kiosk.lose(self.chance.choice(("unplugged", "silent", "bad_answer")))
        elif view.screen == "drilling":
            kiosk.isolator(True)
            kiosk.starter(True)
            kiosk.wait(WAIT_S)
            kiosk.starter(False)
            kiosk.wait(kiosk.loop.shop.machine.run_down.s + 1)
        elif kiosk.is_on and (session is None or view.screen in ("step", "recovery")):
            kiosk.isolator(False)

    def _next(self, view: View, goal: str) -> Touch | None:
        if view.pad is not None:
            return TypePin(view.pad.adult, PIN)
        found = live(view)
        stray = [touch for touch in found if isinstance(touch, STRAY)]
        if stray and self.chance.random() < ASTRAY:
            return self.chance.choice(stray)
        if goal in ("open", "close"):
            found.sort(key=lambda touch: not isinstance(touch, AskAdult))
        return self._leading(found, goal)

    def _leading(self, found: list[Touch], goal: str) -> Touch | None:
        acts = [t for act in (goal, *ACTS) for t in found if isinstance(t, Act) and t.what == act]
        if acts:
            return acts[0]
        for kind in LEADING if goal == "turn" else (StillThere, AskAdult, *LEADING):
            fitting = [touch for touch in found if isinstance(touch, kind)]
            if fitting:
                usual = [t for t in fitting if getattr(t, "value", "") == USUAL]
                often = self.chance.random() < 0.8
                return self.chance.choice(usual if usual and often else fitting)
        rest = [t for kind in (AskAdult, LeavePage) for t in found if isinstance(t, kind)]
        return rest[0] if rest else None


def live(view: View) -> list[Touch]:
    """What answers on a screen."""
    called = tuple(b for b in (view.head.wrong, view.head.stop) if b)
    return [b.touch for b in (*view.buttons, *view.choices, *called) if b.live]
