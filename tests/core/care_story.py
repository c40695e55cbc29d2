"""Stories about keeping the drill in order: out of use, and the technician's corner."""

from __future__ import annotations

from kiosk.core.inputs import Act, AskAdult, LeavePage
from kiosk.core.model import Adult
from kiosk.core.rules import Judge, Past
from kiosk.core.walk.grounds import house_of
from tests.core.adults_story import signed_in
from tests.core.story import TECHNICIAN, Story, begun


def out_of_use(why: str, by: Adult = TECHNICIAN, deputy: str = "") -> Story:
    """The drill taken out of use; with a deputy if one is named."""
    story = begun()
    if deputy:
        at_the_menu(story, TECHNICIAN)
        story.touch(Act("care"))
        story.touch(Act("deputy"))
        story.touch(Act("name_deputy", deputy))
    at_the_menu(story, by)
    story.touch(Act("out"))
    story.touch(Act("out_why", why))
    return story


def at_the_menu(story: Story, adult: Adult) -> None:
    story.give(LeavePage())
    story.touch(AskAdult("menu"))
    story.pin(adult)


def corner() -> Story:
    story = signed_in()
    story.touch(Act("care"))
    return story


def shown(story: Story) -> list[object]:
    return [b.touch for b in story.buttons()]


def broken(story: Story) -> set[str]:
    """The rules that the story's record breaks, but for whose hand was at the desk."""
    judge, past, found = Judge(house_of(story.shop)), Past(), set()
    for entry in story.record:
        past, rules = judge.judge(past, entry, None)
        found |= {b.rule.id for b in rules}
    return found - {"signed_in", "seen_still"}
