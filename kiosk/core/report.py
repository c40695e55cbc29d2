"""The record's counts over a stretch of entries: what the page and the workbook say.

A pure fold. Nothing in it singles out one pupil or one adult: there are counts of the room's
work, never of a person. Formatting and words are `export`'s.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from kiosk.core.events import (
    ClockStepped,
    Downloaded,
    Entry,
    Event,
    HoleDrilled,
    Interrupted,
    KioskStarted,
    LessonOpened,
    Noted,
    NotRight,
    OkGiven,
    PreUseFailed,
    PreUsePassed,
    ReadingChanged,
    RecordRenewed,
    RunWithoutOkSeen,
    SessionEnded,
    SessionStarted,
    TakenOutOfUse,
    TroubleNamed,
)
from kiosk.core.units import Moment

Counts = tuple[tuple[str, int], ...]
"""Words with how often each came, the most frequent first."""

RUN_INPUTS = ("starter", "spindle")
LOST = ("unknown", "fault")
UNKNOWN_JOB = ""
"""A hole whose session began before the stretch: its job and bit are not in it."""


Offsets = tuple[tuple[str, int], ...]
"""Boots with what their wall clock, once synchronised, was ahead of the time since boot, in µs."""

SYNCHRONISED = 2


@dataclass(frozen=True)
class ClockRemark:
    """About the wall clock at one entry: `stepped` by `by_us`, or `not_set` at a start."""

    seq: int
    what: str
    by_us: int = 0


def corrected(at: Moment, offsets: Mapping[str, int]) -> int | None:
    """The wall clock as it must have been, in µs of UTC; None where there is nothing better.

    Once the clock of a boot was synchronised, the time since boot tells when everything before
    it in that boot happened. For reports only: the record keeps what the clock said, and its
    order is that of its numbers.
    """
    if at.quality >= SYNCHRONISED or at.boot not in offsets:
        return None
    return at.us + offsets[at.boot]


@dataclass(frozen=True)
class Week:
    """The counts of a stretch, which need not be a week.

    `holes` counts by (job, bit); an empty job stands for a session that began before the stretch.
    `checks` counts OKs by `pin` or `spell`; `sensed` and `said` count holes by how their run was
    known. `starts` is None where no contact told of any. `first` and `last` number the entries
    (0 for none); wall clocks are in microseconds of UTC.
    """

    first: int = 0
    last: int = 0
    first_wall_us: int = 0
    last_wall_us: int = 0
    entries: int = 0
    lessons: int = 0
    sessions: int = 0
    endings: Counts = ()
    holes: tuple[tuple[str, str, int], ...] = ()
    checks: Counts = ()
    not_right: Counts = ()
    interruptions: Counts = ()
    troubles: Counts = ()
    runs_without_ok: int = 0
    notes: Counts = ()
    readings_lost: Counts = ()
    sensed: int = 0
    said: int = 0
    starts: int | None = None
    pre_use_passed: int = 0
    pre_use_failed: Counts = ()
    out_of_use: Counts = ()
    clock: tuple[ClockRemark, ...] = ()
    offsets: Offsets = ()
    downloads: int = 0
    restarts: Counts = ()
    renewals: int = 0

    @property
    def drilled(self) -> int:
        """All holes together."""
        return sum(count for _, _, count in self.holes)


@dataclass
class _Tally:
    """The counting as far as it has come; private to one call of `week`."""

    counts: dict[str, Counter[str]] = field(default_factory=dict)
    holes: Counter[tuple[str, str]] = field(default_factory=Counter)
    clock: list[ClockRemark] = field(default_factory=list)
    session: tuple[str, str] = (UNKNOWN_JOB, "")
    readings: dict[str, str] = field(default_factory=dict)
    offsets: dict[str, int] = field(default_factory=dict)

    def count(self, of: str, word: str = "") -> None:
        """One more of `word` among the things called `of`."""
        self.counts.setdefault(of, Counter())[word] += 1

    def ranked(self, of: str) -> Counts:
        """What was counted of these, the most frequent first, then by word."""
        found = self.counts.get(of, Counter())
        return tuple(sorted(found.items(), key=lambda one: (-one[1], one[0])))

    def total(self, of: str) -> int:
        """How many of these there were in all."""
        return sum(self.counts.get(of, Counter()).values())


def week(entries: Iterable[Entry]) -> Week:
    """The counts over entries in their order. Starts of sessions should have their plans."""
    tally, first, last, number = _Tally(), None, None, 0
    for entry in entries:
        first, last, number = first or entry, entry, number + 1
        if entry.at.quality >= SYNCHRONISED:
            tally.offsets.setdefault(entry.at.boot, entry.at.wall_us - entry.at.us)
        _count_machine(tally, entry)
        _count_session(tally, entry)
        _count_room(tally, entry)
    if first is None or last is None:
        return Week()
    return _week(tally, first, last, number)


def _week(tally: _Tally, first: Entry, last: Entry, number: int) -> Week:
    runs = dict(tally.ranked("run"))
    told = any(name in tally.readings for name in RUN_INPUTS)
    return Week(
        first=first.seq,
        last=last.seq,
        first_wall_us=corrected(first.at, tally.offsets) or first.at.wall_us,
        last_wall_us=corrected(last.at, tally.offsets) or last.at.wall_us,
        entries=number,
        lessons=tally.total("lessons"),
        sessions=tally.total("sessions"),
        endings=tally.ranked("endings"),
        holes=_ranked_holes(tally.holes),
        checks=tally.ranked("checks"),
        not_right=tally.ranked("not_right"),
        interruptions=tally.ranked("interruptions"),
        troubles=tally.ranked("troubles"),
        runs_without_ok=tally.total("runs_without_ok"),
        notes=tally.ranked("notes"),
        readings_lost=tally.ranked("readings_lost"),
        sensed=runs.get("sensed", 0),
        said=runs.get("said", 0),
        starts=tally.total("starts") if told else None,
        pre_use_passed=tally.total("pre_use_passed"),
        pre_use_failed=tally.ranked("pre_use_failed"),
        out_of_use=tally.ranked("out_of_use"),
        clock=tuple(tally.clock),
        offsets=tuple(tally.offsets.items()),
        downloads=tally.total("downloads"),
        restarts=tally.ranked("restarts"),
        renewals=tally.total("renewals"),
    )


def _ranked_holes(holes: Counter[tuple[str, str]]) -> tuple[tuple[str, str, int], ...]:
    ranked = sorted(holes.items(), key=lambda one: (-one[1], one[0]))
    return tuple((job, bit, count) for (job, bit), count in ranked)


def _count_machine(tally: _Tally, entry: Entry) -> None:
    match entry.event:
        case KioskStarted(_, _, after):
            tally.count("restarts", after)
            tally.readings = dict.fromkeys(tally.readings, "unknown")
            if entry.at.quality == 0:
                tally.clock.append(ClockRemark(entry.seq, "not_set"))
        case ClockStepped(by_us):
            tally.clock.append(ClockRemark(entry.seq, "stepped", by_us))
        case ReadingChanged(name, reading, _, at_start):
            _count_reading(tally, name, reading, bool(at_start))
        case RunWithoutOkSeen():
            tally.count("runs_without_ok")
        case RecordRenewed():
            tally.count("renewals")
        case PreUsePassed():
            tally.count("pre_use_passed")
        case PreUseFailed(_, item):
            tally.count("pre_use_failed", item)
        case TakenOutOfUse(reason):
            tally.count("out_of_use", reason)


def _count_reading(tally: _Tally, name: str, reading: str, at_start: bool) -> None:
    """A start is a starter or spindle contact going from off to on; of two, the starter counts."""
    before = tally.readings.get(name, "")
    counted = next((n for n in RUN_INPUTS if n in (*tally.readings, name)), "")
    if name == counted and before == "off" and reading == "on":
        tally.count("starts")
    if reading in LOST and not at_start and before not in LOST:
        tally.count("readings_lost", name)
    tally.readings[name] = reading


def _count_session(tally: _Tally, entry: Entry) -> None:
    match entry.event:
        case SessionStarted(job=job):
            tally.count("sessions")
            tally.session = (job, entry.plan.set_up.bit if entry.plan else "")
        case SessionEnded(how):
            tally.count("endings", how)
            tally.session = (UNKNOWN_JOB, "")
        case HoleDrilled(_, run):
            tally.holes[tally.session] += 1
            tally.count("run", run)
        case OkGiven(_, by):
            tally.count("checks", by)
        case NotRight(step):
            tally.count("not_right", step)
        case Interrupted(why):
            tally.count("interruptions", why)
        case TroubleNamed(trouble):
            tally.count("troubles", trouble)


def _count_room(tally: _Tally, entry: Entry) -> None:
    counted: dict[type[Event], str] = {LessonOpened: "lessons", Downloaded: "downloads"}
    if type(entry.event) in counted:
        tally.count(counted[type(entry.event)])
    if isinstance(entry.event, Noted):
        tally.count("notes", entry.event.what)
