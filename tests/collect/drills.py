"""Downloads of invented drills: made quickly, with what goes wrong with cards planted in them."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field, replace
from hashlib import sha256
from pathlib import Path

from kiosk.core.events import Entry, Erased, Event, KioskStarted, StepDone
from kiosk.core.units import Moment
from kiosk.export import About, manifest
from kiosk.export.download import EVENTS
from kiosk.export.folder import Written
from kiosk.store.codec import BEFORE_FIRST, Line, encode

START_US = 1_777_800_000_000_000  # an invented Sunday in May 2026
SECOND_US = 1_000_000


@dataclass
class Card:
    """A drill's card: its lines so far, each a second after the one before."""

    machine: str = "drill-1"
    log: str = "a" * 32
    boot: str = "boot1"
    wall_us: int = START_US
    quality: int = 2
    lines: list[Line] = field(default_factory=list)
    us: int = 0

    def add(self, *events: Event) -> Card:
        """Record events."""
        for event in events:
            self.us += SECOND_US
            self.wall_us += SECOND_US
            seq = len(self.lines) + 1
            prev = self.lines[-1].hash if self.lines else BEFORE_FIRST
            at = Moment(self.boot, self.us, self.wall_us, self.quality)
            self.lines.append(encode(self.log, prev, Entry(seq, at, event)))
        return self

    def used(self, count: int) -> Card:
        """So many steps done by a pupil."""
        return self.add(*(StepDone(f"step{n % 7}", "pupil") for n in range(count)))

    def copy(self, boot: str, after_s: int = 0) -> Card:
        """The card as it is now, put into a computer again: it starts with a boot of its own."""
        wall_us = self.wall_us + after_s * SECOND_US
        again = replace(self, boot=boot, wall_us=wall_us, us=0, lines=list(self.lines))
        return again.add(KioskStarted(self.machine, "0.1.0", "", ""))

    def erase(self, ref: str) -> Card:
        """Somebody's name was erased."""
        return self.add(Erased("pupil", ref, "asked"))

    def taken(self, to: Path, first: int = 1, last: int | None = None, name: str = "") -> Path:
        """A download of lines `first` to `last`."""
        return download(to, self, self.lines[first - 1 : last], name)


def download(to: Path, card: Card, lines: Sequence[Line], name: str = "") -> Path:
    """A folder with these lines and the list that goes with them."""
    inner = to / (name or f"{card.log[:4]}-{card.boot}-{lines[0].seq}-{lines[-1].seq}")
    return written(inner, card, lines, (line.bytes for line in lines))


def written(inner: Path, card: Card, lines: Sequence[Line], texts: Iterable[bytes]) -> Path:
    """A folder whose list names `lines`, but whose file holds `texts`."""
    inner.mkdir(parents=True)
    data = b"".join(text + b"\n" for text in texts)
    (inner / EVENTS).write_bytes(data)
    first, last = lines[0], lines[-1]
    about = About(
        log=card.log,
        span="all",
        first=first.seq,
        last=last.seq,
        prev=first.prev,
        head=last.hash,
        machine=card.machine,
        software="pillarside 0.1.0",
        schema="0005",
        made=Moment(card.boot, card.us, card.wall_us, card.quality),
    )
    file = Written(EVENTS, len(data), sha256(data).hexdigest())
    (inner / manifest.NAME).write_bytes(manifest.to_bytes(about, (file,)))
    return inner
