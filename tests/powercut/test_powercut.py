"""Power cuts at every moment of whole sessions: nothing acknowledged is lost.

The record's code, its SQLite and its files are the real ones; their system calls are recorded,
and a disk that may drop, tear and reorder whatever was not synced is cut after any of them.
"""

from __future__ import annotations

import random
from collections.abc import Iterator
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

from tests.powercut.cutting import cut_everywhere, points, recorded
from tests.powercut.disk import Disk

SMALL, FULL = 40, 4000
SESSIONS = (("wal", 1000, 2), ("wal", 40, 2), ("truncate", 1000, 1))
"""Journal, pages in the write-ahead log before it is worked in, lessons."""


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where there is one: the disk is a model, so syncing need not be slow."""
    shared = Path("/dev/shm")
    with TemporaryDirectory(dir=shared if shared.is_dir() else None) as folder:
        yield Path(folder)


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_no_cut_loses_what_was_acknowledged(memory: Path, full: bool) -> None:
    cuts, bad = 0, []
    for number, (journal, pages, lessons) in enumerate(SESSIONS):
        calls = recorded(memory / f"s{number}", journal, "FULL", pages, lessons)
        wanted = points(calls, FULL if full else SMALL, random.Random(number))

        for point, gone in cut_everywhere(calls, wanted, Disk(), memory / "left"):
            cuts += 1
            bad += [f"{journal}, {point}: {gone}"] if gone else []

    print(f"powercut: {cuts} points, {len(bad)} lost")
    assert not bad, "\n".join(bad[:20])


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_the_same_cuts_lose_events_where_syncing_is_turned_down(memory: Path, full: bool) -> None:
    """The disk must be able to lose something, or the proof above says nothing."""
    calls = recorded(memory / "s", "wal", "NORMAL", 40, 2)
    wanted = points(calls, FULL // 2 if full else SMALL, random.Random(7))

    bad = [gone for _, gone in cut_everywhere(calls, wanted, Disk(), memory / "left") if gone]

    print(f"powercut: {len(wanted)} points with synchronous NORMAL, {len(bad)} lost events")
    assert len(bad) > len(wanted) // 10
