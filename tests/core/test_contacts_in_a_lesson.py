"""What the inputs beside the isolator lead to: starter, spindle, guard, extraction."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.events import Interrupted, ReadingChanged, RunDownSeen, RunWithoutOkSeen
from kiosk.core.inputs import AskAdult, PickJob, PickPupil, Still
from kiosk.core.model import ContactPair
from kiosk.core.view import View
from tests.core.story import Story, lesson_open

WIRED = {
    "isolator": ContactPair(0, 1),
    "starter": ContactPair(2),
    "spindle": ContactPair(3),
    "guard": ContactPair(4),
    "extraction": ContactPair(5),
}


def started_session() -> Story:
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    return story


def wired(story: Story, *names: str) -> Story:
    """The story with these inputs wired from now on."""
    inputs = tuple((name, WIRED[name]) for name in names)
    machine = replace(story.shop.machine, wiring=replace(story.shop.machine.wiring, inputs=inputs))
    story.shop = replace(story.shop, machine=machine)
    for name in names[1:]:
        story.reads(name, "off")
    return story


def drilling(*names: str) -> Story:
    """At the drilling screen, with these inputs wired."""
    story = started_session()
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin()
    return wired(story, *names)


def may_say_still(story: Story) -> bool:
    return any(isinstance(b.touch, Still) for b in story.buttons())


def run_and_stop(story: Story) -> None:
    """The drill runs, spindle and starter seen, and the red stop is pressed."""
    story.reads("isolator", "on")
    story.reads("starter", "on")
    story.reads("spindle", "on")
    story.wait(10)
    story.reads("starter", "off")


# --- run-down ------------------------------------------------------------------------------------


def test_with_a_spindle_contact_the_button_waits_until_it_says_off_however_long() -> None:
    story = drilling("isolator", "starter", "spindle")
    run_and_stop(story)

    story.wait(story.shop.machine.run_down.s + 5)

    assert not may_say_still(story)
    assert [b.label for b in story.view.buttons] == ["Wait until it stands still."]
    story.give(Still())
    assert story.refusal == "run_down"


def test_while_it_runs_down_only_the_one_button_of_the_screen_changes() -> None:
    """Whatever else changed would move lines and drawing under the eyes of whoever waits."""
    story = drilling("isolator", "starter")
    before = story.view
    run_and_stop(story)

    running_down = story.view
    story.wait(story.shop.machine.run_down.s + 1)

    for view in (running_down, story.view):
        assert replace(view, buttons=before.buttons, head=before.head, number=0) == replace(
            before, number=0
        )
    assert [b.label for b in running_down.buttons] == ["Wait until it stands still."]
    assert [b.label for b in story.view.buttons] == ["Stopped and still? Then touch here."]


def test_with_a_spindle_contact_the_button_answers_as_soon_as_it_has_come_to_rest() -> None:
    story = drilling("isolator", "starter", "spindle")
    run_and_stop(story)

    story.wait(1.5)
    story.reads("spindle", "off")

    assert story.shop.machine.run_down.s > 1.5
    assert may_say_still(story)


def test_the_run_down_is_measured_from_the_starter_to_the_spindle() -> None:
    story = drilling("isolator", "starter", "spindle")
    run_and_stop(story)

    story.wait(1.5)
    story.reads("spindle", "off")

    assert story.events(RunDownSeen) == [RunDownSeen(1500)]


def test_a_spindle_contact_that_never_said_turning_proves_nothing() -> None:
    story = drilling("isolator", "starter", "spindle")
    story.reads("isolator", "on")
    story.reads("starter", "on")
    story.wait(10)
    story.reads("starter", "off")

    story.wait(story.shop.machine.run_down.s - 0.5)
    early = may_say_still(story)
    story.wait(0.6)

    assert (early, may_say_still(story)) == (False, True)
    assert story.events(RunDownSeen) == []


def test_a_spindle_that_says_off_while_the_starter_is_in_is_waited_for_by_time() -> None:
    story = drilling("isolator", "starter", "spindle")
    story.reads("isolator", "on")
    story.reads("starter", "on")
    story.reads("spindle", "on")
    story.reads("spindle", "off")  # its wire came off, or the belt slips
    story.wait(10)
    story.reads("starter", "off")

    assert not may_say_still(story)
    story.wait(story.shop.machine.run_down.s + 0.1)
    assert may_say_still(story)
    assert story.events(RunDownSeen) == []


def test_a_lost_spindle_contact_is_not_taken_for_still() -> None:
    story = drilling("isolator", "starter", "spindle")
    run_and_stop(story)

    story.reads("spindle", "unknown")
    story.reads("spindle", "off")

    assert not may_say_still(story)
    assert story.events(RunDownSeen) == []


def test_a_spindle_contact_alone_is_waited_for_too() -> None:
    story = drilling("isolator", "spindle")
    story.reads("isolator", "on")
    story.reads("spindle", "on")
    story.wait(10)

    running = may_say_still(story)
    story.reads("spindle", "off")

    assert (running, may_say_still(story)) == (False, True)


def test_without_a_spindle_contact_at_least_the_machine_file_s_time_is_waited() -> None:
    story = drilling("isolator", "starter")
    story.reads("isolator", "on")
    story.reads("starter", "on")
    story.wait(10)
    story.reads("starter", "off")

    story.wait(story.shop.machine.run_down.s - 0.1)
    early = may_say_still(story)
    story.wait(0.2)

    assert (early, may_say_still(story)) == (False, True)


def test_the_next_hole_measures_its_own_run_down() -> None:
    story = drilling("isolator", "starter", "spindle")
    run_and_stop(story)
    story.wait(1)
    story.reads("spindle", "off")
    story.touch(Still())
    story.do_steps("adult_check")
    story.touch(AskAdult("ok"))
    story.pin()

    run_and_stop(story)
    early = may_say_still(story)
    story.wait(2)
    story.reads("spindle", "off")

    assert not early
    assert story.events(RunDownSeen) == [RunDownSeen(1000), RunDownSeen(2000)]


def test_measuring_does_not_count_as_a_touch() -> None:
    story = drilling("isolator", "starter", "spindle")
    run_and_stop(story)
    assert story.kiosk.session is not None
    before = story.kiosk.session.touched

    story.wait(1)
    story.reads("spindle", "off")

    assert story.kiosk.session.touched == before


# --- a run with no OK ----------------------------------------------------------------------------


@pytest.mark.parametrize("name", ["starter", "spindle"])
def test_a_drill_seen_running_with_no_ok_is_recorded_as_that(name: str) -> None:
    story = wired(lesson_open(), "isolator", "starter", "spindle")

    story.reads(name, "on")

    assert story.events(RunWithoutOkSeen) == [RunWithoutOkSeen(name)]


# --- guard and extraction ------------------------------------------------------------------------


def check_with_guard(reading: str) -> View:
    story = wired(started_session(), "isolator", "starter", "guard")
    story.do_steps("adult_check")
    story.reads("guard", reading)
    return story.view


def test_a_guard_that_reads_up_is_one_line_at_the_adult_check() -> None:
    view = check_with_guard("off")

    assert view.note == "The guard's contact says that it is up."
    assert all(b.live for b in view.buttons)


@pytest.mark.parametrize("reading", ["on", "unknown"])
def test_a_guard_that_does_not_read_up_is_not_spoken_of(reading: str) -> None:
    assert check_with_guard(reading).note == ""


@pytest.mark.parametrize("name", ["guard", "extraction"])
@pytest.mark.parametrize("reading", ["on", "off", "unknown", "fault"])
def test_guard_and_extraction_are_recorded_and_halt_nothing(name: str, reading: str) -> None:
    story = drilling("isolator", "starter", "guard", "extraction")
    before = story.view

    story.reads(name, reading)

    assert story.events(ReadingChanged)[-1] == ReadingChanged(name, reading, "settled")
    assert story.events(Interrupted) == []
    assert story.view == before
