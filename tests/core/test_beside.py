"""Where an adult stays beside, the floor, the check and the drilling screen say so."""

from __future__ import annotations

import pytest

from kiosk.core.inputs import AskAdult, PickJob, PickPupil
from tests.core.story import WORDS, Story, lesson_open

ADULT_BESIDE, SHOWN, SIGNED_OFF = 9, 5, 21
TWIST, FORSTNER = ("hook_bar", 0), ("pen_block", 1)
STAY = "Stay beside."
STAYS = "An adult stays beside you."
ALONE = "Only you stand at the drill."
TOGETHER = "Only you and your adult stand at the drill."


def turn(number: int, asked: tuple[str, int]) -> Story:
    """A pupil's turn up to its first step."""
    story = lesson_open(("hook_bar", "pen_block"))
    story.touch(PickPupil(number))
    story.touch(PickJob(*asked))
    return story


@pytest.mark.parametrize(
    ("number", "asked", "beside"),
    [
        (ADULT_BESIDE, TWIST, True),
        (SIGNED_OFF, FORSTNER, True),  # a Forstner bit, whatever the level
        (SHOWN, TWIST, False),
        (SIGNED_OFF, TWIST, False),
    ],
)
def test_the_adult_is_told_to_stay_and_the_pupil_that_the_adult_stays(
    number: int, asked: tuple[str, int], beside: bool
) -> None:
    story = turn(number, asked)

    while story.kiosk.session.step.id != "feet":
        story.do_step()
    floor = story.view.lines
    story.do_steps("adult_check")
    check = story.view
    story.touch(AskAdult("ok"))
    story.pin()
    drilling = story.view

    assert floor[1] == (TOGETHER if beside else ALONE)
    assert check.title.endswith(STAY) == beside
    assert str(number) in check.title
    assert len(check.lines) <= 7
    assert drilling.screen == "drilling"
    assert drilling.note == (STAYS if beside else "")


@pytest.mark.parametrize("key", ["at_drill.beside", "check.title_beside", "drilling.beside"])
def test_it_is_said_in_every_language(key: str) -> None:
    said = {WORDS.of(code).say(key, number=9, level="") for code in ("en", "cy", "pl", "uk")}

    assert len(said) == 4
