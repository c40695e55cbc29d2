"""Why a drill is out of use, and who may return it: that depends on the kind of fault.

What a technician alone may return is what guards hands or stops the drill, and whatever is not
named here. After small faults the technician's deputy may return it too. Where nothing was wrong,
a teacher may. What somebody has locked off is that person's, and a technician's: whoever has put
a lock on takes it off (29 CFR 1910.147(e)(3); HSE HSG253 for isolating).
"""

from __future__ import annotations

from collections.abc import Mapping

from kiosk.core.kiosk.allowed import may
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import STANDING
from kiosk.core.units import Moment

KINDS = (
    *("guard", "stop", "electric", "belt", "chuck", "table", "light", "extraction", "fault"),
    *("cleaning", "locked_off", "lesson"),
)
"""Why an adult takes a drill out of use, as its choices stand."""

RETURNED_BY: Mapping[str, str] = {
    **dict.fromkeys(("belt", "chuck", "table", "light", "extraction"), "deputy"),
    **dict.fromkeys(("belt_whole", "bolted", "key_hook"), "deputy"),
    **dict.fromkeys(("cleaning", "lesson"), "teacher"),
    "locked_off": "own",
}
"""Who returns it beside a technician; not named: nobody else."""


def stopping_checks(shop: Shop) -> frozenset[str]:
    """The installation checks that take the drill out of use when they are not right."""
    return frozenset(c.id for c in shop.content.assessment.installation if c.out_of_use)


def is_check_owed(shop: Shop, kiosk: Kiosk) -> bool:
    """Whether a check that was not right has to be entered as right before the drill returns."""
    wrong = {c.check for c in kiosk.care.checks if c.found == "wrong"}
    return not wrong.isdisjoint(stopping_checks(shop))


def returned_by(kiosk: Kiosk) -> str:
    """Who may return the drill to use: `technician`, or also `deputy`, `teacher`, its `own`."""
    return RETURNED_BY.get(kiosk.machine.out_of_use, "technician")


def may_return(shop: Shop, kiosk: Kiosk, ref: str, now: Moment) -> bool:
    """Whether the adult may return the drill to use, after what it was taken out of use for."""
    adult = kiosk.adults.find(ref)
    if adult is None or not may(shop, kiosk, ref, "return", now):
        return False
    match returned_by(kiosk):
        case "teacher" if adult.role in STANDING:
            return True
        case "deputy" if ref == kiosk.care.deputy:
            return True
        case "own" if ref == kiosk.machine.out_by:
            return True
    return adult.role == "technician"
