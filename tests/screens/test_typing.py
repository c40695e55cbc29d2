"""What is typed on the screens: a PIN on its pad, a note on its keyboard."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.inputs import TypeNote, TypePin


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


def test_six_digits_are_sent_once_with_the_adult(hand, views):
    it = hand(view=views["pin"])

    for digit in "123456":
        it.tap(digit)

    assert it.touches == [TypePin("a1", "123456", 0)]


def test_the_same_digit_twice_in_quick_succession_counts_twice(hand, views):
    it = hand(view=views["pin"])

    for digit in "112233":
        it.tap(digit)
        it.wait(0.09)

    assert it.touches == [TypePin("a1", "112233", 0)]


def test_a_digit_can_be_taken_back(hand, views):
    it = hand(view=views["pin"])
    delete = next(t for t in it.face.stage.targets if t.look == "key" and not t.words)

    for key in ("1", "9", delete, "2", "3", "4", "5", "6"):
        it.tap(key)

    assert it.touches == [TypePin("a1", "123456", 0)]


def test_staying_is_asked_for_with_the_pin(hand, views):
    it = hand(view=views["pin_stay"])

    it.tap("I stay here")
    for digit in "123456":
        it.tap(digit)

    assert it.touches == [TypePin("a1", "123456", 1)]


def test_a_new_view_of_the_same_pad_forgets_a_sent_pin(hand, views):
    it = hand(view=views["pin"])
    for digit in "123456":
        it.tap(digit)

    it.show(replace(views["pin"], number=901))

    assert it.face.stage.typed.digits == ""


def test_leaving_the_pad_forgets_the_digits(hand, views):
    it = hand(view=views["pin"])
    it.tap("1")

    it.show(views["idle"])

    assert it.face.stage.typed.digits == ""


def test_a_reading_keeps_the_digits_typed_so_far(hand, views):
    it = hand(view=views["pin"])
    it.tap("1")
    head = replace(views["pin"].head, isolator="on")

    it.show(replace(views["pin"], head=head))

    assert it.face.stage.typed.digits == "1"


def test_a_pad_that_is_busy_takes_no_digits(hand, views):
    it = hand(view=views["pin_busy"])

    for digit in "123456":
        it.tap(digit)

    assert it.touches == []


def test_a_note_is_typed_with_capitals_and_sent(hand, views):
    it = hand(view=views["note"])

    for key in ("t", "i", "e", "space", "c", "a", "u", "g", "h", "t", "."):
        it.tap(key)
    it.tap("Keep the note")

    assert it.touches == [TypeNote("near_miss", "entangle", "Tie caught.")]


def test_an_empty_note_is_not_sent(hand, views):
    it = hand(view=views["note"])

    it.tap("Keep the note")

    assert it.touches == []


def test_a_long_note_shows_its_end_and_fits(hand, views):
    from kiosk.screens.geometry import problems
    from kiosk.screens.theme import SEVEN_INCH

    it = hand(view=views["note"])
    it.face.stage.typed.text = "The tie was caught in the chuck. " * 12

    it.tap("x")
    it.frame()

    assert problems(it.face, SEVEN_INCH) == []
