"""What an adult may do, how long, and what a technician changes about it; guessing."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import (
    AdultAuthorised,
    AdultRevoked,
    OkGiven,
    PinIssued,
    PinPassed,
    SecretAsked,
)
from kiosk.core.inputs import (
    Act,
    AdultAllowed,
    AdultIssued,
    AdultNamed,
    AskAdult,
    BadgeRead,
    KioskBegan,
    PickAdult,
    PinChecked,
    SecretReady,
    TypePin,
)
from kiosk.core.model import Policy, Roster
from tests.core.adults_story import (
    COVER,
    at_the_check,
    pass_days,
    signed_in,
    with_cover,
)
from tests.core.story import TEACHER, TECHNICIAN, begun

# --- roles and days ------------------------------------------------------------------------------


def test_a_cover_teacher_opens_a_lesson_and_grants_no_level() -> None:
    story = with_cover(begun(), days=3)
    story.touch(AskAdult("menu"))
    story.pin(COVER)

    shown = {b.touch.what for b in story.buttons() if isinstance(b.touch, Act)}

    assert {"open", "pre_use", "note", "out"} <= shown
    assert not {"level", "people", "download", "own_use"} & shown
    assert story.give(Act("own_use")) == () and story.refusal == "not_allowed"


def test_an_authorisation_is_told_before_it_ends_and_ends() -> None:
    story = with_cover(begun(), days=3)
    story.touch(AskAdult("menu"))
    story.pin(COVER)
    assert "Authorised on this drill. Days left: 3." in story.view.lines

    pass_days(story, 4)

    assert story.give(Act("open")) == () and story.refusal == "not_allowed"


def test_who_has_ended_is_listed_pale_and_told_so() -> None:
    story = with_cover(at_the_check(), days=0)
    pass_days(story, 1)
    story.touch(AskAdult("ok"))

    ended = [b for b in story.view.choices if b.label.startswith(COVER.name)]

    assert [(b.label, b.live) for b in ended] == [("Mx Cover\nHas ended", False)]


def test_an_authorisation_for_another_drill_does_not_count_here() -> None:
    story = at_the_check()
    known = (TEACHER, TECHNICIAN, COVER)
    story.shop = replace(story.shop, roster=Roster(story.shop.roster.groups, known))
    story.give(AdultIssued(COVER.ref, COVER.role, "test", "drill-2", story.now.day + 5))
    story.touch(AskAdult("ok"))

    assert PickAdult(COVER.ref) not in [b.touch for b in story.buttons()]
    story.give(AdultAllowed(COVER.ref, "drill-1", story.now.day + 5, "test"))
    assert PickAdult(COVER.ref) in [b.touch for b in story.buttons()]


def test_a_clock_set_back_brings_no_ended_authorisation_to_life() -> None:
    story = with_cover(at_the_check(), days=1)
    story.now = replace(story.now, quality=2)
    pass_days(story, 2)
    story.reads("isolator", "on")
    story.now = replace(story.now, quality=1)
    pass_days(story, -3)

    story.touch(AskAdult("ok"))

    assert PickAdult(COVER.ref) not in [b.touch for b in story.buttons()]


# --- the technician's screens --------------------------------------------------------------------


def test_a_technician_issues_a_pin_on_the_screen_and_it_is_shown_once() -> None:
    story = signed_in()
    story.touch(Act("people"))
    story.touch(Act("person", TEACHER.ref))
    story.touch(Act("secret", f"{TEACHER.ref} pin"))
    assert story.events(SecretAsked) == [SecretAsked(TEACHER.ref, "pin", TECHNICIAN.ref)]

    story.give(SecretReady(TEACHER.ref, "pin", TECHNICIAN.ref, ("482915",)))

    assert story.view.screen == "secret" and story.view.secret == ("482 915",)
    assert story.record[-1].event == PinIssued(TEACHER.ref, TECHNICIAN.ref)
    assert "482915" not in repr(story.record)
    story.touch(Act("person", TEACHER.ref))
    assert story.kiosk.desk.secret == ()


def test_a_badge_is_read_in_and_counts_from_then_on() -> None:
    story = signed_in()
    story.touch(Act("people"))
    story.touch(Act("person", TEACHER.ref))
    story.touch(Act("badge", TEACHER.ref))

    story.give(BadgeRead("0012345678"))
    story.give(SecretReady(TEACHER.ref, "badge", TECHNICIAN.ref))

    state = story.kiosk.adults.find(TEACHER.ref)
    assert state is not None and state.badge
    assert story.view.title == TEACHER.name


def test_another_adults_badge_is_refused_in_words() -> None:
    story = signed_in()
    story.touch(Act("people"))
    story.touch(Act("person", TEACHER.ref))
    story.touch(Act("badge", TEACHER.ref))
    story.give(BadgeRead("0012345678"))

    story.give(SecretReady(TEACHER.ref, "badge", TECHNICIAN.ref, why="taken"))

    assert story.view.title == "Nothing was changed"


def test_a_new_cover_teacher_is_named_and_asked_for_how_long() -> None:
    story = signed_in()
    story.touch(Act("people"))
    story.touch(Act("role"))
    story.touch(Act("person_new", "cover"))
    assert story.view.keys is not None and story.view.keys.asks == "name"

    story.give(AdultNamed(COVER.ref, "cover"))
    story.touch(Act("authorise", f"{COVER.ref} 7"))

    until = story.now.day + 6
    by = TECHNICIAN.ref
    assert story.events(AdultAuthorised) == [AdultAuthorised(COVER.ref, "drill-1", until, by)]


def test_the_last_technician_stays_and_a_teacher_goes() -> None:
    story = signed_in()

    story.give(Act("revoke", TECHNICIAN.ref))
    assert story.refusal == "last_technician"
    story.touch(Act("people"))
    story.touch(Act("person", TEACHER.ref))
    story.touch(Act("revoke_ask", TEACHER.ref))
    story.touch(Act("revoke", TEACHER.ref))

    assert story.events(AdultRevoked) == [AdultRevoked(TEACHER.ref, TECHNICIAN.ref)]


@pytest.mark.parametrize("what", ["people", "secret", "revoke", "authorise", "person_new", "badge"])
def test_a_teacher_changes_nothing_about_adults(what: str) -> None:
    story = signed_in(TEACHER)

    events = story.give(Act(what, f"{TEACHER.ref} pin"))

    assert events == () and story.refusal == "not_allowed"


# --- guessing ------------------------------------------------------------------------------------


def test_a_hundred_wrong_pins_take_as_long_as_the_back_off_says() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    began, tried = story.now.us, 0
    story.touch(PickAdult(TEACHER.ref))
    while tried < 100:
        story.now = replace(story.now, us=story.now.us + 5_000_000)
        story.give(TypePin(TEACHER.ref, "000000"))
        if story.kiosk.adults.trying:
            story.give(PinChecked(TEACHER.ref, False))
            tried += 1

    hours = (story.now.us - began) / 3_600_000_000
    assert hours >= 90  # two are free, seven cost 30 s doubled up to 32 min, the rest an hour each


def test_a_try_is_in_the_record_before_it_is_checked_and_a_restart_gives_none_free() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.touch(PickAdult(TEACHER.ref))
    story.give(TypePin(TEACHER.ref, "000000"))
    story.now = replace(story.now, boot="boot2")
    story.give(KioskBegan("drill-1", "test", "cut"))

    state = story.kiosk.adults.find(TEACHER.ref)

    assert state is not None and state.wrong == 1
    assert story.kiosk.adults.trying is None


def test_a_mixed_pad_has_every_digit_once_and_another_order_each_time() -> None:
    story = at_the_check()
    people = Policy(shuffled=True)
    story.shop = replace(story.shop, content=replace(story.shop.content, people=people))
    orders = []
    for _ in range(5):
        story.touch(AskAdult("ok"))
        story.touch(PickAdult(TEACHER.ref))
        assert story.view.pad is not None
        orders.append(story.view.pad.order)
        story.wait(61)

    assert all(sorted(order) == list("0123456789") for order in orders)
    assert len(set(orders)) > 1


def test_a_right_pin_still_opens_the_way() -> None:
    story = at_the_check()
    story.touch(AskAdult("ok"))
    story.pin(TEACHER)

    assert story.events(PinPassed)[-1] == PinPassed(TEACHER.ref, "ok")
    assert story.events(OkGiven) == [OkGiven(TEACHER.ref, "pin", 1)]
