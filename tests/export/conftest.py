"""A record with a lesson in it, and a folder that stands for a stick."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from kiosk.core.report import Log, report
from kiosk.core.units import Moment
from kiosk.export import About, make_download
from kiosk.store import Line, ReadOnlyRecord
from tests.recording import MAY_2026_US, Playing, lesson_at

MADE = Moment("boot1", 1, MAY_2026_US, 2)


@dataclass(frozen=True)
class Given:
    """Lines that a test may have changed."""

    lines: list[Line]

    def __iter__(self) -> Iterator[Line]:
        return iter(self.lines)

    def blocks(self) -> Iterator[bytes]:
        return (line.bytes + b"\n" for line in self.lines)


Take = Callable[..., Path]


@pytest.fixture
def playing(tmp_path: Path) -> Iterator[Playing]:
    """A record with a short lesson."""
    with lesson_at(tmp_path / "record.sqlite") as playing:
        yield playing


@pytest.fixture
def stick(tmp_path: Path) -> Path:
    """An empty folder."""
    folder = tmp_path / "stick"
    folder.mkdir()
    return folder


@pytest.fixture
def to(tmp_path: Path) -> Path:
    """Where copies go."""
    return tmp_path / "record.sqlite.in"


@pytest.fixture
def take(playing: Playing, stick: Path) -> Take:
    """Takes lines `first` to `last` away, to `to`; the new folder."""

    def took(first: int = 1, last: int | None = None, to: Path = stick, **more: object) -> Path:
        with ReadOnlyRecord(playing.record.path) as read:
            until = last or read.head[0]
            lines = list(read.lines(first, until))
            about = About(
                log=read.log,
                span="week",
                first=first,
                last=until,
                prev=lines[0].prev,
                head=str(more.pop("head", lines[-1].hash)),
                machine="drill-1",
                software="pillarside 0.1.0",
                schema="0001",
                made=MADE,
            )
            counts = report((Log(read.entries(first, until)),))
        return make_download(to, about, Given(more.pop("lines", lines)), counts, **more)

    return took
