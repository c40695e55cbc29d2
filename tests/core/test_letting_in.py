"""How adults are let in: a badge, a spare code, and not once revoked or replaced."""

from __future__ import annotations

from kiosk.core.events import (
    BadgePassed,
    BadgeTried,
    BadgeUnknown,
    CodePassed,
    DrillingShown,
    OkGiven,
    PinFailed,
    PinIssued,
    SpellStarted,
)
from kiosk.core.inputs import (
    AdultEnded,
    AdultIssued,
    AskAdult,
    BadgeChecked,
    BadgeRead,
    CodeChecked,
    OpenPage,
    PickAdult,
    PickJob,
    PickPupil,
    PinChecked,
    SecretReady,
    SpellOk,
    TypeCode,
    TypePin,
)
from tests.core.adults_story import (
    at_the_check,
    badge,
    signed_in,
    with_badges,
    wrong,
)
from tests.core.story import TEACHER, TECHNICIAN, Story, begun, lesson_open

# --- badges --------------------------------------------------------------------------------------


def test_one_touch_of_a_badge_is_the_ok_and_the_record_says_so() -> None:
    story = with_badges(at_the_check())

    badge(story, TEACHER.ref)

    (ok,) = story.events(OkGiven)
    assert ok == OkGiven(TEACHER.ref, "badge", 1)
    assert isinstance(story.record[-1].event, DrillingShown)
    assert story.events(BadgeTried) == [BadgeTried("ok")]
    assert not story.events(SpellStarted)


def test_a_badge_at_the_idle_screen_opens_the_menu() -> None:
    story = with_badges(begun())

    badge(story, TECHNICIAN.ref)

    assert story.view.screen == "menu"
    assert story.kiosk.desk.signed == TECHNICIAN.ref


def test_no_event_and_no_state_has_the_badges_number() -> None:
    story = with_badges(at_the_check())

    badge(story, TEACHER.ref)

    assert "0012345678" not in repr(story.record) + repr(story.kiosk)


def test_an_unknown_badge_brings_up_the_names_and_the_next_one_waits_a_moment() -> None:
    story = with_badges(at_the_check())

    badge(story, "")

    assert story.events(BadgeUnknown) == [BadgeUnknown("ok")]
    assert story.view.note == "This badge is not known here. Touch your name."
    story.give(BadgeRead("1"))
    assert story.refusal == "pause"
    story.wait(2)
    badge(story, TEACHER.ref)
    assert story.view.screen == "drilling"


def test_a_badge_read_while_nobody_is_asked_for_does_nothing() -> None:
    story = with_badges(lesson_open())
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))

    events = story.give(BadgeRead("0012345678"))

    assert events == ()


def test_a_badge_never_starts_what_has_changed_while_it_was_looked_for() -> None:
    story = with_badges(at_the_check())
    story.give(BadgeRead("0012345678"))
    story.touch(OpenPage("not_right"))

    story.give(BadgeChecked(TEACHER.ref))

    assert story.events(BadgePassed) and not story.events(OkGiven)


def test_a_revoked_badge_is_nobodys() -> None:
    story = with_badges(at_the_check())
    story.give(AdultEnded(TEACHER.ref, "test"))

    badge(story, TEACHER.ref)

    assert story.events(BadgeUnknown) and not story.events(OkGiven)


def test_a_badge_gets_through_while_its_adults_pin_has_to_wait() -> None:
    story = with_badges(at_the_check())
    story.touch(AskAdult("ok"))
    for _ in range(3):
        wrong(story)
    assert story.kiosk.adults.wait_left(TEACHER.ref, story.now).s > 0

    badge(story, TEACHER.ref)

    assert story.view.screen == "drilling"
    assert story.kiosk.adults.wait_left(TEACHER.ref, story.now).s > 0


# --- spare codes ---------------------------------------------------------------------------------


def in_back_off() -> Story:
    """The teacher has two spare codes, and a PIN that must wait."""
    story = at_the_check()
    story.give(SecretReady(TEACHER.ref, "codes", "test", ("", "")))
    story.touch(AskAdult("ok"))
    for _ in range(3):
        wrong(story)
    return story


def test_a_spare_code_gets_through_once_while_the_pin_has_to_wait() -> None:
    story = in_back_off()
    story.touch(OpenPage("code"))
    assert story.view.pad is not None and story.view.pad.digits == 10

    story.give(TypeCode(TEACHER.ref, "0123456789"))
    story.give(CodeChecked(TEACHER.ref, 1))

    assert story.events(CodePassed) == [CodePassed(TEACHER.ref, "ok", 1)]
    assert story.view.screen == "drilling"
    state = story.kiosk.adults.find(TEACHER.ref)
    assert state is not None and state.codes == 1


def test_a_wrong_code_costs_a_moment_and_not_the_pad() -> None:
    story = in_back_off()
    story.touch(OpenPage("code"))
    story.give(TypeCode(TEACHER.ref, "0123456789"))
    story.give(CodeChecked(TEACHER.ref, 0))

    story.give(TypeCode(TEACHER.ref, "0123456789"))

    assert story.refusal == "pause"
    assert story.view.screen == "pin"


def test_with_no_code_left_none_is_offered() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    for _ in range(3):
        wrong(story)

    assert OpenPage("code") not in [b.touch for b in story.buttons()]


# --- revoked and replaced ------------------------------------------------------------------------


def test_a_pin_revoked_while_it_is_checked_does_not_pass() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.touch(PickAdult(TEACHER.ref))
    story.give(TypePin(TEACHER.ref, "482915"))
    story.give(AdultEnded(TEACHER.ref, "test"))

    story.give(PinChecked(TEACHER.ref, True))

    assert story.events(PinFailed) and not story.events(OkGiven)


def test_a_pin_replaced_while_the_old_one_is_checked_does_not_pass() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.touch(PickAdult(TEACHER.ref))
    story.give(TypePin(TEACHER.ref, "482915"))
    story.give(AdultIssued(TEACHER.ref, "teacher", "test"))

    story.give(PinChecked(TEACHER.ref, True))

    assert len(story.events(PinIssued)) == 3 and not story.events(OkGiven)


def test_who_is_revoked_while_signed_in_is_out_at_once() -> None:
    story = signed_in(TEACHER)

    story.give(AdultEnded(TEACHER.ref, "test"))

    assert story.kiosk.desk.signed == ""
    assert story.view.screen == "idle"


def test_a_revoked_adults_spell_is_over() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin(TEACHER, stay=1)
    assert story.kiosk.lesson is not None and story.kiosk.lesson.spell is not None

    story.give(AdultEnded(TEACHER.ref, "test"))

    assert story.kiosk.lesson.spell is None
    assert story.give(SpellOk()) == ()
