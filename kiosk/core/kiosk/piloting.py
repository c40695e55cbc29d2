"""A pilot goes first: of a hole that has one, only as many are drilled as have their pilot.

The pilots are those in the pupil's own work: drilled here, or seen there by an adult, since the
other drill of the room may have the pilot's bit in it. They are told apart by pupil, job and kind
of hole, and each is used up by the hole that it is for.
"""

from __future__ import annotations

from kiosk.core.events import Event, PageOpened, PilotsDrilled
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.asks import pupil_numbered
from kiosk.core.kiosk.pupil_jobs import hole_choices
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.model import Hole, Job
from kiosk.core.units import Moment


def piloted_choices(shop: Shop, kiosk: Kiosk) -> tuple[tuple[Job, int, Hole], ...]:
    """The lesson's kinds of hole that have a pilot."""
    return tuple(c for c in hole_choices(shop, kiosk) if c[2].after)


def pilot_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from an adult's touch about pilots drilled elsewhere; None if it is not."""
    if not isinstance(touch, Act) or touch.what not in ("pilots", "pilots_seen"):
        return None
    if not kiosk.desk.signed:
        return None
    if not is_free(kiosk):
        return refused("session_open")
    said = tuple(touch.about.split())
    if touch.what == "pilots":
        known = len(said) in (0, 2) and (not said or _asked(shop, kiosk, said) is not None)
        return took(PageOpened("pilots", " ".join(said))) if known else NOTHING
    seen = _seen(shop, kiosk, said)
    return took(seen, PageOpened("menu")) if seen else NOTHING


def _asked(shop: Shop, kiosk: Kiosk, said: tuple[str, ...]) -> tuple[Job, int, Hole] | None:
    found = (c for c in piloted_choices(shop, kiosk) if (c[0].id, str(c[1])) == said[:2])
    return next(found, None)


def _seen(shop: Shop, kiosk: Kiosk, said: tuple[str, ...]) -> Event | None:
    """An adult has seen the pilots of all these holes in the pupil's work."""
    asked = _asked(shop, kiosk, said) if len(said) == 3 and said[2].isdigit() else None
    pupil = pupil_numbered(shop, kiosk, int(said[2])) if asked else None
    if asked is None or pupil is None:
        return None
    job, index, hole = asked
    return PilotsDrilled(pupil.ref, job.id, index, hole.count, kiosk.desk.signed)
