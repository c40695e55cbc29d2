"""Ways that the walk of all states found, each mended: the shortest touches that led there."""

from __future__ import annotations

from kiosk.core.events import (
    CheckAsked,
    DrillingShown,
    Interrupted,
    InterruptionCleared,
    LessonOpened,
    OkGiven,
    RunWithoutOkSeen,
    SessionEnded,
    SessionStarted,
    StepDone,
    TroubleNamed,
)
from kiosk.core.inputs import (
    Act,
    AskAdult,
    ByMistake,
    Choose,
    GoBack,
    KioskBegan,
    Leave,
    LeavePage,
    NameTrouble,
    NotDrilled,
    OpenPage,
    PickAdult,
    PickJob,
    PickNotRight,
    PickPupil,
    PinChecked,
    SeenRight,
    SomethingWrong,
    Still,
    TypePin,
)
from tests.core.story import TEACHER, Story, drill_one_hole, lesson_open
from tests.core.test_lesson import at_the_check
from tests.core.test_trouble import drilling


def typed(story: Story, purpose: str) -> Story:
    """A teacher has typed a PIN that is still being checked."""
    story.give(AskAdult(purpose))
    story.give(PickAdult(TEACHER.ref))
    story.give(TypePin(TEACHER.ref, "482915"))
    return story


def begun(number: int = 5) -> Story:
    """A pupil stands at the first step."""
    story = lesson_open()
    story.touch(PickPupil(number))
    story.touch(PickJob("hook_bar", 0))
    return story


def said() -> Story:
    """A session that goes by what people say: its isolator could not be read."""
    story = lesson_open()
    story.reads("isolator", "unknown")
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.touch(AskAdult("said"))
    story.pin()
    return story


# --- adults --------------------------------------------------------------------------------------


def test_a_pin_whose_page_was_left_signs_nobody_in() -> None:
    story = typed(lesson_open(), "menu")

    story.give(LeavePage())
    story.give(PinChecked(TEACHER.ref, True))

    assert story.kiosk.desk.signed == ""


def test_a_pin_typed_before_a_change_gives_no_ok_after_it() -> None:
    story = typed(at_the_check(), "ok")

    story.give(GoBack())
    story.give(SeenRight(story.kiosk.session.step.id))
    story.give(PinChecked(TEACHER.ref, True))

    assert story.events(OkGiven) == []


def test_a_step_cannot_be_put_in_place_of_the_adults_ok() -> None:
    story = at_the_check()

    story.give(AskAdult("step"))

    assert story.kiosk.desk.page == ""


def test_an_answer_of_a_form_that_is_not_shown_opens_no_lesson() -> None:
    story = lesson_open()
    story.touch(AskAdult("menu"))
    story.pin()
    story.touch(Act("close"))
    story.touch(AskAdult("menu"))
    story.pin()

    for answer in (Choose("group", "8b"), Choose("jobs", "hook_bar"), Choose("length", "20")):
        story.give(answer)

    assert len(story.events(LessonOpened)) == 1


def test_whoever_signed_in_is_signed_out_by_something_wrong() -> None:
    story = lesson_open()
    story.touch(AskAdult("menu"))
    story.pin()

    story.touch(SomethingWrong())

    assert story.kiosk.desk.signed == ""


def test_a_spell_ends_when_a_trouble_is_named_with_no_session_open() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin(stay=1)
    for hole in (1, 2):
        if hole == 2:
            story.do_steps("drilling" if story.view.screen == "drilling" else "adult_check")
            story.give(OpenPage("nothing"))
            story.touch_kind(type(next(b.touch for b in story.buttons() if b.look == "adult")))
        drill_one_hole(story)
    story.do_steps("finished")
    story.touch(LeavePage())
    assert story.kiosk.lesson.spell is not None

    story.touch(SomethingWrong())
    story.touch(NameTrouble("smoke"))

    assert story.kiosk.lesson.spell is None


# --- after a restart -----------------------------------------------------------------------------


def test_after_a_cut_no_adult_is_asked_for_before_the_drill_was_seen_still() -> None:
    story = lesson_open()
    story.give(KioskBegan("drill-1", "test", "cut"))

    story.give(AskAdult("confirm"))

    assert story.kiosk.desk.page == ""


# --- a drill that turns --------------------------------------------------------------------------


def test_no_session_begins_while_the_drill_runs() -> None:
    story = lesson_open()
    story.reads("starter", "on")
    story.touch(PickPupil(5))

    story.give(PickJob("hook_bar", 0))

    assert story.refusal == "still_running"
    assert story.events(SessionStarted) == []


def test_a_run_at_an_interrupted_drilling_screen_is_recorded() -> None:
    story = drilling()
    story.touch(SomethingWrong())
    story.touch(Still())

    story.reads("starter", "on")

    assert story.events(RunWithoutOkSeen) == [RunWithoutOkSeen("starter")]


# --- interruptions -------------------------------------------------------------------------------


def test_a_pupil_who_was_not_ready_gets_ready_after_an_interruption() -> None:
    story = begun()
    story.reads("isolator", "unknown")
    story.reads("isolator", "on")
    story.touch(AskAdult("clear"))
    story.pin()

    story.touch(Act("again"))

    assert story.kiosk.session.step.id == story.kiosk.session.plan.fresh[0].id


def test_a_slip_at_the_drilling_screen_asks_for_the_ok_again() -> None:
    story = drilling()
    story.touch(SomethingWrong())
    story.touch(Still())

    story.touch(ByMistake())

    assert story.view.screen == "adult_check"
    assert len(story.events(CheckAsked)) == 2


def test_nobody_leaves_in_the_middle_of_a_recovery() -> None:
    story = begun()
    story.touch(SomethingWrong())
    story.touch(NameTrouble("smoke"))

    story.give(Leave())

    assert story.refusal == "adult_first"
    assert story.events(TroubleNamed) == [TroubleNamed("smoke")]
    assert story.events(SessionEnded) == []


def test_a_hole_not_drilled_after_a_lost_reading_does_not_start_again() -> None:
    story = drilling()
    story.touch(Still())
    story.reads("isolator", "unknown")

    story.touch(NotDrilled())

    assert story.events(Interrupted) == [Interrupted("reading_lost")]
    assert len(story.events(DrillingShown)) == 1


def test_a_lost_reading_stands_over_something_wrong_touched_before_it() -> None:
    story = drilling()
    story.touch(SomethingWrong())
    story.reads("isolator", "unknown")

    story.touch(Still())

    assert story.events(Interrupted) == [Interrupted("reading_lost")]


def test_an_unread_session_that_is_set_up_again_goes_by_what_people_say() -> None:
    story = lesson_open()
    story.reads("isolator", "unknown")
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.touch(SomethingWrong())
    story.give(AskAdult("clear"))
    story.pin()

    story.touch(Act("again"))

    assert len(story.events(InterruptionCleared)) == 1
    assert story.kiosk.session.way == "said"


def test_a_said_no_to_a_step_behind_the_numbers_is_no_adult_allowing() -> None:
    story = lesson_open()
    story.reads("isolator", "unknown")
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.touch(SomethingWrong())

    story.give(AskAdult("said"))

    assert story.kiosk.desk.page == ""


# --- hands in with the isolator off --------------------------------------------------------------


def second_check(story: Story) -> Story:
    """The first hole is drilled, and the second one waits for the adult."""
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin()
    story.touch(Still())
    if story.kiosk.session.still_asked:
        story.touch(Still())
    story.do_steps("adult_check")
    return story


def test_a_bit_that_is_not_straight_at_the_next_hole_asks_for_the_isolator_first() -> None:
    story = second_check(said())
    story.touch(OpenPage("not_right"))
    story.touch(PickNotRight("straight"))

    assert "isolator off" in [f.value for f in story.kiosk.session.step.makes]


def test_nobody_goes_back_into_the_chuck_with_the_isolator_on() -> None:
    story = second_check(said())
    story.touch(OpenPage("not_right"))
    story.touch(PickNotRight("push"))

    for _ in range(10):
        story.give(GoBack())

    assert story.kiosk.session.step.needs.value != "isolator off"
    assert [e.step for e in story.events(StepDone)].count("key") == 1
