"""What a signed-in adult does with printed sheets: pick one, read it, have it on a stick."""

from __future__ import annotations

from kiosk.core.events import Chosen, PageOpened, SheetAccepted, SheetAsked, SheetDone, SheetShown
from kiosk.core.inputs import Act, SheetEnded, SheetRead, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.units import Moment

SHEETS = ("assessment", "wall A4", "wall A3", "card", "commissioning", "accident")
"""Kinds of sheet, with the paper where there is a choice; a card is one job's."""

CARD = "card"
BUSY = ("making", "writing")
"""What a sheet's page says while somebody is at work on it."""


def sheet_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about a sheet; None if the touch is something else."""
    match touch:
        case Act("sheets" | "sheet" | "sheet_part" | "sheet_out") if kiosk.desk.signed:
            if not is_free(kiosk):
                return refused("session_open")
            return _asked(shop, kiosk, touch)
    return None


def _asked(shop: Shop, kiosk: Kiosk, touch: Act) -> Decided:
    """A card's job is asked for first; what goes on a stick has been read."""
    desk = kiosk.desk
    match touch:
        case Act("sheets", ""):
            return took(PageOpened("sheets"))
        case Act("sheet", "card"):
            return took(PageOpened("cards"))
        case Act("sheet", sheet) if _is_known(shop, sheet):
            return took(SheetAsked(desk.signed, sheet))
        case Act("sheet_part", at) if at in {str(n) for n in range(len(desk.parts))}:
            return took(Chosen("part", at))
        case Act("sheet_out", sheet) if is_read(kiosk, sheet):
            return took(SheetAccepted(desk.signed, sheet))
    return NOTHING


def _is_known(shop: Shop, sheet: str) -> bool:
    kind, _, job = sheet.partition(" ")
    return sheet in SHEETS or (kind == CARD and shop.content.job(job) is not None)


def is_read(kiosk: Kiosk, sheet: str) -> bool:
    """Whether this sheet stands on the screen, and nobody is at work on it."""
    desk = kiosk.desk
    is_there = (desk.page, desk.about) == ("sheet", sheet) and bool(desk.parts)
    return is_there and desk.why not in BUSY


def sheet_read(kiosk: Kiosk, given: SheetRead) -> Decided:
    """The sheet was made: it is shown, if the adult still waits for it."""
    desk = kiosk.desk
    if (desk.page, desk.about, desk.why) != ("sheet", given.sheet, "making"):
        return NOTHING
    return took(SheetShown(given.sheet, given.parts, given.why))


def sheet_ended(kiosk: Kiosk, given: SheetEnded) -> Decided:
    """How writing it to the stick ended, if the adult still waits for that."""
    is_awaited = kiosk.desk.page == "sheet" and kiosk.desk.why == "writing"
    return took(SheetDone(given.why)) if is_awaited else NOTHING
