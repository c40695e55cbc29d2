"""Dimmed while nobody uses it, a pause to wipe it; neither ever in the way of what matters."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.inputs import PickPupil, SomethingWrong
from kiosk.core.view import Aside

PAUSE = Aside("Wipe the screen", "Wipe the screen now", "", ("Nothing answers.",), seconds=30)


@pytest.fixture
def views():
    from tests.screens.gallery import views

    return views()


@pytest.fixture
def idle(views):
    view = views["idle"]
    wrong = views["step"].head.wrong
    return replace(view, head=replace(view.head, wrong=wrong), asides=(PAUSE,))


def rest(it, seconds):
    """Time goes by with nobody there."""
    it.wait(seconds)
    it.face.beat()
    it.frame()


def brightness(it):
    from tests.screens.seen import picture

    grey = picture(it.face).convert("L").histogram()
    return sum(shade * count for shade, count in enumerate(grey)) / sum(grey)


# --- dimmed ---


def test_an_idle_screen_is_dimmed_and_the_first_touch_only_lights_it(hand, idle):
    it = hand(view=idle)
    it.wait(1.0)
    light = brightness(it)

    rest(it, 181)
    dark = brightness(it)
    it.tap("5")
    it.wait(0.4)
    again = brightness(it)
    it.tap("5")

    assert dark < light / 2
    assert again == light
    assert it.touches == [PickPupil(5)]


def test_something_wrong_answers_on_a_dimmed_screen_at_once(hand, idle):
    it = hand(view=idle)
    rest(it, 181)

    it.tap("Something wrong?")

    assert it.touches == [SomethingWrong()]


@pytest.mark.parametrize("name", ["step", "adult_check", "drilling", "interruption", "pin"])
def test_a_screen_of_a_turn_is_never_dimmed(hand, views, name):
    it = hand(view=views[name])
    light = brightness(it)

    rest(it, 100_000)

    assert brightness(it) == light


def test_whatever_changes_lights_the_screen(hand, idle, views):
    it = hand(view=idle)
    rest(it, 181)

    it.show(views["interruption"])
    it.show(idle)

    assert not it.face.rest.is_dim


# --- wiped ---


def test_for_thirty_seconds_nothing_answers_then_the_screen_is_back(hand, idle):
    it = hand(view=idle)
    it.tap("Wipe the screen")
    it.wait(1.0)

    targets = [target.words for target in it.face.stage.targets]
    rest(it, 28.5)
    still = it.face.stage.typed.aside
    rest(it, 1.0)
    it.wait(0.4)
    it.tap("5")

    assert targets == ["Something wrong?"]
    assert still == 0
    assert it.touches == [PickPupil(5)]


def test_the_pause_shows_how_long_it_lasts_yet(hand, idle):
    it = hand(view=idle)
    it.tap("Wipe the screen")
    shades = []

    for _ in range(3):
        rest(it, 9)
        shades.append(brightness(it))

    assert len(set(shades)) == 3


def test_in_the_pause_something_wrong_wants_a_finger_that_stays(hand, idle):
    it = hand(view=idle)
    it.tap("Wipe the screen")
    it.wait(1.0)

    it.tap("Something wrong?")
    wiped = list(it.touches)
    tip = it.down("Something wrong?")
    it.wait(1.1)
    it.up(tip)

    assert wiped == []
    assert it.touches == [SomethingWrong()]


def test_a_change_of_the_screen_ends_the_pause(hand, idle, views):
    it = hand(view=idle)
    it.tap("Wipe the screen")

    it.show(views["interruption"])
    it.wait(1.0)
    it.tap("Something wrong?")

    assert it.touches == [SomethingWrong()]
