"""A number that a step's drawing is about stands in it, whatever the panel, text and language.

Small: two languages where there is least room. Full: all, on both panels, in both sizes of text.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from typing import Any

from kiosk.core.units import Length
from kiosk.core.view import Picture, View
from kiosk.core.words import Words
from tests.core.story import WORDS

SHOWN = {
    "belts": ("groove", "second_groove", "speed"),
    "clamps": ("work_length", "work_width"),
    "depth": ("stop",),
    "dial": ("speed",),
    "drilling": ("diameter", "lift"),
    "fit_bit": ("diameter",),
    "scrap": ("scrap",),
    "set_up": ("speed", "diameter", "stop"),
    "table": ("gap",),
}
MAYBE_WITHOUT = ("already_set", "drilling")  # these rather have no drawing than pages


def test_the_number_a_step_is_about_stands_in_its_drawing(hand, full) -> None:
    from kiosk.screens.theme import LARGE, PANELS, SEVEN_INCH
    from tests.screens.gallery.told import told

    told_in = {language: _each_once(told(language).values()) for language in _tongues(full)}
    missing = set[str]()

    for panel in PANELS.values() if full else (SEVEN_INCH,):
        for scale in (1.0, LARGE) if full else (LARGE,):
            player = hand(panel=panel, scale=scale)
            for language, views in told_in.items():
                missing |= {m for v in views for m in _missing(player, v, WORDS.of(language))}
            player.leave()

    seen = {view.picture.name for views in told_in.values() for view in views if view.picture}
    assert seen == set(SHOWN)
    assert not missing, "\n".join(sorted(missing))


def _tongues(full: bool) -> Iterable[str]:
    """English and the one with the longest words, or all."""
    return WORDS.others if full else ("en", "cy")


def _each_once(views: Iterable[View]) -> list[View]:
    """The views with a number in their drawing, of those that take the same room one."""
    with_number = (v for v in views if v.picture and v.picture.name in SHOWN)
    return list({(v.screen, v.title, v.lines, v.note, v.picture): v for v in with_number}.values())


def _missing(player: Any, view: View, words: Words) -> Iterator[str]:
    """The numbers that the drawing on a screen should have and has not."""
    picture = view.picture
    assert picture
    written = _written(player, view)
    if written is None:
        if view.screen not in MAYBE_WITHOUT:
            yield f"{view.title}: no drawing"
        return
    together = "".join("".join(written).split())
    for name, number in _numbers(picture, words):
        if "".join(number.split()) not in (written if number.isdigit() else together):
            yield f"{picture.name}: {name} {number} not in {written}"


def _numbers(picture: Picture, words: Words) -> Iterator[tuple[str, str]]:
    """What should stand in a picture, by its value's name."""
    values = dict(picture.values)
    for name in SHOWN[picture.name]:
        value = values.get(name)
        if value is None or (name == "second_groove" and "idler_1" not in values):
            continue
        is_round = name == "gap" and isinstance(value, Length)
        yield name, words.number(Length(round(value.mm)) if is_round else value)


def _written(player: Any, view: View) -> list[str] | None:
    """The texts of the drawing beside the words of a screen; None without a drawing."""
    from kiosk.screens.parts.sheet import Sheet

    player.face.show(view)
    sheet = next((each for each in player.face.children if isinstance(each, Sheet)), None)
    return [text.text for text in sheet.children[::-1]] if sheet else None
