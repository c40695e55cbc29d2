"""Power cuts at every moment of whole sessions: nothing acknowledged is lost.

The record's code, its SQLite and its files are the real ones; their system calls are recorded,
and a disk that may drop, tear and reorder whatever was not synced is cut after any of them. A
point is a cut that leaves files like no other: those that leave the same count once.
"""

from __future__ import annotations

import random
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.powercut.cutting import cut_at_all, in_memory, lost, points, recorded

SMALL, FULL, AT_LEAST = 40, 6000, 10_000
SESSIONS = (("wal", 1000, 2), ("wal", 40, 2), ("truncate", 1000, 1))
"""Journal, pages in the write-ahead log before it is worked in, lessons."""


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where there is one."""
    with in_memory() as folder:
        yield folder


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_no_cut_loses_what_was_acknowledged(
    memory: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    cuts, bad = 0, []
    for number, (journal, pages, lessons) in enumerate(SESSIONS):
        calls = recorded(memory / f"s{number}", journal, "FULL", pages, lessons)
        wanted = points(calls, FULL if full else SMALL, random.Random(number))

        found = cut_at_all(calls, wanted, {}, lost)

        cuts += len(found)
        bad += [f"{journal}, {cut.point}: {cut.gone}" for cut in found if cut.gone]

    sum_up(f"powercut: {cuts} points, {len(bad)} lost")
    assert not bad, "\n".join(bad[:20])
    assert cuts >= AT_LEAST or not full


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_the_same_cuts_lose_events_where_syncing_is_turned_down(
    memory: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    """The disk must be able to lose something, or the proof above says nothing."""
    calls = recorded(memory / "s", "wal", "NORMAL", 40, 2)
    wanted = points(calls, FULL // 2 if full else SMALL, random.Random(7))

    found = cut_at_all(calls, wanted, {}, lost)

    bad = [cut for cut in found if cut.gone]
    sum_up(f"powercut: {len(found)} points with synchronous NORMAL, {len(bad)} lost events")
    assert len(bad) > len(found) // 10
