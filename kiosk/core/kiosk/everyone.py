"""*Everyone stop*: one touch by anybody in a lesson; an adult's PIN lets work go on.

It is a message and no control: the screen says stop, and nobody begins. A turn is halted and
survives. While the drill may be turning it is not offered: that screen asks for no touch.
"""

from __future__ import annotations

from kiosk.core.events import (
    DeskCleared,
    Event,
    EveryoneStopped,
    Interrupted,
    InterruptionCleared,
    Resumed,
)
from kiosk.core.inputs import StopEveryone, Touch
from kiosk.core.kiosk.asks import halt_of
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, is_lost, took

WHY = "everyone"


def everyone_acts(kiosk: Kiosk, touch: Touch) -> Decided | None:
    """What follows from *Everyone stop*; None if the touch is something else."""
    if not isinstance(touch, StopEveryone):
        return None
    lesson, session = kiosk.lesson, kiosk.session
    if lesson is None or not can_stop(kiosk):
        return NOTHING
    stopped = EveryoneStopped(lesson.spell.adult if lesson.spell else "")
    if session is None or session.halt:
        return took(stopped)
    return took(stopped, Interrupted(WHY))


def is_at_work(kiosk: Kiosk) -> bool:
    """Whether a lesson is on and its drill in use, but not turning for all that is known."""
    lesson, machine, session = kiosk.lesson, kiosk.machine, kiosk.session
    if session is not None and session.is_drilling:
        return False
    nobody = machine.ask_still or machine.own_use or machine.out_of_use or machine.halt
    return lesson is not None and lesson.confirmed and not nobody


def can_stop(kiosk: Kiosk) -> bool:
    """Whether there is work to stop, and it is not stopped yet."""
    return is_at_work(kiosk) and not is_stopped(kiosk)


def is_stopped(kiosk: Kiosk) -> bool:
    """Whether everyone is stopped and no adult has let work go on."""
    return kiosk.lesson is not None and bool(kiosk.lesson.stopped)


def can_resume(kiosk: Kiosk) -> bool:
    """Whether only the adult's PIN is missing: no other trouble stands."""
    halt = halt_of(kiosk)
    alone = halt is None or (halt.why == WHY and not halt.trouble)
    return is_stopped(kiosk) and alone and not kiosk.machine.ask_still


def stopped_again(kiosk: Kiosk) -> tuple[Event, ...]:
    """What follows where a halt ends while everyone is stopped: the turn is halted for that."""
    return (Interrupted(WHY),) if is_stopped(kiosk) else ()


def resumed(kiosk: Kiosk, adult: str) -> tuple[Event, ...]:
    """An adult lets work go on; a halted turn goes on too, from making the set-up again.

    Where its isolator can't be read any more, it goes on by looking.
    """
    session = kiosk.session
    if session is None or session.halt is None:
        return (Resumed(adult), DeskCleared())
    unread = session.way == "sensed" and is_lost(kiosk.machine.reading("isolator"))
    return (Resumed(adult), InterruptionCleared(adult, "look" if unread else "again"))
