"""One turn as a pure sum: a lot of inputs, the state, the time, and what comes of them.

The loop runs it and then writes; the screen's thread runs it alone for a warning that must not
wait while a slow card is still writing.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

from kiosk.core.contacts import Change, Contacts, Sample, evaluate, passed
from kiosk.core.events import (
    Entry,
    Event,
    Interrupted,
    PageOpened,
    RunWithoutOkSeen,
    SessionStarted,
    TroubleNamed,
    TroubleSeen,
)
from kiosk.core.inputs import DeadlinePassed, Input, ReadingIs, SomethingWrong
from kiosk.core.kiosk import Kiosk, Shop, advance, decide, next_deadline
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Moment
from kiosk.runtime.inbox import Command, Lot

WARNINGS = (Interrupted, TroubleSeen, TroubleNamed, RunWithoutOkSeen)
DEADLINES_A_TURN = 8


@dataclass(frozen=True)
class Standing:
    """Where things stand within a turn: state, contacts, entries not yet written, refusal."""

    kiosk: Kiosk
    contacts: Contacts
    seq: int
    entries: tuple[Entry, ...] = ()
    plan: Plan | None = None
    refusal: str = ""
    warning: bool = False


@dataclass
class Unwritten:
    """A batch that could not be written yet, and what was held back meanwhile."""

    why: str
    standing: Standing
    next_try_us: int
    held: tuple[Input | Command, ...] = ()


def take(shop: Shop, standing: Standing, given: Input, now: Moment) -> Standing:
    """Decide on one input and take in what it leads to."""
    decided = decide(shop, standing.kiosk, given, now)
    if decided.refusal:
        return replace(standing, refusal=decided.refusal)
    after = replace(standing, plan=decided.plan or standing.plan)
    for event in decided.events:
        after = _take_in(after, event, decided.plan, now)
    return after


def _take_in(standing: Standing, event: Event, plan: Plan | None, now: Moment) -> Standing:
    seq = standing.seq + 1 if event.recorded else 0
    entry = Entry(seq, now, event, plan if isinstance(event, SessionStarted) else None)
    return replace(
        standing,
        kiosk=advance(standing.kiosk, entry),
        seq=max(seq, standing.seq),
        entries=(*standing.entries, entry) if seq else standing.entries,
        warning=standing.warning or is_warning(event),
    )


def is_warning(event: Event) -> bool:
    """Whether the screen must say it at once, saved or not."""
    if isinstance(event, PageOpened):
        return event.page == "wrong"
    return isinstance(event, WARNINGS)


def take_sample(shop: Shop, standing: Standing, sample: Sample, now: Moment) -> Standing:
    """Evaluate one sample and take in each reading that changed."""
    contacts, changes = evaluate(standing.contacts, shop.machine.wiring, sample)
    return _take_changes(shop, replace(standing, contacts=contacts), changes, now)


def ahead(shop: Shop, standing: Standing, lot: Lot, now: Moment) -> Standing:
    """What readings and warnings in the inbox would lead to, without waiting for the card."""
    for sample in lot.samples:
        standing = take_sample(shop, standing, sample, now)
    for touched in lot.touches:
        if isinstance(touched.touch, SomethingWrong):
            standing = take(shop, standing, touched, now)
    return standing


def take_time(shop: Shop, standing: Standing, now: Moment) -> Standing:
    """Take in what time alone leads to: readings gone stale, then deadlines."""
    contacts, changes = passed(standing.contacts, shop.machine.wiring, now.us)
    standing = _take_changes(shop, replace(standing, contacts=contacts), changes, now)
    for _ in range(DEADLINES_A_TURN):
        due = next_deadline(shop, standing.kiosk, now)
        if due is None or due.us > now.us:
            break
        standing = take(shop, standing, DeadlinePassed(due.kind), now)
    return standing


def _take_changes(
    shop: Shop, standing: Standing, changes: tuple[Change, ...], now: Moment
) -> Standing:
    for change in changes:
        given = ReadingIs(change.input, change.reading, change.why, change.at_start)
        standing = take(shop, standing, given, now)
    return standing
