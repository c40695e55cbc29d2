"""Why a contact can't be read, in words, and the help page of a drill that won't start."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.contacts import Sample, at_start, evaluate
from kiosk.core.inputs import Act, AskAdult, ReadingIs, SomethingWrong
from kiosk.core.model import ContactPair, Reading, Wiring
from tests.core.story import begun, lesson_open, shop
from tests.core.test_contacts_in_a_lesson import started_session

WORDS = (
    "no_port no_permission in_use no_lines unplugged silent bad_answer refused stale discrepancy "
    "chatter"
).split()


@pytest.mark.parametrize("why", WORDS)
def test_the_idle_screen_says_in_words_why_a_contact_is_lost(why: str) -> None:
    story = lesson_open()
    story.give(ReadingIs("isolator", Reading.UNKNOWN, why))

    lost = story.view
    story.reads("isolator", "off")

    assert len(lost.lines) == len(story.view.lines) + 1
    assert "contacts." not in lost.lines[-1] and "{" not in lost.lines[-1]
    assert len(lost.lines[-1].split()) <= 12


def test_with_no_lesson_open_the_idle_screen_says_it_too() -> None:
    story = begun()

    story.give(ReadingIs("isolator", Reading.UNKNOWN, "in_use"))

    assert "another program holds the port" in story.view.lines[-1]


def test_one_contact_s_plain_unknown_is_no_loss() -> None:
    story = lesson_open()

    story.give(ReadingIs("isolator", Reading.UNKNOWN, "settled"))

    assert not any("ontact" in line for line in story.view.lines)


PAIR = Wiring("modbus", inputs=(("isolator", ContactPair(0, 1)),))


def told(*samples: tuple[float, str]) -> list[str]:
    """The reasons told for samples at seconds: a loss by its word, or `` for a good one."""
    contacts, whys = at_start(PAIR, 0), []
    for seconds, lost in samples:
        levels = () if lost else ((0, False), (1, True))
        sample = Sample(round(seconds * 1e6), levels, lost)
        contacts, changes = evaluate(contacts, PAIR, sample)
        whys += [change.why for change in changes]
    return whys


def test_another_reason_of_the_port_is_told_anew() -> None:
    assert told((1, "no_port"), (2, "no_permission"), (3, "no_permission"), (4, "in_use")) == [
        "no_port",
        "no_permission",
        "in_use",
    ]


def test_a_box_that_does_not_answer_at_a_port_now_there_is_told_once_it_lasts() -> None:
    silences = [(2 + i / 5, "silent") for i in range(40)]

    assert told((1, "no_port"), *silences) == ["no_port", "silent"]


def test_one_silence_after_a_loss_is_not_told() -> None:
    good = [(10.2 + i / 5, "") for i in range(6)]

    assert told((1, "unplugged"), (10, "silent"), *good) == ["unplugged", "settled"]


def test_wrong_answers_and_silences_in_turn_are_told_once() -> None:
    mixed = [(1 + i / 5, ("silent", "bad_answer")[i // 15 % 2]) for i in range(300)]

    assert told(*mixed) == [mixed[10][1]]


# --- it won't start ------------------------------------------------------------------------------


def test_an_adult_finds_the_help_page_in_the_menu_and_comes_back() -> None:
    story = lesson_open()
    story.touch(AskAdult("menu"))
    story.pin()

    story.touch(Act("help_start"))
    page = story.view
    story.touch(Act("menu"))

    assert page.title == "The isolator is on, but it won't start"
    said = " ".join(page.lines)
    assert all(word in said for word in ("Room stop", "Guard", "Key", "Overload"))
    assert len(page.lines) <= 7
    assert story.view.screen == "menu"


def test_an_adult_who_clears_a_trouble_finds_the_help_page_and_comes_back_to_it() -> None:
    story = started_session()
    story.touch(SomethingWrong())
    story.give(story.view.choices[-1].touch)
    while not any(b.touch == AskAdult("clear") for b in story.buttons()):
        story.reads("isolator", "off")
        story.give(next(b.touch for b in story.buttons() if b.look == "main"))
    story.touch(AskAdult("clear"))
    story.pin()

    story.touch(Act("help_start"))
    page = story.view
    story.touch(Act("clear"))

    assert page.title == "The isolator is on, but it won't start"
    assert [b.touch for b in story.view.choices][-1] == Act("help_start")


def test_a_machine_with_no_contacts_says_nothing_of_them() -> None:
    found = shop()
    machine = replace(found.machine, wiring=Wiring())
    story = lesson_open()
    story.shop = replace(found, machine=machine)

    assert story.view.lines == ("The drill is not set up yet.",)
