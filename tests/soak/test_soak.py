"""A kiosk on its wall for years: what it holds stays flat, and its record verifies at the end."""

from __future__ import annotations

import json
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

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
    folder: Path, full: bool, root: Path, sum_up: Callable[[str], None]
) -> None:
    lessons = FULL if full else SMALL
    warm, every = lessons // (10 if full else 2), lessons // (25 if full else 2)
    words = [sys.executable, "-m", "tests.soak.played", folder, lessons, warm, every]

    said = subprocess.run(
        [str(word) for word in words], cwd=root, check=True, stdout=subprocess.PIPE, text=True
    )

    told = json.loads(said.stdout.splitlines()[-1])
    first, last = told["held"][0], told["held"][-1]
    growth, most = last["mb"] - first["mb"], max(one["mb"] for one in told["held"]) - first["mb"]
    sum_up(
        f"soak: {lessons} lessons, growth {growth:+.2f} MB after {warm} (at most {most:+.2f}, from "
        f"{first['mb']:.0f} MB), files {first['files']} to {last['files']}, threads "
        f"{first['threads']} to {last['threads']}; {told['told']}; {told['events']} events, "
        "record verifies"
    )
    assert told["raised"] == []
    assert growth <= MOST_MB
    assert (last["files"], last["threads"]) == (first["files"], first["threads"])
    assert all(told["came"])
