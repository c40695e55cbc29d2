"""Stories about adults: at the check, with badges, a cover teacher, days that go by."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import (
    AdultIssued,
    AskAdult,
    BadgeChecked,
    BadgeRead,
    PickAdult,
    PickJob,
    PickPupil,
    PinChecked,
    SecretReady,
    TypePin,
)
from kiosk.core.model import Adult, Roster
from kiosk.core.units import Moment
from tests.core.story import TEACHER, TECHNICIAN, Story, begun, lesson_open

COVER = Adult("a3", "Mx Cover", "cover")
DAY_US = 86_400_000_000


def at_the_check() -> Story:
    """Number 5 waits for an adult's OK."""
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    story.do_steps("adult_check")
    return story


def with_badges(story: Story) -> Story:
    for adult in (TEACHER, TECHNICIAN):
        story.give(SecretReady(adult.ref, "badge", "test"))
    return story


def badge(story: Story, of: str) -> None:
    story.give(BadgeRead("0012345678"))
    story.give(BadgeChecked(of))


def with_cover(story: Story, days: int, role: str = COVER.role) -> Story:
    """A cover teacher authorised here for so many days more."""
    known = (TEACHER, TECHNICIAN, COVER)
    story.shop = replace(story.shop, roster=Roster(story.shop.roster.groups, known))
    until = story.now.day + days
    story.give(AdultIssued(COVER.ref, role, "test", story.shop.machine.id, until))
    return story


def signed_in(adult: Adult = TECHNICIAN) -> Story:
    story = begun()
    story.touch(AskAdult("menu"))
    story.pin(adult)
    return story


def pass_days(story: Story, days: int) -> None:
    """A night or more goes by; nothing but the clock changes."""
    moved = story.now.wall_us + days * DAY_US
    story.now = Moment(story.now.boot, story.now.us, moved, story.now.quality)


def wrong(story: Story, adult: Adult = TEACHER) -> None:
    if story.kiosk.desk.page == "names":
        story.touch(PickAdult(adult.ref))
    story.give(TypePin(adult.ref, "000000"))
    story.give(PinChecked(adult.ref, False))
