"""Plays a running lesson on one record until the power goes at a random moment, again and again."""

from __future__ import annotations

import random
import threading
from dataclasses import dataclass, field
from pathlib import Path

from demo.bench import Bench
from demo.hand import Hand, Lost, Sight
from demo.kiosk import KioskProcess, issue_pins
from demo.played import TEACHER, Lesson

STEPS = ("step", "already_set", "adult_check", "drilling")
PUPILS = ("7", "12", "14", "3")
LONGEST_S = 22.0


@dataclass
class Round:
    """What one round showed: the first sight after the start, and all until the cut."""

    first: Sight
    sights: list[Sight]


@dataclass
class Cutter:
    """One record, one bench, one display; a round is a start, some work, and a cut."""

    display: str
    folder: Path
    bench: Bench
    chance: random.Random
    rounds: list[Round] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.record = self.folder / "record.sqlite"
        self.pins = issue_pins(self.record)

    def play_and_cut(self) -> Round:
        """Start, take the lesson up again, work, and cut at a random moment of the work."""
        shown = self.folder / f"shown{len(self.rounds)}.jsonl"
        boot = f"boot{len(self.rounds)}"
        kiosk = KioskProcess(self.display, self.record, shown, self.bench.port, boot=boot)
        hand = Hand(self.display, shown, lambda sight: None)
        hand.lives = lambda: kiosk.runs
        lesson = Lesson(hand, self.bench, self.pins)
        timer = None
        try:
            first = hand.wait("the first screen", lambda s: True, patience=120.0)
            self._take_up(lesson, first)
            timer = threading.Timer(self.chance.uniform(0.2, LONGEST_S), kiosk.cut)
            timer.daemon = True
            timer.start()
            self._work_until_cut(lesson, kiosk)
        finally:
            if timer is not None:
                timer.cancel()
            kiosk.cut()
            self.bench.press_stop()
        hand.look()
        self.rounds.append(Round(first, [sight for _, sight in hand.sights]))
        return self.rounds[-1]

    def _take_up(self, lesson: Lesson, first: Sight) -> None:
        """After the restart: the drill is still, the adult opens the lesson again."""
        if first.screen == "restart":
            lesson.hand.touch("The drill is standing still", "pupil")
        seen = lesson.hand.on("idle")
        if any(s.label == "Adult opens it again" for s in seen.spots):
            lesson.hand.touch("Adult opens it again", TEACHER)
            lesson.sign(TEACHER)
        seen = lesson.hand.on("idle")
        if "No lesson" in seen.title or "looked at first" in seen.title:
            self._open(lesson, "No lesson" in seen.title)
        lesson.hand.wait("the numbers", lambda s: any(p.look == "number" for p in s.spots))

    def _open(self, lesson: Lesson, whole: bool) -> None:
        """Open a lesson, or only do the check of the day that a new boot asks for."""
        if whole:
            lesson.open_lesson()
            return
        lesson.menu(TEACHER, "menu.pre_use")
        lesson.hand.touch("All of these are right", TEACHER)
        lesson.hand.touch("Done", TEACHER)

    def _work_until_cut(self, lesson: Lesson, kiosk: KioskProcess) -> None:
        while kiosk.runs:
            number = self.chance.choice(PUPILS)
            try:
                self._turn(lesson, number)
            except Lost:
                if kiosk.runs:
                    raise

    def _turn(self, lesson: Lesson, number: str) -> None:
        lesson.begin(number)
        for _ in range(2):
            lesson.steps(number, "drilling")
            lesson.drill(number)
        lesson.clear_up(number)
