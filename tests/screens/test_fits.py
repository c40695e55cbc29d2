"""Every screen, in every language, on both panels and in large text: it fits, and can be read.

The screens are those of the gallery and those that a lesson can lead to, found by trying every
touch, reading and deadline. Small: English, plain text, and of screens of one build the one
with most to say. Full: every text in every language, plain, large, and large for a left hand
with the key to have it read aloud. Colours are taken from the picture that was drawn.

A note's edge and the lines between areas are ornaments and not measured.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.view import View
from tests.core.exploring import State
from tests.core.story import PUPILS

pytestmark = [pytest.mark.fits, pytest.mark.timeout(3600)]
PANELS = ("7 inch", "10.1 inch")
WARNED = ("wrong", "interruption", "recovery", "drilling", "note")


@pytest.mark.parametrize("name", PANELS)
def test_every_screen_fits_in_every_language_and_text_size(hand, states, root, full, name, sum_up):
    from kiosk.screens.theme import LARGE
    from kiosk.screens.theme import PANELS as KNOWN
    from tests.screens.fitting import Walk, languages
    from tests.screens.gallery import views

    panel = next(panel for panel in KNOWN.values() if panel.name == name)
    tongues = languages(root) if full else ("en",)
    walks = []

    for language, scale, left in _manners(tongues, LARGE) if full else (("en", 1.0, False),):
        walk = Walk(hand(panel=panel, scale=scale, left=left), panel)
        walk.over(views() if language == "en" else {})
        walk.over(_in(language, states, root, aloud=left))
        walk.hand.leave()
        walks.append(walk)

    faults = {fault: where for walk in walks for fault, where in walk.faults.items()}
    screens = sum(walk.screens for walk in walks)
    sum_up(f"fits: {screens} screens on {name} in {', '.join(tongues)}, {len(faults)} faults")
    assert screens >= 60 * len(walks)
    assert not faults, "\n".join(f"{where}: {fault}" for fault, where in faults.items())


def _manners(tongues: Iterable[str], large: float) -> Iterator[tuple[str, float, bool]]:
    """Each language in both sizes of text, and the first for a left hand, read aloud."""
    for language in tongues:
        yield from ((language, scale, False) for scale in (1.0, large))
        if language == "en":
            yield (language, large, True)


def _in(language: str, states: Iterable[State], root: Path, aloud: bool) -> dict[str, View]:
    """The screens of a language; a warning's and a note's also while it is not saved yet."""
    words = load(root / "sequences", language=language).words
    states = [_read_aloud(state) for state in states] if aloud else states
    shown = [state.view(words) for state in states]
    unsaved = words.say("unsaved.warning")
    warned = [replace(view, unsaved=unsaved) for view in shown if view.screen in WARNED]
    return {f"{language} {at} {v.title}": v for at, v in enumerate((*shown, *warned))}


def _read_aloud(state: State) -> State:
    """The same place with pupils who have it read aloud."""
    habits = tuple((pupil.ref, "aloud") for pupil in PUPILS)
    return replace(state, shop=replace(state.shop, has_voice=True, habits=habits))


def test_a_lesson_leads_to_every_screen_that_a_touch_can_lead_to(states):
    from kiosk.core.view import SCREENS
    from tests.screens.gallery import views

    reached = {state.view().screen for state in states}

    assert reached >= {"step", "already_set", "adult_check", "drilling", "recovery", "finished"}
    assert reached | {view.screen for view in views().values()} == set(SCREENS)
