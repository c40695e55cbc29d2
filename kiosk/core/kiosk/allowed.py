"""Which adult may do what here and now: by role, at this machine, up to a day."""

from __future__ import annotations

from collections.abc import Mapping

from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import MAY, STANDING
from kiosk.core.model.people import CARE, CHECK, LEVEL, LOOK, OFFICE, OPEN, OWN, PEOPLE
from kiosk.core.units import Moment

ANYBODY = ""
TELL_DAYS = 14  # common practice: an end is told a fortnight ahead

NEEDS: Mapping[str, str] = {
    **dict.fromkeys(("ok", "step", "said", "clear", "again", "look", "end"), LOOK),
    **dict.fromkeys(("pilots", "pilots_seen"), LOOK),
    **dict.fromkeys(("confirm", "open", "jobs_done", "close", "resume"), OPEN),
    **dict.fromkeys(("quiet", "quiet_end", "hours_wrong"), OPEN),
    **dict.fromkeys(("longer", "longer_by", "tighter", "tighten"), OPEN),
    **dict.fromkeys(("pre_use", "pre_use_right", "pre_use_wrong", "pre_use_item"), CHECK),
    **dict.fromkeys(
        ("menu", "note", "note_done", "out", "out_why", "return", "help_start"), ANYBODY
    ),
    **dict.fromkeys(("level", "level_beside"), LEVEL),
    **dict.fromkeys(("people", "person", "role", "person_new", "until", "authorise"), PEOPLE),
    **dict.fromkeys(("secret", "badge", "revoke_ask", "revoke", "package", "package_in"), PEOPLE),
    **dict.fromkeys(("care", "checks", "check", "checked", "racks", "rack"), CARE),
    **dict.fromkeys(("bit_changed", "deputy", "name_deputy", "data", "datum"), CARE),
    **dict.fromkeys(("set_datum", "fault_log", "ask_restart", "restart"), CARE),
    **dict.fromkeys(("computer", "part"), CARE),
    "own_use": OWN,
}
"""What a PIN's purpose or an act of the menu needs; what is not named is the office's."""


def today(kiosk: Kiosk, now: Moment) -> int:
    """The day by the wall clock; a clock set back or never set is behind the last known day."""
    return max(now.day, kiosk.adults.day)


def last_day(shop: Shop, kiosk: Kiosk, ref: str) -> int | None:
    """The last day the adult may use this machine: 0 for no end, None for not at all."""
    adult = kiosk.adults.find(ref)
    if adult is None:
        return None
    return dict(adult.until).get(shop.machine.id, 0 if adult.role in STANDING else None)


def is_authorised(shop: Shop, kiosk: Kiosk, ref: str, now: Moment) -> bool:
    """Whether the adult may use this machine today."""
    last = last_day(shop, kiosk, ref)
    return last is not None and (last == 0 or today(kiosk, now) <= last)


def may(shop: Shop, kiosk: Kiosk, ref: str, what: str, now: Moment) -> bool:
    """Whether the adult may do this here and now."""
    adult = kiosk.adults.find(ref)
    if adult is None or not is_authorised(shop, kiosk, ref, now):
        return False
    needed = NEEDS.get(what, OFFICE)
    return needed == ANYBODY or needed in MAY.get(adult.role, frozenset())


def days_left(shop: Shop, kiosk: Kiosk, ref: str, now: Moment) -> int | None:
    """How many days the authorisation still holds, if it ends soon."""
    last = last_day(shop, kiosk, ref)
    left = last - today(kiosk, now) if last else None
    return left if left is not None and 0 <= left <= TELL_DAYS else None
