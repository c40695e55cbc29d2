"""The kiosk at places of a lesson, with one thing changed: for tests of single questions."""

from __future__ import annotations

from functools import cache
from typing import Any

from kiosk.core.events import Entry, Event
from kiosk.core.kiosk import Decided, Kiosk, Shop
from kiosk.core.kiosk.adults import Trying
from kiosk.core.kiosk.desk import Desk
from kiosk.core.kiosk.line import Line, Waiting
from kiosk.core.model import Level, Reading
from kiosk.core.session import Session
from kiosk.core.values import replace
from kiosk.core.walk.beginning import begun
from kiosk.core.walk.grounds import WORK, Ground, ground_for
from kiosk.core.walk.spots import NOW, later
from tests.core.story import CONTENT, WORDS
from tests.mutation.arenas import shape_on, way_to

SOON = later(NOW, 900.0)
ON, OFF, LOST = Reading.ON, Reading.OFF, Reading.UNKNOWN
A1 = "a1"


@cache
def ground() -> Ground:
    """A workshop with an isolator and a starter contact, and a pupil who is supervised."""
    return ground_for(CONTENT, shape_on(CONTENT, WORDS, "drill-1", Level.SUPERVISED))


@cache
def kiosk_at(start: str) -> Kiosk:
    """The kiosk at a place: `lesson`, `hands`, `check`, `drilling`, `wrong` and so on."""
    return begun(ground(), way_to(start, ground())).spot.kiosk


def session_at(start: str) -> Session:
    """The session at a place."""
    found = kiosk_at(start).session
    assert found is not None
    return found


def standing_at(who: str) -> Kiosk:
    """The kiosk at the first step of the fresh path that is an adult's, the check apart."""
    fresh = session_at("hands").plan.fresh
    at = next(i for i, step in enumerate(fresh) if step.who == who and step.part != "check")
    return session(kiosk_at("hands"), at=at)


def _kiosk(place: str | Kiosk) -> Kiosk:
    return kiosk_at(place) if isinstance(place, str) else place


def session(place: str | Kiosk, **changes: Any) -> Kiosk:
    """The kiosk with its session changed."""
    kiosk = _kiosk(place)
    assert kiosk.session is not None
    return replace(kiosk, session=replace(kiosk.session, **changes))


def machine(place: str | Kiosk, **changes: Any) -> Kiosk:
    """The kiosk with its machine changed."""
    kiosk = _kiosk(place)
    return replace(kiosk, machine=replace(kiosk.machine, **changes))


def lesson(place: str | Kiosk, waiting: str = "", **changes: Any) -> Kiosk:
    """The kiosk with its lesson changed, or with a pupil waiting in line."""
    kiosk = _kiosk(place)
    assert kiosk.lesson is not None
    line = {"line": Line((Waiting(waiting, WORK, 0),))} if waiting else {}
    return replace(kiosk, lesson=replace(kiosk.lesson, **changes, **line))


def desk(place: str | Kiosk, **fields: Any) -> Kiosk:
    """The kiosk with only this on its desk."""
    return replace(_kiosk(place), desk=Desk(**fields))


def trying(at: str, purpose: str, adult: str, way: str = "pin") -> Kiosk:
    """The kiosk while it is looked for whose a PIN, a badge or a code is; its page was left."""
    kiosk = kiosk_at(at)
    return replace(kiosk, adults=replace(kiosk.adults, trying=Trying(adult, purpose, way=way)))


def adult(kiosk: Kiosk, role: str) -> Kiosk:
    """The kiosk with its first adult in another role, for no machine."""
    first, *others = kiosk.adults.known
    known = (replace(first, role=role, until=()), *others)
    return replace(kiosk, adults=replace(kiosk.adults, known=known))


def reading(kiosk: Kiosk, **readings: Reading) -> Kiosk:
    """The kiosk with these readings."""
    told = {name: r for name, r, _ in kiosk.machine.readings} | readings
    listed = tuple((name, r, NOW) for name, r in told.items())
    return replace(kiosk, machine=replace(kiosk.machine, readings=listed))


def shop_with(*inputs: str) -> Shop:
    """The workshop with these contacts wired to its drill."""
    wiring = ground().shop.machine.wiring
    wired = replace(wiring, inputs=tuple((name, wiring.inputs[0][1]) for name in inputs))
    return replace(ground().shop, machine=replace(ground().shop.machine, wiring=wired))


def entry(event: Event) -> Entry:
    """An event of just now."""
    return Entry(1, SOON, event)


def kinds(decided: Decided) -> tuple[str, ...]:
    """The kinds of event that an input leads to."""
    return tuple(type(event).__name__ for event in decided.events)
