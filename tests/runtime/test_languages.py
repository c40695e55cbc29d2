"""A pupil's choice of language on the running kiosk: kept, shown at once, back after a start."""

from __future__ import annotations

from kiosk.core.inputs import OpenPage, PickJob, PickLanguage, PickPupil, TurnHabit
from tests.core.story import WORDS, lesson_open
from tests.runtime.driven import Driven

POLISH = WORDS.of("pl")


def on_the_page() -> Driven:
    """Pupil 5 looks at the page of languages."""
    driven = Driven(lesson_open())
    driven.touch(PickPupil(5))
    driven.touch(OpenPage("language"))
    return driven


def test_the_choice_is_kept_and_the_next_screen_is_in_it() -> None:
    driven = on_the_page()

    driven.touch(PickLanguage("pl"))

    assert driven.memory.languages == {"p5": "pl"}
    assert driven.loop.latest().title == POLISH.say("job.title", number=5)


def test_a_refusal_is_said_in_the_language_of_the_screen() -> None:
    driven = on_the_page()
    driven.touch(PickLanguage("pl"))
    driven.touch(PickJob("nothing", 0))

    assert driven.loop.latest().answer == POLISH.say("answer.no_lesson")


def test_a_card_that_cannot_be_written_does_not_take_the_choice_away() -> None:
    driven = on_the_page()
    driven.memory.fails = "full"

    driven.touch(PickLanguage("pl"))

    assert driven.memory.languages == {}
    assert driven.loop.latest().title == POLISH.say("job.title", number=5)


def test_a_language_that_is_not_there_is_not_kept() -> None:
    driven = on_the_page()

    driven.touch(PickLanguage("xx"))

    assert driven.memory.languages == {}
    assert driven.loop.latest().title == WORDS.say("job.title", number=5)


def test_nothing_is_kept_where_no_page_of_languages_stands() -> None:
    driven = Driven(lesson_open())
    driven.touch(PickPupil(5))

    driven.touch(PickLanguage("pl"))

    assert driven.memory.languages == {}


def test_a_habit_is_kept_and_shown_and_kept_again_when_turned_off() -> None:
    driven = on_the_page()

    driven.touch(TurnHabit("left"))
    driven.touch(TurnHabit("large"))
    both, shown = driven.memory.habits["p5"], driven.loop.latest()
    driven.touch(TurnHabit("left"))

    assert both == "large left"
    assert (shown.large, shown.left) == (True, True)
    assert driven.memory.habits == {"p5": "large"}


def test_a_habit_that_there_is_not_is_not_kept() -> None:
    driven = on_the_page()

    driven.touch(TurnHabit("upside_down"))

    assert driven.memory.habits == {}
