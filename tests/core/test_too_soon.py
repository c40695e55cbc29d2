"""*Stopped and still* touched sooner than a hole takes, where no contact can have seen a run."""

from __future__ import annotations

from kiosk.core.events import HoleDrilled, StillAsked
from kiosk.core.inputs import NotDrilled, Still
from kiosk.core.machining import cutting_time
from tests.core.counting import Counted, workshop
from tests.core.test_touch_counts import at_the_check


def drilling(machine: str = "drill-3") -> Counted:
    """The OK was given just now."""
    story = at_the_check(machine, ("hook_bar", 0))
    story.ok_by_badge()
    assert story.view.screen == "drilling"
    return story


def in_the_cut(story: Counted) -> float:
    """How long the hole takes at its feed, in seconds."""
    assert story.kiosk.session is not None
    values = dict(story.kiosk.session.plan.values)
    return cutting_time(values["travel"], values["feed"], values["speed"]).s  # type: ignore[arg-type]


def test_a_touch_two_seconds_after_the_ok_asks_first_and_can_be_taken_back() -> None:
    story = drilling()
    story.wait(2)

    story.touch(Still())
    asked = story.view
    story.touch(NotDrilled())

    assert workshop("drill-3").run_inputs == ()
    assert asked.note == "No run was seen. Is the hole drilled?"
    assert story.events(HoleDrilled) == []
    assert story.view.screen == "drilling"


def test_a_second_touch_counts_it() -> None:
    story = drilling()
    story.touch(Still())

    story.touch(Still())

    assert len(story.events(StillAsked)) == 1
    assert [e.run for e in story.events(HoleDrilled)] == ["said"]


def test_just_before_a_hole_can_be_done_it_asks_and_just_after_it_does_not() -> None:
    early, late = drilling(), drilling()
    early.wait(in_the_cut(early) - 0.1)
    late.wait(in_the_cut(late) + 0.1)

    early.touch(Still())
    late.touch(Still())

    assert in_the_cut(late) > 3
    assert len(early.events(StillAsked)) == 1
    assert late.events(StillAsked) == []
    assert len(late.events(HoleDrilled)) == 1


def test_a_run_that_was_seen_is_not_asked_about_however_short() -> None:
    story = drilling("drill-1")
    story.reads("starter", "on")
    story.reads("starter", "unknown")

    story.touch(Still())

    assert story.events(StillAsked) == []
    assert len(story.events(HoleDrilled)) == 1
