"""A record that a test plays events into, with the time handed in."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import cache
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.events import (
    CheckAsked,
    DrillingShown,
    Entry,
    Event,
    HoleDrilled,
    Interrupted,
    InterruptionCleared,
    KioskStarted,
    LessonOpened,
    OkGiven,
    PreUsePassed,
    ReadingChanged,
    SessionEnded,
    SessionStarted,
    StepDone,
    TroubleNamed,
)
from kiosk.core.kiosk import Kiosk, advance
from kiosk.core.model import Content, Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.units import Moment
from kiosk.store import Record

ROOT = Path(__file__).resolve().parent.parent
MAY_2026_US = 1_777_800_000_000_000  # an invented Sunday morning
SECOND_US = 1_000_000
DAY_US = 86_400 * SECOND_US


@dataclass
class Playing:
    """Appends events to a record, each a second after the one before."""

    record: Record
    kiosk: Kiosk = field(init=False)
    boot: str = "boot1"
    us: int = 0
    wall_us: int = MAY_2026_US
    quality: int = 2

    def __post_init__(self) -> None:
        self.kiosk = self.record.restore()

    def entries(self, *events: Event, plan: Plan | None = None) -> tuple[Entry, ...]:
        """The entries that would be appended next."""
        made = []
        for event in events:
            self.us += SECOND_US
            self.wall_us += SECOND_US
            at = Moment(self.boot, self.us, self.wall_us, self.quality)
            with_plan = plan if isinstance(event, SessionStarted) else None
            made.append(Entry(self.record.head[0] + 1 + len(made), at, event, with_plan))
        return tuple(made)

    def happens(self, *events: Event, plan: Plan | None = None) -> tuple[Entry, ...]:
        """Append the events in one transaction."""
        made = self.entries(*events, plan=plan)
        after = self.kiosk
        for entry in made:
            after = advance(after, entry)
        self.record.append(made, after, plan)
        self.kiosk = after
        return made


@cache
def content() -> Content:
    """The content that is shipped."""
    found = load(ROOT / "sequences").content
    assert found is not None
    return found


@cache
def plan_of(job: str = "key_tag", level: Level = Level.SHOWN) -> Plan:
    """A plan of a shipped job."""
    found = content().job(job)
    assert found is not None
    plan = compile_plan(content(), content().machines[0], found, 0, level)
    assert isinstance(plan, Plan), plan
    return plan


def started(plan: Plan, pupil: str = "p1") -> SessionStarted:
    """The start of a session on a plan."""
    return SessionStarted(
        pupil, plan.level.word, plan.job, plan.hole, plan.digest, "fresh", 0, "sensed"
    )


def play_lesson(playing: Playing) -> None:
    """A short lesson: a hole is drilled, the isolator interrupts, a bit breaks."""
    plan = plan_of()
    playing.happens(KioskStarted("drill-1", "0.1.0", "first"))
    playing.happens(ReadingChanged("isolator", "off", "settled", 1))
    playing.happens(ReadingChanged("starter", "off", "settled", 1))
    playing.happens(PreUsePassed("a1"), LessonOpened("a1", "year-9", (plan.job,), 2400))
    playing.happens(started(plan), plan=plan)
    for step in plan.fresh[:-2]:
        playing.happens(StepDone(step.id, "pupil"))
    playing.happens(CheckAsked(1), OkGiven("a1", "pin", 1), DrillingShown(1, "check"))
    playing.happens(ReadingChanged("starter", "on", "settled"))
    playing.happens(ReadingChanged("starter", "off", "settled"))
    playing.happens(HoleDrilled(1, "sensed"))
    playing.happens(Interrupted("isolator_on"), TroubleNamed("bit_broken"))
    playing.happens(InterruptionCleared("a1", "again"), SessionEnded("left"))


@contextmanager
def lesson_at(path: Path) -> Iterator[Playing]:
    """A record with a short lesson in it, open for writing as a running kiosk's."""
    record = Record.open(path)
    playing = Playing(record)
    play_lesson(playing)
    yield playing
    record.close()


@contextmanager
def small_card(at: Path, size: str = "1m") -> Iterator[Path]:
    """A file system of its own in memory; skips the test where none can be mounted."""
    at.mkdir()
    words = ["mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(at)]
    if os.geteuid() != 0 or subprocess.run(words, capture_output=True, check=False).returncode:
        pytest.skip("needs root and a kernel that may mount a small file system")
    try:
        yield at
    finally:
        subprocess.run(["umount", "--lazy", str(at)], check=True)


def remount(at: Path, how: str) -> None:
    """Mount the small card anew as `ro` or `rw`."""
    subprocess.run(["mount", "-o", f"remount,{how}", str(at)], check=True)
