"""Power cuts while packages are taken in: each is in with all it has, or not at all."""

from __future__ import annotations

import random
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.powercut.cutting import cut_at_all, in_memory, points
from tests.powercut.taking import halves, pack
from tests.powercut.tracing import Call, traced
from tests.recording import ROOT

SMALL, FULL = 60, 3000
JOURNALS = ("wal", "truncate")


@pytest.fixture
def memory() -> Iterator[Path]:
    """A folder in memory where there is one."""
    with in_memory() as folder:
        yield folder


def taken_in(memory: Path, journal: str, sync: str) -> list[Call]:
    """The calls of taking all packages in."""
    folder, stick = memory / "kiosk", memory / "sticks"
    folder.mkdir(parents=True)
    pack(stick)
    words = [sys.executable, "-m", "tests.powercut.taking", str(folder), str(stick), journal, sync]
    return traced(words, folder, ROOT)


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_no_cut_leaves_half_a_package(
    memory: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    cuts, bad = 0, []
    for journal in JOURNALS if full else JOURNALS[:1]:
        calls = taken_in(memory / journal, journal, "FULL")
        wanted = points(calls, FULL if full else SMALL, random.Random(11))

        found = cut_at_all(calls, wanted, {}, halves)

        cuts += len(found)
        bad += [f"{journal}, {cut.point}: {cut.gone}" for cut in found if cut.gone]

    sum_up(f"powercut: {cuts} points while packages are taken in, {len(bad)} in by half")
    assert not bad, "\n".join(bad[:20])


@pytest.mark.powercut
@pytest.mark.timeout(3600)
def test_copies_that_are_not_synced_are_torn(
    memory: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    """The disk must be able to tear one, or the proof above says nothing."""
    calls = [call for call in taken_in(memory, "wal", "FULL") if not is_of_a_copy(call)]
    wanted = points(calls, FULL if full else SMALL, random.Random(12))

    cuts = cut_at_all(calls, wanted, {}, halves)

    bad = [cut for cut in cuts if cut.gone]
    sum_up(f"powercut: {len(cuts)} points with copies not synced, {len(bad)} lost")
    assert bad


def is_of_a_copy(call: Call) -> bool:
    """A sync of a copied file or folder."""
    return call.what == "sync" and ".in" in call.name
