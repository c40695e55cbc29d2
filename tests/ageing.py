"""A record that has stood for some days, and what was kept long enough taken away from it."""

from __future__ import annotations

from kiosk.core.events import Event, KioskStarted, KioskStopped, LessonClosed, StillConfirmed
from kiosk.store import ReadOnlyRecord, Record, cut_before
from tests.recording import DAY_US, Playing, play_lesson

STARTED = KioskStarted("drill-1", "0.1.0", "clean")


def days(playing: Playing, count: int) -> None:
    """Days at the drill, each a start, a lesson and an orderly end."""
    for day in range(count):
        playing.boot, playing.us = f"boot{day}", 0
        playing.wall_us += DAY_US
        playing.happens(STARTED)
        play_lesson(playing)
        playing.happens(LessonClosed("a1"), StillConfirmed("said"), KioskStopped())


def purge(record: Record, playing: Playing, wall_us: int, trust: int = 2) -> tuple[Event, ...]:
    """Take away what is older; the events that say so."""
    with ReadOnlyRecord(record.path) as read:
        lines = read.with_hashes(read.begin.first, read.head[0])
        begin = cut_before(lines, read.begin, wall_us, trust)
    if begin == record.begin:
        return ()
    return tuple(e.event for e in playing.happens(record.prepare(begin)))
