"""What a teacher does about training levels, at the machine after watching.

The page's `about` grows with each answer: group, pupil, class of bits, level, what was watched.
"""

from __future__ import annotations

from kiosk.core.events import BesideSet, LevelGranted, PageOpened
from kiosk.core.inputs import Act, Touch
from kiosk.core.kiosk.adult_acts import is_free
from kiosk.core.kiosk.allowed import today
from kiosk.core.kiosk.levels import RANKS, bit_classes, owes_questions
from kiosk.core.kiosk.pupils import level_of
from kiosk.core.kiosk.root import Kiosk
from kiosk.core.kiosk.shop import NOTHING, Decided, Shop, refused, took
from kiosk.core.model import Level, Pupil
from kiosk.core.units import Moment

WORDS = tuple(level.word for level in Level)


def level_acts(shop: Shop, kiosk: Kiosk, touch: Touch, now: Moment) -> Decided | None:
    """What follows from a touch about training levels; None if it is about something else."""
    if not isinstance(touch, Act) or not kiosk.desk.signed:
        return None
    if touch.what not in ("level", "level_beside"):
        return None
    if not is_free(kiosk):
        return refused("session_open")
    if touch.what == "level_beside":
        return _beside(shop, kiosk, touch.about)
    return _level(shop, kiosk, touch.about, now)


def pupil_in(shop: Shop, group: str, ref: str) -> Pupil | None:
    """The pupil of a group."""
    found = shop.roster.group(group)
    return next((p for p in found.pupils if p.ref == ref), None) if found else None


def _level(shop: Shop, kiosk: Kiosk, about: str, now: Moment) -> Decided:
    said = tuple(about.split())
    if not said and kiosk.lesson:
        said = (kiosk.lesson.group,)
    if not _is_asked(shop, said):
        return NOTHING
    if len(said) < 5:
        return took(PageOpened("level", " ".join(said)))
    return _granted(shop, kiosk, said, now)


def _is_asked(shop: Shop, said: tuple[str, ...]) -> bool:
    """Whether every answer so far is one that was asked for."""
    group, ref, *more = (*said, "", "")[: max(2, len(said))]
    known = [bit_classes(shop), WORDS, shop.content.people.watched]
    return (
        (not group or shop.roster.group(group) is not None)
        and (not ref or pupil_in(shop, group, ref) is not None)
        and len(more) <= len(known)
        and all(one in of for one, of in zip(more, known, strict=False))
    )


def _granted(shop: Shop, kiosk: Kiosk, said: tuple[str, ...], now: Moment) -> Decided:
    group, ref, bits, word, watched = said
    pupil = pupil_in(shop, group, ref)
    if pupil is None or pupil.visitor:
        return refused("visitor")
    above = RANKS.index(level_of(word)) > RANKS.index(Level.SHOWN)
    if above and owes_questions(shop, kiosk, ref):
        return refused("questions_first")
    until = today(kiosk, now) + shop.content.people.lasts
    family, by = shop.machine.family, kiosk.desk.signed
    granted = LevelGranted(ref, word, family, bits, watched, until, by)
    return took(granted, PageOpened("level", group))


def _beside(shop: Shop, kiosk: Kiosk, about: str) -> Decided:
    """An adult always beside, or no longer; the reason is nobody's business here."""
    group, _, ref = about.partition(" ")
    if pupil_in(shop, group, ref) is None:
        return NOTHING
    on = int(ref not in kiosk.pupils.beside)
    return took(BesideSet(ref, on, kiosk.desk.signed), PageOpened("level", group))
