"""What a finger sets off, and what it must not."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.inputs import SeenRight, SomethingWrong, Touched


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


MAIN = "My stop reads 14.5\u00a0mm more".replace("\u00a0", " ")


def test_a_tap_posts_the_touch_with_the_number_of_its_view(hand, views):
    it = hand(view=views["step"])

    it.tap(MAIN)

    assert it.posted == [Touched(views["step"].number, SeenRight("s7"))]


@pytest.mark.parametrize("ms", [80, 150])
def test_a_bounce_makes_one_touch(hand, views, ms):
    it = hand(view=views["step"])

    it.tap(MAIN)
    it.wait(ms / 1000)
    it.tap(MAIN)

    assert len(it.posted) == 1


@pytest.mark.parametrize("ms", [80, 150])
def test_a_bounce_does_not_reach_the_next_view(hand, views, ms):
    it = hand(view=views["step"])
    after = replace(views["step"], title="Next", number=900)

    it.tap(MAIN)
    it.show(after)
    it.wait(ms / 1000)
    it.tap(MAIN)

    assert len(it.posted) == 1


def test_a_touch_after_the_quiet_time_counts_again(hand, views):
    it = hand(view=views["step"])

    it.tap(MAIN)
    it.wait(0.31)
    it.tap(MAIN)

    assert len(it.posted) == 2


def test_a_refused_touch_is_shown_as_refused(hand, views):
    it = hand(view=views["step"])
    it.show(replace(views["step"], title="Next", number=900))

    tip = it.down(MAIN)
    refused = it.target(MAIN).refused
    it.up(tip)

    assert refused
    assert not it.target(MAIN).refused


def test_a_finger_held_while_the_view_changes_sends_nothing(hand, views):
    it = hand(view=views["step"])

    tip = it.down(MAIN)
    it.show(views["step_plain"])
    it.wait(1.0)
    it.up(tip)

    assert it.posted == []
    assert not any(target.pressed for target in it.face.stage.targets)


def test_a_finger_held_while_only_the_reading_changes_still_sends(hand, views):
    it = hand(view=views["step"])
    head = replace(views["step"].head, isolator="on", isolator_word="Isolator on")

    tip = it.down(MAIN)
    it.show(replace(views["step"], head=head, number=77, seq=12))
    pressed = it.target(MAIN).pressed
    it.up(tip)

    assert pressed
    assert it.posted == [Touched(77, SeenRight("s7"))]


def test_something_wrong_is_never_ignored_after_a_change(hand, views):
    it = hand(view=views["step"])
    it.show(views["drilling"])

    it.tap("Something wrong?")

    assert it.touches == [SomethingWrong()]


def test_something_wrong_held_over_a_change_still_sends(hand, views):
    it = hand(view=views["step"])

    tip = it.down("Something wrong?")
    it.show(views["drilling"])
    it.up(tip)

    assert it.posted == [Touched(views["drilling"].number, SomethingWrong())]


def test_something_wrong_held_while_it_goes_away_sends_nothing(hand, views):
    it = hand(view=views["step"])

    tip = it.down("Something wrong?")
    it.show(views["wrong"])
    it.wait(1.0)
    it.up(tip)

    assert it.posted == []


def test_a_button_that_is_not_live_sends_nothing(hand, views):
    view = views["step"]
    back, main = view.buttons
    it = hand(view=replace(view, buttons=(back, replace(main, live=False))))

    it.tap(MAIN)

    assert it.posted == []


def test_a_button_disabled_under_the_finger_sends_nothing(hand, views):
    view = views["step"]
    back, main = view.buttons
    it = hand(view=view)

    tip = it.down(MAIN)
    it.show(replace(view, buttons=(back, replace(main, live=False))))
    it.up(tip)

    assert it.posted == []


def test_a_second_finger_does_nothing_while_the_first_is_down(hand, views):
    it = hand(view=views["step"])

    first = it.down("Back", uid=1)
    second = it.down(MAIN, uid=2)
    it.up(second)
    nothing = list(it.posted)
    it.up(first)

    assert nothing == []
    assert len(it.posted) == 1


def test_a_finger_whose_lifting_was_lost_does_not_lock_the_screen(hand, views):
    it = hand(view=views["step"])
    it.down("Back", uid=1)

    it.wait(11)
    it.tap(MAIN)

    assert it.touches == [SeenRight("s7")]
    assert not it.target("Back").pressed


def test_a_finger_that_slides_off_sends_nothing(hand, views):
    it = hand(view=views["step"])
    tip = it.down(MAIN)

    tip.move((0.9, 0.9))
    it.feel("update", tip)
    pressed = it.target(MAIN).pressed
    it.up(tip)

    assert not pressed
    assert it.posted == []


def test_the_press_is_shown_at_once(hand, views):
    it = hand(view=views["step"])

    tip = it.down(MAIN)

    assert it.target(MAIN).pressed
    it.up(tip)


@pytest.mark.parametrize("event", ["on_mouse_down", "on_mouse_up"])
def test_the_frame_after_a_touch_does_not_wait_for_its_turn(window, event):
    from kivy.clock import Clock
    from kivy.event import EventDispatcher

    from kiosk.screens.window import answer_at_once

    class Pane(EventDispatcher):
        __events__ = ("on_mouse_down", "on_mouse_up")

        def on_mouse_down(self, *_):
            return "given on"

        on_mouse_up = on_mouse_down

    pane = Pane()
    answer_at_once(pane)
    Clock.tick()
    waited = Clock.get_min_timeout()

    given_on = pane.dispatch(event, 1, 1, "left", [])

    assert waited > Clock.get_min_timeout() == 0
    assert given_on == "given on"
