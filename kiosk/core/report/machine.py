"""What the machine and the kiosk did: contacts, runs, checks of the day, notes, the clock."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from kiosk.core.events import (
    BitsChanged,
    CheckDone,
    ClockStepped,
    DownSaid,
    Entry,
    Event,
    FollowedUp,
    HazardMarked,
    IncidentClosed,
    IncidentKept,
    KioskStarted,
    Noted,
    PreUseFailed,
    PreUsePassed,
    Purged,
    ReadingChanged,
    RecordRenewed,
    ReturnedToUse,
    ReviewSaid,
    RunDownSeen,
    RunWithoutOkSeen,
    TakenOutOfUse,
)
from kiosk.core.kiosk.care import CheckState
from kiosk.core.kiosk.incidents import Incidents, advance_incidents
from kiosk.core.report.clock import ClockRemark, Quarter, quarter_of
from kiosk.core.report.tally import Tally
from kiosk.core.units import Moment

RUN_INPUTS = ("starter", "spindle")
FOLLOWING = frozenset((Noted, FollowedUp, ReviewSaid, IncidentClosed, IncidentKept, HazardMarked))
CLOCKED = frozenset((KioskStarted, ClockStepped))
LOST = ("unknown", "fault")
RUN_DOWN_MS = 100  # run-down times are counted in tenths of a second


@dataclass
class Machine:
    """The drill as its contacts tell of it. `running` is when it was last seen to start: the
    boot, and µs since it; `looked` is when a check of the day was passed; `out` why
    it is out of use; `gone` is the last line that retention took away.
    """

    tally: Tally
    name: str = ""
    readings: dict[str, str] = field(default_factory=dict)
    running: tuple[str, int] | None = None
    run_us: int = 0
    out: str = ""
    looked: set[Quarter] = field(default_factory=set)
    notes: list[tuple[str, str, Quarter]] = field(default_factory=list)
    gone: int = 0
    incidents: Incidents = Incidents()
    checks: dict[str, CheckState] = field(default_factory=dict)

    def take(self, entry: Entry) -> None:
        """Count what the entry says of the machine, the kiosk and its record."""
        kind = type(entry.event)
        _TAKES[kind](self, entry.at, entry.event)
        if kind in FOLLOWING:
            self.incidents = advance_incidents(self.incidents, entry)
        if kind in CLOCKED:
            _remark(self, entry)

    @property
    def tells(self) -> bool:
        """Whether a contact that knows of starts was ever heard of."""
        return any(name in self.readings for name in RUN_INPUTS)

    @property
    def counted(self) -> str:
        """The contact whose starts count: of two, the starter."""
        return next((name for name in RUN_INPUTS if name in self.readings), "")


def _moved(machine: Machine, at: Moment, event: ClockStepped) -> None:
    machine.tally.count("clock_moved")


def _remark(machine: Machine, entry: Entry) -> None:
    clock = machine.tally.clock
    if isinstance(entry.event, ClockStepped):
        clock.append(ClockRemark(entry.seq, "stepped", entry.event.by_us))
    elif entry.at.quality == 0:
        clock.append(ClockRemark(entry.seq, "not_set"))


def _kiosk_started(machine: Machine, at: Moment, event: KioskStarted) -> None:
    machine.name = event.machine
    machine.tally.count("restarts", event.after)
    machine.readings = dict.fromkeys(machine.readings, "unknown")
    machine.running = None


def _renewed(machine: Machine, at: Moment, event: RecordRenewed) -> None:
    machine.tally.count("renewals")


def _purged(machine: Machine, at: Moment, event: Purged) -> None:
    machine.gone = max(machine.gone, event.last)


def _reading(machine: Machine, at: Moment, event: ReadingChanged) -> None:
    """A start is a starter or spindle contact going from off to on; of two, the starter counts."""
    before = machine.readings.get(event.input, "")
    machine.readings[event.input] = event.reading
    if event.input == machine.counted:
        _run(machine, at, before, event.reading)
    if event.reading in LOST and not event.at_start and before not in LOST:
        machine.tally.count("readings_lost", event.input, event.why)


def _run(machine: Machine, at: Moment, before: str, now: str) -> None:
    if before == "off" and now == "on":
        machine.tally.count("starts")
        machine.running = (at.boot, at.us)
    elif machine.running is not None and now != "on":
        boot, began = machine.running
        machine.run_us += at.us - began if now == "off" and boot == at.boot else 0
        machine.running = None


def _run_down(machine: Machine, at: Moment, event: RunDownSeen) -> None:
    machine.tally.seconds["run_down", ""][event.ms // RUN_DOWN_MS] += 1


def _without_ok(machine: Machine, at: Moment, event: RunWithoutOkSeen) -> None:
    machine.tally.count("runs_without_ok", event.input)


def _passed(machine: Machine, at: Moment, event: PreUsePassed) -> None:
    machine.tally.count("pre_use_passed")
    machine.looked.add(quarter_of(at))


def _failed(machine: Machine, at: Moment, event: PreUseFailed) -> None:
    machine.tally.count("pre_use_failed", event.item)
    machine.out = machine.out or event.item


def _taken_out(machine: Machine, at: Moment, event: TakenOutOfUse) -> None:
    machine.tally.count("out_of_use", event.reason)
    machine.out = event.reason


def _returned(machine: Machine, at: Moment, event: ReturnedToUse) -> None:
    machine.tally.count("returned")
    machine.out = ""


def _noted(machine: Machine, at: Moment, event: Noted) -> None:
    machine.tally.count("notes", event.what)
    machine.notes.append((event.what, event.hazard, quarter_of(at)))


def _followed(machine: Machine, at: Moment, event: Event) -> None:
    """What became of an incident is taken in by its own fold."""


def _closed(machine: Machine, at: Moment, event: IncidentClosed) -> None:
    machine.tally.count("incidents_closed")


def _checked(machine: Machine, at: Moment, event: CheckDone) -> None:
    machine.checks[event.check] = CheckState(event.check, event.found, event.day)


def _bits(machine: Machine, at: Moment, event: BitsChanged) -> None:
    machine.tally.count("bits_changed", event.bit, event.what)


def _down(machine: Machine, at: Moment, event: DownSaid) -> None:
    machine.tally.count("down", "days")
    machine.tally.count("down", "minutes", times=event.minutes)
    machine.tally.count("down", "holes", times=event.holes)


_TAKES: Mapping[type[Event], Callable[[Machine, Moment, Any], None]] = {
    KioskStarted: _kiosk_started,
    ClockStepped: _moved,
    RecordRenewed: _renewed,
    Purged: _purged,
    ReadingChanged: _reading,
    RunDownSeen: _run_down,
    RunWithoutOkSeen: _without_ok,
    PreUsePassed: _passed,
    PreUseFailed: _failed,
    TakenOutOfUse: _taken_out,
    ReturnedToUse: _returned,
    Noted: _noted,
    **dict.fromkeys((FollowedUp, ReviewSaid, IncidentKept, HazardMarked), _followed),
    IncidentClosed: _closed,
    CheckDone: _checked,
    BitsChanged: _bits,
    DownSaid: _down,
}

KINDS = tuple(_TAKES)
