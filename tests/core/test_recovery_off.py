"""A recovery and the isolator: hands go in once it reads off, and nobody is left standing."""

from __future__ import annotations

import pytest

from kiosk.core.events import (
    InterruptionCleared,
    RecoveryStepDone,
    SessionEnded,
    TakenOutOfUse,
    TroubleNamed,
)
from kiosk.core.inputs import (
    Act,
    AdultIssued,
    AskAdult,
    KioskBegan,
    NameTrouble,
    NoteKept,
    PickJob,
    PickPupil,
    SeenRight,
    SomethingWrong,
    StaysOn,
)
from kiosk.core.model import Fact, Habit
from kiosk.core.values import replace
from tests.core.story import CONTENT, TEACHER, Story, begun, lesson_open, shop
from tests.core.test_found_by_the_walk import said

STEPPED = ("bit_broken", "bit_jammed", "power", "smoke")
ALL = tuple(recovery.id for recovery in CONTENT.recoveries)
HANDS_IN = "Turn the chuck back by hand."
READS_ON = "The isolator reads on."


def at_work() -> Story:
    """A turn at its first step; the isolator reads on."""
    story = lesson_open()
    story.touch(PickPupil(5))
    story.touch(PickJob("hook_bar", 0))
    return story


def named(story: Story, trouble: str) -> Story:
    story.touch(SomethingWrong())
    story.touch(NameTrouble(trouble))
    return story


def at_the_isolator(trouble: str) -> Story:
    """In front of the recovery's isolator step."""
    story = named(at_work(), trouble)
    story.touch_kind(SeenRight)
    assert story.view.title == "Isolator off"
    return story


def steps_seen(story: Story) -> None:
    """The pupil's part of a recovery, with no reading changed."""
    while AskAdult("clear") not in [b.touch for b in story.buttons()]:
        story.touch_kind(SeenRight)


# --- the pupil's step ----------------------------------------------------------------------------


@pytest.mark.parametrize("trouble", STEPPED)
def test_the_isolator_step_waits_until_the_contact_reads_off(trouble: str) -> None:
    story = at_the_isolator(trouble)
    step = f"{trouble.removeprefix('bit_')}_isolator"

    story.give(SeenRight(step))
    waiting = story.view
    story.reads("isolator", "off")
    story.touch_kind(SeenRight)

    assert story.refusal == ""
    assert waiting.note == "Turn the isolator to O. This screen waits for it."
    assert [b.live for b in waiting.buttons if b.touch == SeenRight(step)] == [False]
    assert [e.step for e in story.events(RecoveryStepDone)].count(step) == 1


def test_touched_while_it_reads_on_the_step_is_refused_as_in_a_set_up() -> None:
    story = at_the_isolator("bit_jammed")

    story.give(SeenRight("jammed_isolator"))

    assert story.refusal == "isolator_not_off"


def test_with_no_turn_open_it_waits_as_well() -> None:
    story = named(begun(), "bit_jammed")
    story.touch_kind(SeenRight)

    story.give(SeenRight("jammed_isolator"))

    assert story.refusal == "isolator_not_off"


def test_every_shipped_step_against_a_start_in_a_trouble_is_asked_of_the_contact() -> None:
    steps = [s for r in CONTENT.recoveries for s in r.steps if "off_in_trouble" in s.controls]

    assert len(steps) == 2 * len(STEPPED)
    assert [s.id for s in steps if Fact.ISOLATOR_OFF not in s.makes] == []


# --- the adult's ---------------------------------------------------------------------------------


def test_no_adult_is_told_to_put_hands_in_while_it_reads_on() -> None:
    story = named(at_work(), "bit_jammed")
    story.recover()
    story.reads("isolator", "on")

    waiting = story.view
    story.reads("isolator", "off")

    assert waiting.lines == (READS_ON, "Turn it to O. This screen waits for it.")
    assert [b.live for b in waiting.buttons if b.look == "adult"] == [False]
    assert HANDS_IN in story.view.lines


def test_what_was_put_right_ends_no_trouble_while_it_reads_on() -> None:
    story = named(at_work(), "work_spun")
    story.recover()
    story.touch(AskAdult("clear"))
    story.pin()
    story.reads("isolator", "on")

    story.give(Act("again"))
    refusal = story.refusal
    story.reads("isolator", "off")
    story.touch(Act("again"))

    assert refusal == "isolator_not_off"
    assert [e.choice for e in story.events(InterruptionCleared)] == ["again"]


def test_for_someone_hurt_an_adult_is_let_in_whatever_the_isolator_reads() -> None:
    story = named(at_the_isolator("bit_jammed"), "hurt")

    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("end"))

    assert story.events(SessionEnded) == [SessionEnded("ended")]


# --- no dead end ---------------------------------------------------------------------------------


@pytest.mark.parametrize("trouble", STEPPED)
def test_an_isolator_that_stays_on_is_an_adults_and_the_drill_goes_out_of_use(trouble: str) -> None:
    story = at_the_isolator(trouble)

    story.touch_kind(StaysOn)
    steps_seen(story)
    shown = story.view
    story.touch(AskAdult("clear"))
    story.pin()
    offered = [c.touch for c in story.view.choices]
    story.give(NoteKept("n1", "note", "other", "0" * 64))
    story.touch(Act("out"))
    story.touch(Act("out_why", "electric"))

    assert READS_ON in shown.lines
    assert offered == [Act("note"), Act("out")]
    assert story.events(TakenOutOfUse) == [TakenOutOfUse("electric", TEACHER.ref)]
    assert story.events(SessionEnded) == [SessionEnded("ended")]
    assert story.view.screen == "out_of_use"


def test_that_it_cannot_be_turned_off_is_said_only_where_it_should_be_off_and_reads_on() -> None:
    first, here = named(at_work(), "bit_jammed"), at_the_isolator("bit_jammed")
    off = at_the_isolator("bit_jammed")
    off.reads("isolator", "off")

    assert first.give(StaysOn("jammed_still")) == ()
    assert here.give(StaysOn("jammed_still")) == ()
    assert off.give(StaysOn("jammed_isolator")) == ()
    assert StaysOn("jammed_isolator") not in [b.touch for b in off.buttons()]


@pytest.mark.parametrize("reading", ["unknown", "fault"])
@pytest.mark.parametrize("trouble", ALL)
def test_where_the_contact_cannot_be_read_people_look(trouble: str, reading: str) -> None:
    story = named(at_work(), trouble)
    story.reads("isolator", reading)

    steps_seen(story)
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("end"))

    assert story.events(SessionEnded) == [SessionEnded("ended")]


def test_a_turn_that_goes_by_looking_does_so_in_a_trouble_too() -> None:
    story = named(said(), "bit_jammed")
    story.reads("isolator", "on")

    steps_seen(story)
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("again"))

    assert [e.choice for e in story.events(InterruptionCleared)] == ["again"]


@pytest.mark.parametrize("habit", list(Habit))
@pytest.mark.parametrize("trouble", ALL)
def test_without_a_contact_every_trouble_comes_to_its_end(trouble: str, habit: Habit) -> None:
    bare = replace(shop("drill-3"), machine=replace(shop("drill-3").machine, habit=habit))
    story = Story(shop=bare)
    story.give(KioskBegan("drill-3", "test", "first"))
    story.give(AdultIssued(TEACHER.ref, TEACHER.role, "test"))
    named(story, trouble)

    steps_seen(story)
    story.touch(AskAdult("clear"))
    story.pin()
    story.touch(Act("end"))

    assert story.events(TroubleNamed) == [TroubleNamed(trouble)]
    assert story.kiosk.machine.halt is None


def test_a_drill_that_is_off_only_at_the_days_end_waits_for_its_contact_like_any_other() -> None:
    story = at_work()
    story.shop = replace(story.shop, machine=replace(story.shop.machine, habit=Habit.DAY_END))
    named(story, "bit_jammed").touch_kind(SeenRight)

    story.give(SeenRight("jammed_isolator"))
    refusal = story.refusal
    story.recover()

    assert refusal == "isolator_not_off"
    assert HANDS_IN in story.view.lines
