"""What *Something wrong?* leads to: a picture, what to do now, recovery steps, an adult."""

from __future__ import annotations

from kiosk.core.events import (
    CheckAsked,
    DeskCleared,
    Interrupted,
    MistakeCleared,
    PageOpened,
    RecoveryStepDone,
    TroubleNamed,
    TroubleSeen,
)
from kiosk.core.inputs import ByMistake, NameTrouble, SeenRight, SomethingWrong, StaysOn, Touch
from kiosk.core.kiosk.asks import halt_of, is_off_awaited, is_running, recovery_step
from kiosk.core.kiosk.everyone import stopped_again
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.session import Halt


def trouble_acts(shop: Shop, kiosk: Kiosk, touch: Touch) -> Decided | None:
    """What follows from a touch about a trouble; None if the touch is about something else."""
    halt = halt_of(kiosk)
    match touch:
        case SomethingWrong():
            return _something_wrong(kiosk)
        case NameTrouble(trouble):
            return _name_trouble(shop, kiosk, trouble)
        case ByMistake():
            return _by_mistake(kiosk)
        case SeenRight(step) if halt:
            return _recovery_step(shop, kiosk, halt, step)
        case StaysOn(step) if halt:
            return _stays_on(shop, kiosk, halt, step)
    return None


def _something_wrong(kiosk: Kiosk) -> Decided:
    """While the drill may be turning one line is added; otherwise the pictures come up."""
    session = kiosk.session
    if session is None or session.halt:
        return took(PageOpened("wrong"))
    if session.is_drilling:
        return NOTHING if session.trouble else took(TroubleSeen("wrong"))
    return took(Interrupted("wrong"))


def is_naming(kiosk: Kiosk) -> bool:
    """Whether the pictures of *Something wrong?* are shown."""
    halt = kiosk.session.halt if kiosk.session else None
    if kiosk.desk.page == "wrong":
        return True
    return halt is not None and halt.why == "wrong" and not halt.trouble and not kiosk.desk.page


def _name_trouble(shop: Shop, kiosk: Kiosk, trouble: str) -> Decided:
    if not is_naming(kiosk) or shop.content.recovery(trouble) is None:
        return NOTHING
    return took(TroubleNamed(trouble))


def _by_mistake(kiosk: Kiosk) -> Decided:
    """Clears itself when nothing was running since the OK; otherwise an adult must look."""
    session = kiosk.session
    if kiosk.desk.page == "wrong":
        return took(DeskCleared())
    if session is None or session.halt is None or not is_naming(kiosk):
        return NOTHING
    if session.run_seen:
        return refused("was_running")
    again = stopped_again(kiosk)
    asks = session.step.part == "drill" and not again
    return took(MistakeCleared(), *((CheckAsked(session.done + 1),) if asks else again))


def _recovery_step(shop: Shop, kiosk: Kiosk, halt: Halt, step: str) -> Decided:
    due = recovery_step(shop, halt)
    if due is None or due.id != step:
        return NOTHING
    if due.who == "adult":
        return refused("adult_step")
    why = recovery_waits(shop, kiosk)
    return refused(why) if why else took(RecoveryStepDone(step, "pupil"))


def _stays_on(shop: Shop, kiosk: Kiosk, halt: Halt, step: str) -> Decided:
    """The pupil goes on to fetching an adult, whose hands wait for the isolator all the same."""
    due = recovery_step(shop, halt)
    if due is None or due.id != step or due.who == "adult" or not is_off_awaited(shop, kiosk):
        return NOTHING
    return took(RecoveryStepDone(step, "nobody"))


def recovery_waits(shop: Shop, kiosk: Kiosk) -> str:
    """Why the recovery step now due can't be done yet; empty if nothing speaks against it.

    A reading that is lost holds nobody up in a trouble: whoever is there looks.
    """
    if is_running(shop, kiosk):
        return "still_running"
    return "isolator_not_off" if is_off_awaited(shop, kiosk) else ""
