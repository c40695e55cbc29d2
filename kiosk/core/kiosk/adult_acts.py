"""What adults' touches and PINs lead to: names, PIN tries, the OK, spells."""

from __future__ import annotations

from kiosk.core.events import (
    AdultPicked,
    DrillingShown,
    Event,
    LessonConfirmed,
    OkGiven,
    PageOpened,
    PinFailed,
    PinPassed,
    PinTried,
    SaidAllowed,
    SpellEnded,
    SpellStarted,
)
from kiosk.core.inputs import AskAdult, EndSpell, PickAdult, PinChecked, SpellOk, Touch, TypePin
from kiosk.core.kiosk.adults import Trying
from kiosk.core.kiosk.allowed import may
from kiosk.core.kiosk.asks import (
    halt_of,
    hands_off,
    is_adults_turn,
    is_running,
    spells_allowed,
)
from kiosk.core.kiosk.everyone import can_resume, resumed
from kiosk.core.kiosk.pupil_acts import step_done
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, STANDS_FOR_S, Decided, Shop, refused, took
from kiosk.core.plan.shape import PlanStep
from kiosk.core.units import Moment

PURPOSES = ("ok", "step", "said", "resume", "clear", "confirm", "menu")


def adult_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from an adult's touch; None if the touch is something else."""
    match touch:
        case AskAdult(purpose):
            return _ask(shop, kiosk, purpose)
        case PickAdult(adult):
            return _pick(kiosk, adult)
        case TypePin(adult, _, stay):
            return _try_pin(shop, kiosk, adult, stay, now)
        case SpellOk():
            return _spell_ok(shop, kiosk, now)
        case EndSpell() if kiosk.lesson and kiosk.lesson.spell:
            return took(SpellEnded("touch"))
    return None


def _ask(shop: Shop, kiosk: Kiosk, purpose: str) -> Decided:
    if kiosk.session and kiosk.session.is_drilling:
        return refused("drilling")
    if not is_wanted(shop, kiosk, purpose):
        return NOTHING
    return took(PageOpened("names", purpose))


def is_wanted(shop: Shop, kiosk: Kiosk, purpose: str) -> bool:
    """Whether an adult is asked for this purpose now; never while the drill is seen running."""
    session, halt = kiosk.session, halt_of(kiosk)
    if is_running(shop, kiosk) and purpose not in ("menu", "confirm"):
        return False
    match purpose:
        case "ok":
            return session is not None and session.is_waiting_for_adult
        case "step":
            return session is not None and not session.halt and is_adults_step(session.step)
        case "said":
            return session is not None and not session.halt and not session.allowed
        case "clear":
            return halt is not None and is_ready_to_clear(shop, kiosk)
        case "confirm":
            return is_free(kiosk) and kiosk.lesson is not None and not kiosk.lesson.confirmed
        case "resume":
            return can_resume(kiosk)
    return purpose == "menu" and is_free(kiosk)


def is_adults_step(step: PlanStep) -> bool:
    """Whether an adult does this step; the check is not done but ends with the OK."""
    return step.who == "adult" and step.part != "check"


def is_free(kiosk: Kiosk) -> bool:
    """Whether nobody is at the drill and nothing is wrong or in doubt: the desk may be used."""
    busy = kiosk.machine.own_use or kiosk.machine.ask_still
    return kiosk.session is None and halt_of(kiosk) is None and not busy


def is_ready_to_clear(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether only the adult is left: the pupil's recovery steps are done."""
    halt = halt_of(kiosk)
    return halt is not None and is_adults_turn(shop, halt)


def _pick(kiosk: Kiosk, adult: str) -> Decided:
    if kiosk.desk.page not in ("names", "pin") or kiosk.adults.find(adult) is None:
        return NOTHING
    return took(AdultPicked(adult))


def _try_pin(shop: Shop, kiosk: Kiosk, adult: str, stay: int, now: Moment) -> Decided:
    why_not = not_tried(shop, kiosk, adult, "pin", now)
    if why_not is not None:
        return why_not
    if kiosk.adults.wait_left(adult, now).s > 0:
        return refused("pin_wait")
    return took(PinTried(adult, kiosk.desk.purpose, stay))


def not_tried(shop: Shop, kiosk: Kiosk, adult: str, page: str, now: Moment) -> Decided | None:
    """Why an adult's digits from the page are not tried just now; None if nothing is against it."""
    desk = kiosk.desk
    if desk.page != page or desk.adult != adult or kiosk.adults.find(adult) is None:
        return NOTHING
    if not may(shop, kiosk, adult, desk.purpose, now):
        return refused("not_allowed")
    return refused("pin_busy") if kiosk.adults.trying else None


def pin_checked(shop: Shop, kiosk: Kiosk, given: PinChecked, now: Moment) -> Decided:
    """The worker has compared the PIN: what it was asked for follows, if it is still wanted."""
    trying = kiosk.adults.trying
    if trying is None or trying.way != "pin" or trying.adult != given.adult:
        return NOTHING
    if not given.right or kiosk.adults.find(trying.adult) is None:
        return took(PinFailed(trying.adult, trying.purpose))
    passed = PinPassed(trying.adult, trying.purpose)
    return took(passed, *consequences(shop, kiosk, trying, now))


def consequences(shop: Shop, kiosk: Kiosk, trying: Trying, now: Moment) -> tuple[Event, ...]:
    """What an adult let in leads to; nothing if the page was left: nobody waits for it any more."""
    wanted = kiosk.desk.typed and is_wanted(shop, kiosk, trying.purpose)
    if not wanted or not may(shop, kiosk, trying.adult, trying.purpose, now):
        return ()
    match trying.purpose:
        case "ok":
            return _ok(shop, kiosk, trying.adult, trying.way, trying.stay)
        case "step":
            return _adult_step(shop, kiosk, trying.adult, now)
        case "said":
            return (SaidAllowed(trying.adult),)
        case "confirm":
            return (LessonConfirmed(trying.adult),)
        case "resume":
            return resumed(kiosk, trying.adult)
    return (PageOpened(trying.purpose),)


def _ok(shop: Shop, kiosk: Kiosk, adult: str, by: str, stay: bool) -> tuple[Event, ...]:
    assert kiosk.session is not None
    hole = kiosk.session.done + 1
    spell = (SpellStarted(adult),) if stay and spells_allowed(shop, kiosk) and kiosk.lesson else ()
    return (OkGiven(adult, by, hole), *spell, DrillingShown(hole, "check"))


def _adult_step(shop: Shop, kiosk: Kiosk, adult: str, now: Moment) -> tuple[Event, ...]:
    session = kiosk.session
    if session is None or hands_off(shop, kiosk, session, session.step):
        return ()
    return step_done(kiosk, session, adult, now)


def at_the_drill(kiosk: Kiosk, now: Moment) -> str:
    """Whose one touch does an adult's step: in a spell, or soon after the step before."""
    spell = kiosk.lesson.spell if kiosk.lesson else None
    return spell.adult if spell else _stood(kiosk, now)


def _stood(kiosk: Kiosk, now: Moment) -> str:
    session = kiosk.session
    if session is None:
        return ""
    gone = now.since(session.touched)
    return session.stood if gone is not None and gone.s <= STANDS_FOR_S else ""


def _spell_ok(shop: Shop, kiosk: Kiosk, now: Moment) -> Decided:
    spell, adult = kiosk.lesson.spell if kiosk.lesson else None, at_the_drill(kiosk, now)
    if not adult or kiosk.session is None:
        return NOTHING
    if not may(shop, kiosk, adult, "ok", now):
        return refused("not_allowed")
    if spell and is_wanted(shop, kiosk, "ok"):
        return took(*_ok(shop, kiosk, adult, "spell", False))
    if is_wanted(shop, kiosk, "step"):
        events = _adult_step(shop, kiosk, adult, now)
        return took(*events) if events else refused("isolator_not_off")
    return NOTHING
