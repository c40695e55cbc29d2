"""A record in a folder of its own."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

import pytest

from kiosk.store import Record
from tests.recording import Playing


@pytest.fixture
def path(tmp_path: Path) -> Path:
    """Where the record lies."""
    return tmp_path / "record.sqlite"


@pytest.fixture
def playing(path: Path) -> Iterator[Playing]:
    """A new record to play events into."""
    record = Record.open(path)
    yield Playing(record)
    record.close()
