"""A kiosk on its wall for years: what it holds stays flat, and its record verifies at the end."""

from __future__ import annotations

import random
import sys
import tempfile
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests.holding import Held
from tests.soak.year import Year

FULL, SMALL = 10_000, 40
MOST_MB = 5.0
IN_MEMORY = Path("/dev/shm")


@pytest.fixture
def folder() -> Iterator[Path]:
    """A folder in memory, where there is one: what is measured here is no card."""
    within = IN_MEMORY if IN_MEMORY.is_dir() else None
    with tempfile.TemporaryDirectory(prefix="soak-", dir=within) as name:
        yield Path(name)


@pytest.mark.soak
@pytest.mark.timeout(5400)
def test_years_of_lessons_leave_nothing_behind_but_their_record(
    folder: Path,
    full: bool,
    monkeypatch: pytest.MonkeyPatch,
    sum_up: Callable[[str], None],
) -> None:
    raised: list[object] = []
    monkeypatch.setattr(threading, "excepthook", raised.append)
    monkeypatch.setattr(sys, "unraisablehook", raised.append)
    lessons = FULL if full else SMALL
    warm, every = lessons // (10 if full else 2), lessons // (25 if full else 2)
    held: dict[int, Held] = {}

    def look(number: int) -> None:
        if number == warm or (number > warm and number % max(1, lessons // 20) == 0):
            held[number] = Held.now()

    year = Year(folder, lessons, random.Random(20261128), every, max(8, lessons // 28))
    year.run(look)
    kept = year.proved()

    first, last = held[warm], held[lessons]
    most = max(one.mb for one in held.values()) - first.mb
    sum_up(
        f"soak: {lessons} lessons, growth {last.mb - first.mb:+.2f} MB after {warm} (at most "
        f"{most:+.2f}, from {first.mb:.0f} MB), files {first.files} to {last.files}, threads "
        f"{first.threads} to {last.threads}; {year.told()}; {kept} events, record verifies"
    )
    assert raised == []
    assert last.mb - first.mb <= MOST_MB
    assert (last.files, last.threads) == (first.files, first.threads)
    assert year.purges and year.downloads and year.card_faults and year.cuts
