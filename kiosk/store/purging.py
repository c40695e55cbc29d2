"""Taking away the beginning of a log: where it may be cut, and what stands for what is gone.

A log is cut just before a start of the kiosk at which nothing was going on: no lesson, no
session, nothing halted. What the lines before had led to is then little, and is kept as events:
who may use the kiosk, wrong PINs, training levels, out of use, the last check of the day. Being
events, they are read by any later version as the log itself is.
"""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from dataclasses import astuple, replace
from typing import NamedTuple

from kiosk.core.events import (
    AdultRevoked,
    Entry,
    Event,
    KioskStarted,
    PinFailed,
    PinTried,
    PreUsePassed,
    kind_of,
)
from kiosk.core.kiosk import EMPTY, Kiosk, advance
from kiosk.core.units import Moment
from kiosk.store.carrying import BY, adult_events, fault_events, kept_events
from kiosk.store.codec import BEFORE_FIRST, body_of, event_of

DAY_US = 86_400_000_000
AT_ONCE = 5000
"""About how many lines are taken away in one transaction."""


class Begin(NamedTuple):
    """Where a log begins: its first line, the hash before it, and the events that stand for it."""

    first: int = 1
    prev: str = BEFORE_FIRST
    bytes: bytes = b"[]"

    def entries(self) -> Iterator[Entry]:
        """The events that stand for the lines taken away, numbered 0."""
        for boot, us, wall_us, quality, kind, version, body in json.loads(self.bytes):
            yield Entry(0, Moment(boot, us, wall_us, quality), event_of(kind, version, body))

    def kiosk(self) -> Kiosk:
        """The state that the lines taken away had led to."""
        kiosk = EMPTY
        for entry in self.entries():
            kiosk = advance(kiosk, entry)
        return kiosk


def cut_before(lines: Iterable[tuple[str, Entry]], begin: Begin, wall_us: int, trust: int) -> Begin:
    """Where the log may begin if what is older than `wall_us` is to go; `begin` if nowhere else.

    `lines` are hashes and entries from the first on. A line counts as old once a later one, whose
    clock is trusted at least as `trust` says, is old too: an unset clock decides nothing.
    """
    found = candidate = begin
    prev, kiosk = begin.prev, begin.kiosk()
    for line_hash, entry in lines:
        if isinstance(entry.event, KioskStarted) and is_quiet(kiosk) and entry.seq > begin.first:
            candidate = Begin(entry.seq, prev, as_bytes(carried(kiosk, entry.at)))
        if entry.at.quality >= trust:
            if entry.at.wall_us >= wall_us:
                break
            found = candidate
        if found.first - begin.first >= AT_ONCE:
            break
        prev, kiosk = line_hash, advance(kiosk, entry)
    return found


def is_quiet(kiosk: Kiosk) -> bool:
    """Whether nothing was going on, so that a start leaves nothing to carry but what is carried."""
    machine = kiosk.machine
    busy = kiosk.lesson or kiosk.session or machine.halt or machine.ask_still or machine.cut
    return not busy


def carried(kiosk: Kiosk, at: Moment) -> tuple[Entry, ...]:
    """The events that lead to what a quiet kiosk knows, in an order that keeps its own."""
    events: list[tuple[Moment, Event]] = []
    for adult in kiosk.adults.known:
        last = adult.last or at
        events += [(at, event) for event in adult_events(adult)]
        events += [(last, PinTried(adult.ref, BY))] * adult.wrong
        events += [(last, PinFailed(adult.ref, BY))] * bool(adult.wrong)
        events += [(at, AdultRevoked(adult.ref, BY))] * adult.revoked
    levels = [(at, event) for event in kept_events(kiosk)]
    out = [(replace(at, wall_us=day * DAY_US), event) for day, event in fault_events(kiosk)]
    looked = kiosk.machine.pre_use
    checked = [(looked, PreUsePassed(BY))] if looked else []
    return tuple(Entry(0, when, event) for when, event in (*events, *levels, *checked, *out))


def as_bytes(entries: Iterable[Entry]) -> bytes:
    """Entries as they are kept, each with its kind and version, as lines of the log are."""
    said = [
        [*astuple(entry.at), kind_of(entry.event), entry.event.v, body_of(entry.event)]
        for entry in entries
    ]
    return json.dumps(said, separators=(",", ":")).encode()
