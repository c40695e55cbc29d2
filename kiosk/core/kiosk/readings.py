"""What a new reading leads to: it may halt a session, never start or stop the drill."""

from __future__ import annotations

from kiosk.core.events import (
    Event,
    Interrupted,
    ReadingChanged,
    RunDownSeen,
    RunWithoutOkSeen,
    TroubleSeen,
)
from kiosk.core.inputs import ReadingIs
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import RUN_INPUTS, Decided, is_lost, took
from kiosk.core.model import Needs, Reading
from kiosk.core.session import Session
from kiosk.core.units import Moment

FOLLOWED = ("isolator", *RUN_INPUTS)
"""The inputs that a session goes by; guard and extraction are recorded and no more."""


def reading_is(kiosk: Kiosk, given: ReadingIs, now: Moment) -> Decided:
    """The reading is recorded, and what it means for the session standing now."""
    changed = ReadingChanged(given.input, given.reading.value, given.why, int(given.at_start))
    if given.input not in FOLLOWED:
        return took(changed)
    if given.input in RUN_INPUTS and given.reading is Reading.ON:
        return took(changed, *_running(kiosk, given.input))
    measured = _run_down(kiosk, given, now)
    if kiosk.session is None or kiosk.session.way != "sensed":
        return took(changed, *measured)
    return took(changed, *measured, *_in_session(kiosk.session, given))


def _run_down(kiosk: Kiosk, given: ReadingIs, now: Moment) -> tuple[Event, ...]:
    """How long the spindle ran on: it was seen turning, the starter went off, now it is still."""
    machine = kiosk.machine
    stopped, turned = machine.reading_since("starter"), machine.reading_since("spindle")
    came_to_rest = given.input == "spindle" and given.reading is Reading.OFF
    ran_on = machine.reading("spindle") is Reading.ON and machine.reading("starter") is Reading.OFF
    if not (came_to_rest and ran_on and stopped and turned and stopped.us >= turned.us):
        return ()
    passed = now.since(stopped)
    return (RunDownSeen(round(passed.s * 1000)),) if passed else ()


def _running(kiosk: Kiosk, name: str) -> tuple[Event, ...]:
    """The drill runs: nothing to say while drilling or in an adult's own use."""
    session = kiosk.session
    if kiosk.machine.own_use or (session is not None and session.is_drilling):
        return ()
    seen = RunWithoutOkSeen(name)
    if session is None or is_halted(session):
        return (seen,)
    return (seen, Interrupted("running"))


def is_halted(session: Session) -> bool:
    """Whether an adult must come anyway; the pictures of *Something wrong?* alone are no halt."""
    return session.halt is not None and not session.halt.is_unnamed


def _in_session(session: Session, given: ReadingIs) -> tuple[Event, ...]:
    if is_halted(session):
        return ()
    if is_lost(given.reading):
        return (
            TroubleSeen("reading_lost") if session.is_drilling else Interrupted("reading_lost"),
        )
    hands_in = session.step.needs is Needs.ISOLATOR_OFF
    if given.input == "isolator" and given.reading is Reading.ON and hands_in:
        return (Interrupted("isolator_on"),)
    return ()
