"""Which training level of a pupil stands here and now, for one kind of bit."""

from __future__ import annotations

from kiosk.core.kiosk.allowed import today
from kiosk.core.kiosk.pupils import PLAIN, Grant
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import Shop
from kiosk.core.model import Level, Pupil
from kiosk.core.units import Moment

RANKS = tuple(Level)


def bit_class(shop: Shop, bit: str) -> str:
    """The class of a kind of bit: one that cuts a ring, such as a hole saw, is learnt apart."""
    found = shop.content.bit(bit)
    return bit if found and found.cuts == "ring" else PLAIN


def bit_classes(shop: Shop) -> tuple[str, ...]:
    """All classes of bits: the plain ones, and each kind that cuts a ring."""
    return (PLAIN, *(b.id for b in shop.content.bits if b.cuts == "ring"))


def level_now(shop: Shop, kiosk: Kiosk, pupil: Pupil, bit: str, now: Moment) -> Level:
    """The level that stands today for a pupil with this kind of bit on this machine.

    A level granted at a machine like this one counts, else the roster's. *Adult beside* once it
    has ended or lapsed, where there is none, for visitors, and wherever an adult stays beside.
    """
    if pupil.visitor or is_beside(kiosk, pupil):
        return Level.ADULT_BESIDE
    grant = grant_of(shop, kiosk, pupil.ref, bit_class(shop, bit))
    if grant is None or not stands(shop, grant, today(kiosk, now)):
        return Level.ADULT_BESIDE
    owes = owes_questions(shop, kiosk, pupil.ref)
    return _before_questions(grant.level) if owes else grant.level


def grant_of(shop: Shop, kiosk: Kiosk, ref: str, bits: str) -> Grant | None:
    """The grant that counts for a pupil and a class of bits, whether it still stands or not."""
    found = {g.alike: g for g in kiosk.pupils.grants if g.pupil == ref and g.bits == bits}
    return found.get(shop.machine.family) or found.get("")


def is_beside(kiosk: Kiosk, pupil: Pupil) -> bool:
    """Whether an adult stays beside this pupil whatever the level."""
    return pupil.beside or pupil.ref in kiosk.pupils.beside


def owes_questions(shop: Shop, kiosk: Kiosk, ref: str) -> bool:
    """Whether the school asks for the questions first and the pupil has not answered them."""
    people = shop.content.people
    return people.questions_first and bool(people.questions) and ref not in kiosk.pupils.answered


def _before_questions(level: Level) -> Level:
    return min(level, Level.SHOWN, key=RANKS.index)


def stands(shop: Shop, grant: Grant, day: int) -> bool:
    """Whether a grant has neither ended nor lapsed for want of use."""
    has_ended = grant.until and day > grant.until
    return not has_ended and day - grant.used <= shop.content.people.lapses
