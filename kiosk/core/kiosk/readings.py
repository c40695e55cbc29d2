"""What a new reading leads to: it may halt a session, never start or stop the drill."""

from __future__ import annotations

from kiosk.core.events import Event, Interrupted, ReadingChanged, RunWithoutOkSeen, TroubleSeen
from kiosk.core.inputs import ReadingIs
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import RUN_INPUTS, Decided, is_lost, took
from kiosk.core.model import Needs, Reading
from kiosk.core.session import Session


def reading_is(kiosk: Kiosk, given: ReadingIs) -> Decided:
    """The reading is recorded, and what it means for the session standing now."""
    changed = ReadingChanged(given.input, given.reading.value, given.why, int(given.at_start))
    if given.input in RUN_INPUTS and given.reading is Reading.ON:
        return took(changed, *_running(kiosk, given.input))
    if kiosk.session is None or kiosk.session.way != "sensed":
        return took(changed)
    return took(changed, *_in_session(kiosk.session, given))


def _running(kiosk: Kiosk, name: str) -> tuple[Event, ...]:
    """The drill runs: nothing to say while drilling or in an adult's own use."""
    session = kiosk.session
    at_step = session is not None and session.step.part == "drill"
    if kiosk.machine.own_use or at_step:
        return ()
    seen = RunWithoutOkSeen(name)
    if session is None or session.halt:
        return (seen,)
    return (seen, Interrupted("running"))


def _in_session(session: Session, given: ReadingIs) -> tuple[Event, ...]:
    if session.halt:
        return ()
    if is_lost(given.reading):
        return (
            TroubleSeen("reading_lost") if session.is_drilling else Interrupted("reading_lost"),
        )
    hands_in = session.step.needs is Needs.ISOLATOR_OFF
    if given.input == "isolator" and given.reading is Reading.ON and hands_in:
        return (Interrupted("isolator_on"),)
    return ()
