"""In whose language a view is: what is said on it besides, and a pupil's choice kept."""

from __future__ import annotations

from contextlib import suppress

from kiosk.core.kiosk import Kiosk, Shop
from kiosk.core.kiosk.language_acts import whose_screen
from kiosk.core.view import View
from kiosk.core.words import Words
from kiosk.runtime.partners import Keeper


def said_on(view: View, words: Words, key: str) -> str:
    """A text in the language of a view."""
    return words.of(view.language).say(key)


def learned(
    shop: Shop, kiosk: Kiosk, language: str, keeper: Keeper, faults: tuple[type[Exception], ...]
) -> Shop:
    """The shop once the pupil on the page of languages has chosen one, which is kept.

    On a card that can't be written the choice stands until the kiosk ends.
    """
    pupil = whose_screen(shop, kiosk) if kiosk.desk.page == "language" else ""
    if not pupil:
        return shop
    with suppress(*faults):
        keeper.keep_language(pupil, language)
    return shop.speaking(pupil, language)
