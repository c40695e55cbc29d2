"""In whose language a view is: what is said on it besides, and a pupil's wishes kept."""

from __future__ import annotations

from contextlib import suppress

from kiosk.core.inputs import PickLanguage, TurnHabit
from kiosk.core.kiosk import Kiosk, Shop
from kiosk.core.kiosk.language_acts import whose_screen
from kiosk.core.kiosk.shop import HABITS
from kiosk.core.view import View
from kiosk.core.words import Words
from kiosk.runtime.partners import Keeper


def said_on(view: View, words: Words, key: str) -> str:
    """A text in the language of a view."""
    return words.of(view.language).say(key)


def may_wish(words: Words, wish: PickLanguage | TurnHabit) -> bool:
    """Whether there is such a language or habit."""
    if isinstance(wish, PickLanguage):
        return wish.language in words.others
    return wish.habit in HABITS


def learned(
    shop: Shop,
    kiosk: Kiosk,
    wish: PickLanguage | TurnHabit,
    keeper: Keeper,
    faults: tuple[type[Exception], ...],
) -> Shop:
    """The shop once the pupil on the page of languages has wished, which is kept.

    On a card that can't be written the wish stands until the kiosk ends.
    """
    pupil = whose_screen(shop, kiosk) if kiosk.desk.page == "language" else ""
    if not pupil:
        return shop
    with suppress(*faults):
        if isinstance(wish, PickLanguage):
            keeper.keep_language(pupil, wish.language)
        else:
            keeper.keep_habits(pupil, " ".join(shop.turning(pupil, wish.habit).habits_of(pupil)))
    if isinstance(wish, PickLanguage):
        return shop.speaking(pupil, wish.language)
    return shop.turning(pupil, wish.habit)
