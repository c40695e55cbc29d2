"""The machine's part of the state: readings, out of use, last check, kept set-up, a cut."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.events import (
    Entry,
    EveryoneStopped,
    HoleDrilled,
    Interrupted,
    InterruptionCleared,
    KioskStarted,
    LessonClosed,
    LessonOpened,
    NotRight,
    OkGiven,
    OwnHoleCounted,
    OwnUseEnded,
    OwnUseStarted,
    PreUseFailed,
    PreUsePassed,
    ReadingChanged,
    RecoveryStepDone,
    ReturnedToUse,
    RunWithoutOkSeen,
    SessionEnded,
    StepDone,
    StillConfirmed,
    TakenOutOfUse,
    TroubleNamed,
)
from kiosk.core.model import Reading
from kiosk.core.plan.going_back import SET_UP_PARTS, is_of_set_up, line_called
from kiosk.core.plan.shape import SetUp
from kiosk.core.session import Halt, Session
from kiosk.core.units import Moment
from kiosk.core.values import replace

_VOIDING = {
    OwnUseStarted: "own_use",
    RunWithoutOkSeen: "run",
    Interrupted: "interruption",
    TroubleNamed: "interruption",
    EveryoneStopped: "everyone",
    KioskStarted: "restart",
    LessonOpened: "lesson",
    LessonClosed: "lesson",
}


@dataclass(frozen=True)
class KeptSetUp:
    """A set-up an adult gave the OK to in entry `entry`, last used at `used`."""

    spec: SetUp
    entry: int
    used: Moment


@dataclass(frozen=True)
class Cut:
    """A session that a restart cut short."""

    pupil: str
    done: int
    holes: int


@dataclass(frozen=True)
class MachineState:
    """What is known of the machine.

    `readings` maps an input's name to its reading and when it came, `losses` to why it is lost.
    `ask_still` stands after a restart until someone has seen the drill still. `halt` is a trouble
    named while no session was open. `out_by` took it out of use. `own_holes`: those
    that the adult who drills has counted.
    """

    readings: tuple[tuple[str, Reading, Moment], ...] = ()
    out_of_use: str = ""
    pre_use: Moment | None = None
    set_up: KeptSetUp | None = None
    void_why: str = ""
    own_use: str = ""
    halt: Halt | None = None
    ask_still: bool = False
    cut: Cut | None = None
    losses: tuple[tuple[str, str], ...] = ()
    out_by: str = ""
    own_holes: int = 0

    def reading(self, name: str) -> Reading:
        """The reading of an input; unknown if it never spoke."""
        return next((r for n, r, _ in self.readings if n == name), Reading.UNKNOWN)

    def reading_since(self, name: str) -> Moment | None:
        """When the input's reading last changed."""
        return next((at for n, _, at in self.readings if n == name), None)


def advance_machine(machine: MachineState, entry: Entry, before: Session | None) -> MachineState:
    """The machine's part after the entry; `before` is the session as it was before it."""
    after = _advance_use(machine, entry, before)
    after = _advance_readings(after, entry)
    after = after if before else _advance_halt(after, entry)
    return _advance_set_up(after, entry, before)


def _advance_use(machine: MachineState, entry: Entry, before: Session | None) -> MachineState:
    match entry.event:
        case PreUsePassed():
            return replace(machine, pre_use=entry.at)
        case PreUseFailed(adult, item):
            return replace(machine, pre_use=None, out_of_use=item, out_by=adult)
        case TakenOutOfUse(reason, adult):
            return replace(machine, out_of_use=reason, out_by=adult)
        case ReturnedToUse():
            return replace(machine, out_of_use="", out_by="")
        case OwnUseStarted(adult):
            return replace(machine, own_use=adult, own_holes=0)
        case OwnHoleCounted():
            return replace(machine, own_holes=machine.own_holes + 1)
        case OwnUseEnded():
            return replace(machine, own_use="")
        case StillConfirmed():
            return replace(machine, ask_still=False, cut=None)
        case KioskStarted(_, _, after):
            return _restarted(machine, after, before)
    return machine


def _advance_halt(machine: MachineState, entry: Entry) -> MachineState:
    match entry.event:
        case TroubleNamed(trouble):
            return replace(machine, halt=Halt("wrong", trouble))
        case RecoveryStepDone() if machine.halt:
            return replace(machine, halt=replace(machine.halt, at=machine.halt.at + 1))
        case InterruptionCleared():
            return replace(machine, halt=None)
    return machine


def _restarted(machine: MachineState, after: str, before: Session | None) -> MachineState:
    cut = Cut(before.pupil, before.done, before.plan.holes) if before else machine.cut
    return replace(
        machine,
        readings=(),
        losses=(),
        own_use="",
        ask_still=machine.ask_still or after == "cut" or before is not None,
        cut=cut,
    )


def _advance_readings(machine: MachineState, entry: Entry) -> MachineState:
    if not isinstance(entry.event, ReadingChanged):
        return machine
    name, reading = entry.event.input, Reading(entry.event.reading)
    others = tuple(r for r in machine.readings if r[0] != name)
    losses = tuple(loss for loss in machine.losses if loss[0] != name)
    if reading in (Reading.UNKNOWN, Reading.FAULT) and entry.event.why != "settled":
        losses = (*losses, (name, entry.event.why))
    return replace(machine, readings=(*others, (name, reading, entry.at)), losses=losses)


def _advance_set_up(machine: MachineState, entry: Entry, before: Session | None) -> MachineState:
    why = _VOIDING.get(type(entry.event))
    if why:
        return _voided(machine, why)
    match entry.event:
        case NotRight(step) if before and _is_of_set_up(before, step):
            return _voided(machine, "not_right")
        case StepDone() if before and SET_UP_PARTS & set(before.step.touches):
            return _voided(machine, "changed")
        case OkGiven() if before:
            kept = KeptSetUp(before.plan.set_up, entry.seq, entry.at)
            return replace(machine, set_up=kept, void_why="")
        case HoleDrilled() | SessionEnded() if machine.set_up:
            return replace(machine, set_up=replace(machine.set_up, used=entry.at))
    return machine


def _is_of_set_up(session: Session, step: str) -> bool:
    line = line_called(session.plan, step)
    return line is None or is_of_set_up(line)


def _voided(machine: MachineState, why: str) -> MachineState:
    """No set-up is kept. Where none was, the reason before stands; a new lesson forgets it."""
    told = machine.set_up is not None or why == "lesson"
    return replace(machine, set_up=None, void_why=why if told else machine.void_why)
