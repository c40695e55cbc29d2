"""What pupils did: turns, steps and how long they took, the line, holes, checks.

Only a pupil's own time is measured. What an adult does or is waited for is not timed anywhere:
neither the check before a start, nor an adult's step, nor what follows an interruption.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from typing import Any

from kiosk.core.events import (
    CheckAsked,
    DrillingShown,
    Entry,
    Event,
    HoleDrilled,
    Interrupted,
    InterruptionCleared,
    KioskStarted,
    LeftLine,
    LessonClosed,
    LessonOpened,
    LinedUp,
    MistakeCleared,
    NotRight,
    OkGiven,
    RecoveryStepDone,
    SaidAllowed,
    SessionEnded,
    SessionStarted,
    StepDone,
    SteppedBack,
    TroubleNamed,
)
from kiosk.core.report.tally import Tally, Use
from kiosk.core.units import Moment

UNKNOWN_JOB = ""
"""A hole whose session began before the stretch: its job and bit are not in it."""


@dataclass
class Turn:
    """The turn that goes on. `since` is when the pupil's present step began, `began` when the
    turn did, both in µs since boot and None where they are not to be timed.
    """

    pupil: str = ""
    job: str = UNKNOWN_JOB
    bit: str = ""
    path: str = ""
    group: str = ""
    level: str = ""
    since: int | None = None
    began: int | None = None


@dataclass
class Room:
    """Where things stand in the room: the boot, the group at the drill, the line, the turn.

    `bit` is the one of the plan that came with the entry.
    """

    tally: Tally
    bit_of: Callable[[str, int], str]
    boot: str = ""
    group: str = ""
    waiting: dict[str, int] = field(default_factory=dict)
    turn: Turn = field(default_factory=Turn)
    bit: str = ""

    def take(self, entry: Entry) -> None:
        """Count what the entry says of pupils and lessons."""
        if entry.at.boot != self.boot:
            self._new_boot(entry.at.boot)
        self.bit = entry.plan.set_up.bit if entry.plan else ""
        _TAKES[type(entry.event)](self, entry.at, entry.event)

    def _new_boot(self, boot: str) -> None:
        """Times of one boot are not compared with those of another."""
        self.boot, self.turn.since, self.turn.began = boot, None, None
        self.waiting.clear()

    def uses(self, at: Moment, group: str) -> tuple[Use, Use]:
        """Where use is counted: the quarter of an hour, and the group."""
        return self.tally.quarter(at), self.tally.groups[group]


# --- the room -----------------------------------------------------------------------------------


def _opened(room: Room, at: Moment, event: LessonOpened) -> None:
    room.group = event.group
    room.tally.count("lessons")
    for use in room.uses(at, room.group):
        use.lessons += 1


def _closed(room: Room, at: Moment, event: LessonClosed) -> None:
    room.group = ""
    room.waiting.clear()


def _lined_up(room: Room, at: Moment, event: LinedUp) -> None:
    room.waiting.setdefault(event.pupil, at.us)


def _left_line(room: Room, at: Moment, event: LeftLine) -> None:
    room.waiting.pop(event.pupil, None)


# --- the turn -----------------------------------------------------------------------------------


def _started(room: Room, at: Moment, event: SessionStarted) -> None:
    bit = room.bit or room.bit_of(event.job, event.hole)
    room.turn = Turn(event.pupil, event.job, bit, event.path, room.group, event.level, at.us, at.us)
    tally = room.tally
    tally.count("sessions")
    tally.count("ways", event.way)
    if event.pupil in room.waiting:
        tally.took("queue", "", at.us - room.waiting.pop(event.pupil), event.pupil)
    for use in (*room.uses(at, room.group), tally.levels[event.level]):
        use.sessions += 1
        use.pupils.add(event.pupil)


def _step_done(room: Room, at: Moment, event: StepDone) -> None:
    turn = room.turn
    if turn.since is not None and event.by == "pupil":
        room.tally.took("steps", event.step, at.us - turn.since, turn.pupil)
    turn.since = at.us


def _stepped_back(room: Room, at: Moment, event: SteppedBack) -> None:
    room.tally.count("back", event.step)
    room.turn.since = at.us


def _set_up(room: Room, at: Moment, event: CheckAsked | DrillingShown) -> None:
    """The first time in a turn that all is ready: its set-up took until now."""
    turn = room.turn
    if isinstance(event, CheckAsked):
        room.tally.count("asked")
    if turn.began is not None and turn.path:
        room.tally.took("set_up", turn.path, at.us - turn.began, turn.pupil)
    turn.began = turn.since = None


def _ok_given(room: Room, at: Moment, event: OkGiven) -> None:
    room.tally.count("checks", event.by)
    room.turn.since = None


def _not_right(room: Room, at: Moment, event: NotRight) -> None:
    room.tally.count("not_right", event.step)
    room.turn.since = at.us


def _hole(room: Room, at: Moment, event: HoleDrilled) -> None:
    turn = room.turn
    room.tally.count("holes", turn.job, turn.bit)
    room.tally.count("run", event.run)
    for use in (*room.uses(at, turn.group), room.tally.levels[turn.level]):
        use.holes += 1
    turn.since = at.us


def _interrupted(room: Room, at: Moment, event: Interrupted) -> None:
    room.tally.count("interruptions", event.why)
    room.turn.since = room.turn.began = None


def _named(room: Room, at: Moment, event: TroubleNamed) -> None:
    room.tally.count("troubles", event.trouble)
    room.turn.since = room.turn.began = None


def _recovering(room: Room, at: Moment, event: RecoveryStepDone) -> None:
    room.turn.since = None


def _goes_on(room: Room, at: Moment, event: Event) -> None:
    room.turn.since = at.us


def _ended(room: Room, at: Moment, event: SessionEnded) -> None:
    room.tally.count("endings", event.how)
    room.turn = Turn(group=room.group)


def _restarted(room: Room, at: Moment, event: KioskStarted) -> None:
    room.turn.since = room.turn.began = None
    room.waiting.clear()


_TAKES: Mapping[type[Event], Callable[[Room, Moment, Any], None]] = {
    LessonOpened: _opened,
    LessonClosed: _closed,
    LinedUp: _lined_up,
    LeftLine: _left_line,
    SessionStarted: _started,
    StepDone: _step_done,
    SteppedBack: _stepped_back,
    CheckAsked: _set_up,
    DrillingShown: _set_up,
    OkGiven: _ok_given,
    NotRight: _not_right,
    HoleDrilled: _hole,
    Interrupted: _interrupted,
    TroubleNamed: _named,
    RecoveryStepDone: _recovering,
    MistakeCleared: _goes_on,
    InterruptionCleared: _goes_on,
    SaidAllowed: _goes_on,
    SessionEnded: _ended,
    KioskStarted: _restarted,
}

KINDS = tuple(_TAKES)
