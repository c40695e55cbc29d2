"""Takes a stretch of a record away: read beside the running kiosk, written by `export`."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from importlib.metadata import version
from pathlib import Path
from typing import Any

from kiosk.cli.asking import ask
from kiosk.cli.sources import of_stretch
from kiosk.clock import Clock
from kiosk.core.events import Downloaded, Entry, KioskStarted
from kiosk.core.kiosk import advance
from kiosk.core.report import report
from kiosk.export import About, make_download
from kiosk.store import ReadOnlyRecord, Record, Span

SPANS = ("week", "term", "since-last", "all")


class NothingThere(Exception):
    """The stretch asked for has no events in it."""


@dataclass(frozen=True)
class Taken:
    """A finished download: where it is, and what of which log is in it."""

    folder: Path
    log: str
    span: Span

    @property
    def said(self) -> dict[str, Any]:
        """What the record is told of it."""
        span = self.span
        return {"span": span.name, "first": span.first, "last": span.last, "head": span.head}


def take(
    record: Path,
    name: str,
    to: Path,
    progress: Callable[[int, int], None],
    is_stick: bool = False,
) -> Taken:
    """Download the stretch `name` into the folder `to`, or onto the stick mounted there.

    Raises RecordFault, DownloadFault, NothingThere, and FileNotFoundError without a record.
    """
    with ReadOnlyRecord(record) as opened:
        span = opened.span(name)
        if span.last < span.first:
            raise NothingThere("there are no events to take away")
        about = _about(opened, span)
        log = of_stretch(opened, span.first, span.last, lambda _done, _whole: None)
        counts = report((log,))
        lines = opened.stretch(span.first, span.last)
        folder = make_download(to, about, lines, counts, span.size, progress, is_stick)
        return Taken(folder, opened.log, span)


def _about(opened: ReadOnlyRecord, span: Span) -> About:
    started = opened.last("kiosk_started")
    event = started.event if started else None
    return About(
        log=opened.log,
        span=span.name,
        first=span.first,
        last=span.last,
        prev=span.prev,
        head=span.head,
        machine=event.machine if isinstance(event, KioskStarted) else "",
        software=f"pillarside {version('pillarside')}",
        schema=opened.schema,
        made=Clock().now(),
    )


def tell(record: Path, taken: Taken) -> None:
    """Have the download noted in the record, by the running kiosk or here under the lock.

    Raises RecordFault, or OSError and ValueError where the kiosk does not answer well.
    """
    answer = ask(record, {"do": "downloaded", **taken.said})
    if answer is None:
        _note_here(record, taken)
    elif not answer.get("ok"):
        raise ValueError(str(answer.get("why", "the kiosk gave no reason")))


def _note_here(path: Path, taken: Taken) -> None:
    record = Record.open(path, renew=False)
    try:
        if record.log != taken.log:
            raise ValueError("another record has been put in its place")
        kiosk = record.restore()
        entry = Entry(record.head[0] + 1, Clock().now(), Downloaded(**taken.said))
        record.append((entry,), advance(kiosk, entry))
    finally:
        record.close()
