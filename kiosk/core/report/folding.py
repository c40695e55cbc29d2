"""One pass over each log, and what the logs add up to together."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from datetime import UTC, datetime

from kiosk.core.events import Entry, Event, HoleDrilled
from kiosk.core.model import Level, Policy
from kiosk.core.report import levels, machine, others, turns
from kiosk.core.report.clock import SECOND_US, UNSET, DayOf, Quarter, corrected, day_in
from kiosk.core.report.levels import Levels
from kiosk.core.report.machine import Machine
from kiosk.core.report.others import Others
from kiosk.core.report.small import LEAST, put_together, spread
from kiosk.core.report.tally import Tally, Use, together
from kiosk.core.report.turns import Room
from kiosk.core.report.values import (
    SLOW_S,
    ChainFault,
    Drill,
    NoteRow,
    Report,
    StepRow,
    Times,
)
from kiosk.core.units import Moment

SLOW_RUN_DOWN = 10**9  # run-downs have no limit of their own here
GRANTS = ("granted", "listed", "ended", "lapsed")
PATHS = ("fresh", "joining")


def utc_day(wall_us: int) -> str:
    """The day of a wall clock in UTC; empty if no calendar has it."""
    try:
        return datetime.fromtimestamp(wall_us / SECOND_US, UTC).strftime("%Y-%m-%d")
    except (ValueError, OverflowError, OSError):
        return ""


@dataclass(frozen=True)
class Log:
    """One kiosk's log: its entries in order, gone through once, starts of sessions with plans.

    `faults` is asked once they are gone through. `about` is the machine where no entry names it.
    """

    entries: Iterable[Entry]
    id: str = ""
    about: str = ""
    faults: Callable[[], tuple[ChainFault, ...]] = tuple


@dataclass(frozen=True)
class Known:
    """What a report must be told: the day of a wall clock, when an unused level lapses, and the
    bit of a job's hole (0 first) where no plan came with the start of a session.
    """

    day_of: DayOf = utc_day
    lapses: int = Policy().lapses
    bit_of: Callable[[str, int], str] = lambda job, hole: ""


@dataclass
class Counted:
    """One log gone through."""

    log: Log
    known: Known
    tally: Tally = field(default_factory=Tally)

    def __post_init__(self) -> None:
        self.room = Room(self.tally, self.known.bit_of)
        self.machine = Machine(self.tally)
        self.levels = Levels(self.tally, self.known.lapses)
        meet, takes = self.tally.meet, self._by_kind()
        for entry in self.log.entries:
            meet(entry.seq, entry.at)
            for take in takes.get(type(entry.event), ()):
                take(entry)
        self._ahead = {**self.tally.restored, **self.tally.offsets}
        if self.tally.last is not None:
            self.levels.end(self._last_day())

    def _by_kind(self) -> Mapping[type[Event], tuple[Callable[[Entry], None], ...]]:
        """Who takes in which kind of event."""
        found: defaultdict[type[Event], tuple[Callable[[Entry], None], ...]] = defaultdict(tuple)
        parts = (
            (machine.KINDS, self.machine.take),
            (levels.KINDS, self.levels.take),
            ((HoleDrilled,), self._used),
            (turns.KINDS, self.room.take),
            (others.KINDS, Others(self.tally).take),
        )
        for kinds, take in parts:
            for kind in kinds:
                found[kind] += (take,)
        return dict(found)

    def _used(self, entry: Entry) -> None:
        """A hole keeps the pupil's level from lapsing."""
        turn = self.room.turn
        self.levels.used(turn.pupil, turn.bit, entry.at.day)

    def _last_day(self) -> int:
        _, at = self.tally.last or (0, Moment("", 0, 0))
        return self.wall_us(at, 1) // (86_400 * SECOND_US)

    def wall_us(self, at: Moment, end: int) -> int:
        """The wall clock of the first (0) or last (1) moment; one told, if it was not set."""
        better = corrected(at, self.offsets)
        if better is not None:
            return better
        told = (self.tally.first_told, self.tally.last_told)[end]
        return told.wall_us if told and at.quality == UNSET else at.wall_us

    @property
    def offsets(self) -> Mapping[str, int]:
        """Of boots whose clock was once synchronised."""
        return self.tally.offsets

    def day(self, quarter: Quarter, day_of: DayOf) -> str:
        """The day of a quarter of an hour of this log."""
        return day_in(quarter, self._ahead, day_of)

    def uses(self, day_of: DayOf) -> dict[str, Use]:
        """What was done on each day."""
        days: defaultdict[str, Use] = defaultdict(Use)
        for quarter, use in self.tally.quarters.items():
            days[self.day(quarter, day_of)].add(use)
        return dict(days)


def report(logs: Iterable[Log], known: Known = Known()) -> Report:
    """The report over some logs, each gone through once."""
    counted = tuple(Counted(log, known) for log in logs)
    tally = together(one.tally for one in counted)
    days: defaultdict[str, Use] = defaultdict(Use)
    for one in counted:
        for day, use in one.uses(known.day_of).items():
            days[day].add(use)
    span, spans = spread(days)
    pupils = set[str]().union(*(use.pupils for use in days.values()))
    holes = tally.ranks("holes")
    return Report(
        drills=tuple(_drill(one, known.day_of) for one in counted),
        lapses=known.lapses,
        span=span,
        use_by_span=put_together(spans),
        use_by_group=put_together(tally.groups),
        use_by_level=put_together(tally.levels),
        holes=tuple((job, bit, count) for (job, bit), count in holes),
        set_ups=tuple((path, _times(tally, "set_up", path)) for path in PATHS),
        queue=_times(tally, "queue", ""),
        steps=_steps(tally),
        notes_by_hazard=_notes(counted, known.day_of),
        grants=_grants(tally),
        pupils=len(pupils) if len(pupils) >= LEAST else None,
        ranks={of: tally.ranks(of) for of in tally.counts},
    )


def _drill(one: Counted, day_of: DayOf) -> Drill:
    tally, machine = one.tally, one.machine
    first, last = tally.first or (0, Moment("", 0, 0)), tally.last or (0, Moment("", 0, 0))
    used = {day for day, use in one.uses(day_of).items() if use.sessions}
    looked = {one.day(quarter, day_of) for quarter in machine.looked}
    cut = {one.day(quarter, day_of) for quarter in tally.cuts}
    spread = tally.seconds.get(("run_down", ""), Counter())
    return Drill(
        machine=machine.name or one.log.about,
        log=one.log.id,
        first=first[0],
        last=last[0],
        first_wall_us=one.wall_us(first[1], 0),
        last_wall_us=one.wall_us(last[1], 1),
        entries=tally.entries,
        lessons=tally.total("lessons"),
        sessions=tally.total("sessions"),
        holes=tally.total("holes"),
        starts=tally.total("starts") if machine.tells else None,
        run_s=machine.run_us // SECOND_US if machine.tells else None,
        run_downs=times_of(spread, SLOW_RUN_DOWN) if spread else None,
        days=len(used),
        unlooked=len(used - looked - cut),
        out=machine.out,
        begins=machine.gone + 1,
        checks=tuple(machine.checks[name] for name in sorted(machine.checks)),
        faults=(*one.log.faults(), *_reset(tally)),
        clock=tuple(tally.clock),
        offsets=tuple(tally.offsets.items()),
    )


def _reset(tally: Tally) -> tuple[ChainFault, ...]:
    return (ChainFault("reset", 1, 1),) * tally.total("renewals")


def times_of(spread: Mapping[int, int], slow: int = SLOW_S) -> Times:
    """Number, median and how many over `slow`, of times with how often each came."""
    times = sum(spread.values())
    half, passed = (times + 1) // 2, 0
    for value in sorted(spread):
        passed += spread[value]
        if passed >= half:
            break
    over = sum(count for value, count in spread.items() if value > slow)
    return Times(times, value, over) if times else Times(0, 0, 0)


def _times(tally: Tally, of: str, word: str) -> Times | None:
    """How long something of pupils' took; None where too few stand behind it."""
    if len(tally.pupils.get((of, word), ())) < LEAST:
        return None
    return times_of(tally.seconds[of, word])


def _steps(tally: Tally) -> tuple[StepRow, ...]:
    """Every step that was timed, gone back to or not right: the longest in the middle first."""
    timed = {word for of, word in tally.seconds if of == "steps"}
    back, not_right = dict(tally.ranked("back")), dict(tally.ranked("not_right"))
    rows = [
        StepRow(step, _times(tally, "steps", step), back.get(step, 0), not_right.get(step, 0))
        for step in timed | set(back) | set(not_right)
    ]
    middle = {row.step: row.times.middle_s if row.times else -1 for row in rows}
    return tuple(sorted(rows, key=lambda row: (-middle[row.step], row.step)))


def _notes(counted: tuple[Counted, ...], day_of: DayOf) -> tuple[NoteRow, ...]:
    found: defaultdict[str, Counter[str]] = defaultdict(Counter)
    last: defaultdict[str, str] = defaultdict(str)
    for one in counted:
        for what, hazard, quarter in one.machine.notes:
            found[hazard][what] += 1
            last[hazard] = max(last[hazard], one.day(quarter, day_of))
    followed = [one.machine.incidents for one in counted]
    still = Counter(incident.hazard for each in followed for incident in each.open)
    due = {hazard for each in followed for hazard in each.marked}
    return tuple(
        _note(hazard, found[hazard], last[hazard], still[hazard], hazard in due)
        for hazard in sorted({*found, *still, *due})
    )


def _note(hazard: str, found: Counter[str], last_day: str, still: int, due: bool) -> NoteRow:
    near, incidents = found["near_miss"], found["incident"]
    others = sum(found.values()) - near - incidents
    return NoteRow(hazard, near, incidents, others, last_day, still, due)


def _grants(tally: Tally) -> tuple[tuple[str, tuple[int, int, int, int] | None], ...]:
    rows = []
    for level in Level:
        a, b, c, d = (dict(tally.ranked(of)).get(level.word, 0) for of in GRANTS)
        few = len(tally.pupils.get(("grants", level.word), ())) < LEAST
        if a or b or c or d:
            rows.append((level.word, None if few else (a, b, c, d)))
    return tuple(rows)
