"""What is cut: whole sessions at the drill, kept by the real record.

`python -m tests.powercut.session FOLDER JOURNAL SYNC PAGES LESSONS` plays them and writes into
FOLDER/acks what was acknowledged, line by line, the moment it was. With no lessons it opens the
record that is there and closes it.
"""

from __future__ import annotations

import os
import sys
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from kiosk.core.events import Event
from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    Choose,
    Input,
    KioskBegan,
    KioskEnding,
    LevelsRead,
    PickPupil,
)
from kiosk.core.model import Adult
from kiosk.core.units import Moment
from kiosk.store import Record, engine
from tests.core.story import PUPILS, TEACHER, TECHNICIAN, Story, drill_one_hole

RECORD, ACKS = "record.sqlite", "acks"


@dataclass
class Recorded(Story):
    """A story whose every turn is kept by a record, and told of once it is."""

    opened: Record | None = None
    acks: int = -1
    written: int = field(default=0)

    def give(self, given: Input) -> tuple[Event, ...]:
        events = super().give(given)
        new = self.record[self.written :]
        if new and self.opened is not None:
            self.opened.append(new, self.kiosk)
            self.written = len(self.record)
            self.told("events", *self.opened.head)
        return events

    def told(self, *words: object) -> None:
        """Acknowledge: what stands here may never be lost."""
        os.write(self.acks, (" ".join(map(str, words)) + "\n").encode())

    def begins(self, after: str, boot: str) -> None:
        """A start of the kiosk, as the runtime does it."""
        self.now = Moment(boot, 1_000_000_000, self.now.wall_us + 60_000_000, 1)
        self.give(KioskBegan("drill-1", "test", after))
        self.give(LevelsRead(tuple((p.ref, p.level.word) for p in PUPILS)))
        self.reads("isolator", "on")
        self.reads("starter", "off")


def people(story: Recorded) -> None:
    """Two adults, with PINs, and the pupils' references."""
    assert story.opened is not None
    for adult in (TEACHER, TECHNICIAN):
        story.opened.keep_adult(Adult(adult.ref, adult.name, adult.role), f"hash-{adult.ref}")
        story.told("adult", adult.ref, f"hash-{adult.ref}")
        story.give(AdultIssued(adult.ref, adult.role, "test"))
    story.opened.pupil_refs("8b", range(1, 30))


def lesson(story: Recorded) -> None:
    """A lesson with two turns and a note."""
    assert story.opened is not None
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("open"))
    if any(b.touch == Act("pre_use_right") for b in story.buttons()):
        story.touch(Act("pre_use_right"))
    story.touch(Choose("group", "8b"))
    story.touch(Choose("jobs", "hook_bar"))
    story.touch(Act("jobs_done"))
    story.touch(Choose("length", "60"))
    for number in (14, 21):
        turn(story, number)
    note, digest = story.opened.keep_note("near_miss", "swarf", "the guard stuck, invented")
    story.told("note", note, digest)
    story.wait(4000)


def turn(story: Recorded, number: int) -> None:
    """One pupil sets up and drills a hole."""
    story.touch(PickPupil(number))
    for _ in range(60):
        if story.view.screen == "drilling":
            break
        if story.view.screen == "adult_check":
            story.touch(AskAdult("ok"))
            story.pin()
        else:
            story.do_step()
    drill_one_hole(story)
    story.wait(400)


def turn_down(sync: str, pages: int) -> None:
    """Turn syncing down from what the store demands, and the log over more often."""
    demanded = engine.settle

    def settled(connection: Any) -> None:
        demanded(connection)
        connection.execute(f"PRAGMA synchronous = {sync}")
        connection.execute(f"PRAGMA wal_autocheckpoint = {pages}")

    engine.settle = settled  # type: ignore[assignment]


def play(folder: Path, journal: str, lessons: int) -> None:
    """Lessons on one record: closed in order and opened again between them."""
    acks = os.open(folder / ACKS, os.O_WRONLY | os.O_CREAT | os.O_APPEND, 0o600)
    story = Recorded(acks=acks)
    if not lessons:
        Record.open(folder / RECORD, journal=journal).close()
    for number in range(lessons):
        story.opened = Record.open(folder / RECORD, journal=journal)
        story.told("log", story.opened.log)
        story.begins(story.opened.after, f"boot{number}")
        if number == 0:
            people(story)
        lesson(story)
        story.give(KioskEnding())
        story.opened.close()


if __name__ == "__main__":
    _, at, kept_in, how, every, count = sys.argv
    turn_down(how, int(every))
    play(Path(at), kept_in, int(count))
