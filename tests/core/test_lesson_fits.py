"""Whether a lesson fits its time: the bench's lesson, for its slowest job."""

from __future__ import annotations

from kiosk.core.model import Level
from tests.bench.lesson import (
    ADULT_TOUCHES,
    FURTHER_S,
    JOINING_S,
    TARGET_MIN,
    further_s,
    played,
)
from tests.core.story import CONTENT


def test_twenty_joining_pupils_drill_a_part_way_hole_in_dusty_wood_in_forty_minutes() -> None:
    job = CONTENT.job("pen_block")
    assert job is not None

    told = played(job)

    assert told.minutes <= TARGET_MIN
    assert told.kiosk_s <= JOINING_S
    assert told.adult_touches <= ADULT_TOUCHES


def test_a_further_hole_of_a_pupil_checked_at_every_hole_adds_at_most_twelve_seconds() -> None:
    job = CONTENT.job("hook_bar")
    assert job is not None

    assert further_s(job, Level.SHOWN) <= FURTHER_S
