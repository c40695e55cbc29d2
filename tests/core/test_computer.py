"""What was found of the computer: a page of the corner, and a warning on the screen at rest."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.inputs import Act
from tests.core.care_story import corner
from tests.core.computer import FOUND
from tests.core.story import WORDS, Story, begun


def found(story: Story) -> Story:
    story.shop = replace(story.shop, computer=FOUND)
    return story


def test_what_is_to_be_put_right_stands_first_and_each_part_says_what_to_do() -> None:
    story = found(corner())

    story.touch(Act("computer"))
    labels = [choice.label for choice in story.view.choices]
    story.touch(Act("part", "record"))

    assert labels[0] == "Place of the record\nto be put right"
    assert [label.partition("\n")[2] for label in labels[1:4]] == ["worth a look"] * 3
    assert len(labels) == len(FOUND)
    assert story.view.title == "Place of the record: to be put right"
    assert story.view.lines[0] == FOUND[2].found
    assert story.view.lines[1] == "Give the record a part of the card (record: in the settings)"


def test_before_it_was_looked_at_the_page_says_when() -> None:
    story = corner()

    story.touch(Act("computer"))

    assert story.view.lines == ("It is looked at half a minute after the start.",)
    story.give(Act("part", "record"))
    assert story.view.title == "This computer"


def test_a_record_that_is_lost_with_the_power_is_told_on_the_screen_at_rest() -> None:
    story = begun()
    warning = WORDS.say("idle.forgets")

    before, after = story.view.lines, found(story).view.lines

    assert warning not in before
    assert warning in after
    story.shop = replace(story.shop, computer=tuple(one for one in FOUND if one.name != "record"))
    assert warning not in story.view.lines
