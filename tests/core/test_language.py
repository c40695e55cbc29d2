"""A pupil's own language: chosen on pupils' screens, remembered by number, never recorded."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    Leave,
    LeavePage,
    OpenPage,
    PickJob,
    PickLanguage,
    PickPupil,
    SeenRight,
    SomethingWrong,
    TurnHabit,
)
from kiosk.core.view.fault_views import record_fault_view
from tests.core.story import WORDS, Story, drill_one_hole, lesson_open

POLISH = WORDS.of("pl")


def reading_polish(story: Story, pupil: str = "p5") -> Story:
    """The pupil has chosen Polish before, as the runtime hands it in."""
    story.shop = story.shop.speaking(pupil, "pl")
    return story


def at_the_first_step() -> Story:
    story = reading_polish(lesson_open())
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    return story


def test_the_joining_screen_names_language_in_several_languages() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))

    label = next(b.label for b in story.view.buttons if b.touch == OpenPage("language"))

    assert all(WORDS.of(code).say("button.language") in label for code in ("cy", "en", "pl", "uk"))


def test_each_language_says_its_own_name_and_that_nobody_has_checked_it() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(OpenPage("language"))

    labels = {b.touch: b.label for b in story.view.choices}

    assert labels[PickLanguage("en")] == "✓ English"
    said = POLISH.say("language.unchecked")
    assert labels[PickLanguage("pl")] == f"Polski\n{said}"


def test_choosing_leads_back_to_the_jobs_and_records_nothing() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(OpenPage("language"))
    kept = len(story.record)

    story.touch(PickLanguage("pl"))

    assert story.view.screen == "job"
    assert story.kiosk.desk.about == "5"
    assert len(story.record) == kept


def test_with_one_job_it_is_chosen_at_the_first_step() -> None:
    story = lesson_open(("hook_bar",))
    story.touch(PickPupil(5))

    story.touch(OpenPage("language"))
    story.touch(PickLanguage("uk"))

    assert story.view.screen == "step"
    assert story.kiosk.session is not None


def test_past_the_first_step_no_language_is_offered() -> None:
    story = at_the_first_step()
    story.touch_kind(SeenRight)

    story.give(OpenPage("language"))

    assert story.kiosk.desk.page == ""
    assert all(b.touch != OpenPage("language") for b in story.buttons())


def test_a_pupils_turn_is_in_the_pupils_language_and_another_ones_is_not() -> None:
    story = at_the_first_step()
    step = story.kiosk.session.step if story.kiosk.session else None
    assert step is not None

    mine = story.view
    story.touch(Leave())
    ended = story.view
    story.wait(20)
    story.touch(PickPupil(14))
    other = story.view

    assert mine.title == POLISH.say(f"step.{step.id}.title")
    assert mine.language == "pl"
    assert mine.head.wrong is not None
    assert mine.head.wrong.label == POLISH.say("button.wrong")
    assert ended.title == POLISH.say("finished.left.title")
    assert (other.language, other.title) == ("en", WORDS.say("job.title", number=14))


def test_the_adult_check_is_in_the_schools_language_under_the_pupils_band() -> None:
    story = at_the_first_step()
    story.do_steps("adult_check")

    view = story.view

    assert view.title == WORDS.say("check.title", number=5, level=WORDS.say("level.shown"))
    assert view.band is not None
    assert view.band.text == POLISH.say("band.adult_check")
    assert view.language == "en"


def test_the_names_and_the_pin_are_in_the_schools_language() -> None:
    story = at_the_first_step()
    story.do_steps("adult_check")
    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))

    assert story.view.title == WORDS.say("names.ok")


def test_an_adults_step_tells_the_adult_in_the_schools_language() -> None:
    story = at_the_first_step()
    while not (story.kiosk.session and story.kiosk.session.step.who == "adult"):
        story.do_step()
    step = story.kiosk.session.step

    view = story.view

    assert view.title == WORDS.say(f"step.{step.id}.title")
    assert view.band is not None
    assert view.band.text == POLISH.say("band.adult_step")


def test_the_drilling_screen_stays_in_its_language_whatever_happens() -> None:
    story = at_the_first_step()
    story.do_steps("adult_check")
    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
    story.pin()
    drilling = story.view

    failing = record_fault_view(story.shop, story.kiosk, WORDS, story.now, "full")
    story.touch(SomethingWrong())
    troubled = story.view

    assert drilling.screen == failing.screen == troubled.screen == "drilling"
    assert drilling.title == failing.title == troubled.title
    assert {drilling.language, failing.language, troubled.language} == {"pl"}
    assert failing.unsaved == POLISH.say("record_fault.full")


def test_a_whole_turn_in_polish_leaves_no_word_of_it_in_the_record() -> None:
    story = at_the_first_step()
    story.do_steps("adult_check")
    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
    story.pin()
    drill_one_hole(story)

    told = repr(story.record) + repr(story.kiosk)

    assert "'pl'" not in told
    assert "language" not in told


# --- habits: larger text, a left hand, read aloud ---


def on_the_page(**shop: object) -> Story:
    story = lesson_open()
    story.shop = replace(story.shop, **shop)
    story.touch(PickPupil(5))
    story.touch(OpenPage("language"))
    return story


def turned(story: Story, habit: str) -> None:
    """The touch, and what the runtime hands in after it."""
    story.touch(TurnHabit(habit))
    story.shop = story.shop.turning("p5", habit)


def test_the_habits_stand_before_the_languages_and_the_way_to_them_says_text_size() -> None:
    story = lesson_open()
    story.touch(PickPupil(5))

    label = next(b.label for b in story.view.buttons if b.touch == OpenPage("language"))
    story.touch(OpenPage("language"))

    assert "Text size" in label
    assert [b.touch for b in story.view.choices[:2]] == [TurnHabit("large"), TurnHabit("left")]


def test_a_habit_is_turned_on_and_off_again_on_the_same_page() -> None:
    story = on_the_page()

    turned(story, "large")
    on = story.view
    turned(story, "large")
    off = story.view

    assert (on.large, off.large) == (True, False)
    assert [b.label for b in on.choices if b.touch == TurnHabit("large")] == ["✓ Larger text"]
    assert story.kiosk.desk.page == "language"


def test_a_turn_is_as_its_pupil_uses_the_screen_and_the_next_one_is_not() -> None:
    story = on_the_page()
    for habit in ("large", "left"):
        turned(story, habit)
    story.touch(LeavePage())
    story.touch(PickJob("hook_bar", 0))

    mine = story.view
    story.touch(Leave())
    story.touch(LeavePage())
    story.wait(20)
    story.touch(PickPupil(14))

    assert (mine.large, mine.left) == (True, True)
    assert (story.view.large, story.view.left) == (False, False)


def test_reading_aloud_is_offered_only_where_there_is_a_voice() -> None:
    mute, heard = on_the_page(), on_the_page(has_voice=True)

    offered = [TurnHabit("aloud") in [b.touch for b in s.view.choices] for s in (mute, heard)]

    assert offered == [False, True]


def test_steps_are_read_aloud_but_neither_the_adult_check_nor_the_drilling_screen() -> None:
    story = on_the_page(has_voice=True)
    turned(story, "aloud")
    story.touch(LeavePage())
    story.touch(PickJob("hook_bar", 0))

    step = story.view
    story.do_steps("adult_check")
    check = story.view
    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
    story.pin()

    assert story.view.screen == "drilling"
    assert [v.aloud for v in (step, check, story.view)] == [True, False, False]


def test_a_habit_leaves_no_word_in_the_record_or_the_state() -> None:
    story = on_the_page()
    turned(story, "large")

    told = repr(story.record) + repr(story.kiosk)

    assert "large" not in told
