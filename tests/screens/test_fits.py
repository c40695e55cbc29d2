"""Every screen, in every language, on both panels and in large text: it fits, and can be read.

The screens are those of the gallery and those that a lesson can lead to, found by trying every
touch, reading and deadline. Small: English, plain text, and of screens of one build the one
with most to say. Colours are taken from the picture that was drawn.

A note's edge and the lines between areas are ornaments and not measured.
"""

from __future__ import annotations

from collections.abc import Iterable
from pathlib import Path

import pytest

from kiosk.content import load
from kiosk.core.view import View
from tests.core.exploring import State

pytestmark = [pytest.mark.fits, pytest.mark.timeout(3600)]
PANELS = ("7 inch", "10.1 inch")


@pytest.mark.parametrize("name", PANELS)
def test_every_screen_fits_in_every_language_and_text_size(hand, states, root, full, name, sum_up):
    from kiosk.screens.theme import LARGE
    from kiosk.screens.theme import PANELS as KNOWN
    from tests.screens.fitting import Walk, languages
    from tests.screens.gallery import views

    panel = next(panel for panel in KNOWN.values() if panel.name == name)
    tongues = languages(root) if full else ("en",)
    walks = []

    for scale in (1.0, LARGE) if full else (1.0,):
        for language in tongues:
            walks.append(Walk(hand(panel=panel, scale=scale), panel))
            walks[-1].over(views() if language == "en" else {})
            walks[-1].over(_in(language, states, root))
            walks[-1].hand.leave()

    faults = {fault: where for walk in walks for fault, where in walk.faults.items()}
    screens = sum(walk.screens for walk in walks)
    sum_up(f"fits: {screens} screens on {name} in {', '.join(tongues)}, {len(faults)} faults")
    assert screens >= 60 * len(walks)
    assert not faults, "\n".join(f"{where}: {fault}" for fault, where in faults.items())


def _in(language: str, states: Iterable[State], root: Path) -> dict[str, View]:
    words = load(root / "sequences", language=language).words
    shown = (state.view(words) for state in states)
    return {f"{language} {at} {view.title}": view for at, view in enumerate(shown)}


def test_a_lesson_leads_to_every_screen_that_a_touch_can_lead_to(states):
    from kiosk.core.view import SCREENS
    from tests.screens.gallery import views

    reached = {state.view().screen for state in states}

    assert reached >= {"step", "already_set", "adult_check", "drilling", "recovery", "finished"}
    assert reached | {view.screen for view in views().values()} == set(SCREENS)
