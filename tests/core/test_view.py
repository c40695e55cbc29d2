"""Every screen that random people reach has its words, its numbers and a way on."""

from __future__ import annotations

import random
import re
from collections.abc import Iterator

import pytest

from kiosk.core.inputs import (
    Act,
    AdultNamed,
    BadgeRead,
    Choose,
    KioskBegan,
    LeavePage,
    NoteKept,
    PackageRead,
    PickAdult,
    PinChecked,
    SecretReady,
    SheetEnded,
    SheetRead,
    StopEveryone,
    TypeNote,
    TypePin,
)
from kiosk.core.kiosk.asks import wants_isolator_off
from kiosk.core.view import SCREENS, Button, View
from tests.core.adults_story import signed_in
from tests.core.exploring import SHEET_PARTS
from tests.core.story import TECHNICIAN, WORDS, Story, begun, lesson_open

KEY = re.compile(r"\b[a-z_]+(\.[a-z0-9_]+)+\b")
READINGS = ("off", "on", "off", "on", "unknown", "fault")


def texts(view: View) -> Iterator[str]:
    """Everything that can be read on a screen."""
    yield from (view.title, view.note, view.answer, *view.lines)
    yield from (view.head.machine, view.head.isolator_word, view.head.who)
    yield from (b.label for b in (*view.buttons, *view.choices))
    if view.band:
        yield view.band.text
    if view.pad:
        yield from (view.pad.name, view.pad.stay_label, view.pad.busy)
    if view.keys:
        yield from (view.keys.prompt, view.keys.done_label)


def random_act(story: Story, chance: random.Random) -> None:
    """One thing that somebody might do: touch, wait, turn a switch, type, pull the plug."""
    roll = chance.random()
    view = story.view
    if roll < 0.007:
        story.reads("isolator", chance.choice(READINGS))
    elif roll < 0.02:
        story.reads("starter", chance.choice(READINGS))
    elif roll < 0.03:
        story.wait(chance.choice((1, 5, 61, 181, 601)))
    elif roll < 0.032:
        story.give(KioskBegan("drill-1", "test", chance.choice(("cut", "clean"))))
    elif story.kiosk.desk.page == "issuing":
        what, _, ref = story.kiosk.desk.about.partition(" ")
        lines = {"pin": ("482915",), "codes": ("0123456789",) * 5}.get(what, ())
        story.give(SecretReady(ref, what, story.kiosk.desk.signed, lines))
    elif story.kiosk.desk.page == "package" and chance.random() < 0.5:
        lines = (("come.shown", "8B 1 - 14"), ("revoked", "Mr Invented"), ("new", "a job"))
        story.give(PackageRead("d1", story.now.wall_us, lines))
    elif story.kiosk.desk.page == "sheet" and story.kiosk.desk.why == "making":
        story.give(SheetRead(story.kiosk.desk.about, SHEET_PARTS))
    elif story.kiosk.desk.page == "sheet" and story.kiosk.desk.why == "writing":
        story.give(SheetEnded(""))
    elif story.kiosk.desk.page == "badge":
        story.give(BadgeRead("0012345678"))
    elif view.pad and not story.kiosk.adults.trying:
        story.give(TypePin(view.pad.adult, "482915", chance.randint(0, 1)))
    elif story.kiosk.adults.trying:
        story.give(PinChecked(story.kiosk.adults.trying.adult, chance.random() < 0.8))
    elif view.keys and view.keys.asks == "name":
        story.give(AdultNamed("a2", view.keys.what))
    elif view.keys and chance.random() < 0.5:
        story.give(NoteKept("n1", view.keys.what, view.keys.hazard, "0" * 64))
    elif story.buttons():
        story.give(likely(story, chance).touch)


def likely(story: Story, chance: random.Random) -> Button:
    """Mostly the one action of the screen, with the isolator as the step asks; else any button."""
    buttons = story.buttons()
    session = story.kiosk.session
    if session and chance.random() < 0.95 and wants_isolator_off(session.step):
        story.reads("isolator", "off")
    if chance.random() < 0.8:
        buttons = tuple(b for b in buttons if b.touch != StopEveryone())
    main = [b for b in story.view.buttons if b.live and b.look in ("main", "adult", "still")]
    return main[0] if main and chance.random() < 0.96 else chance.choice(buttons)


def noted() -> Story:
    """A near miss was noted: few walks would come to do that and then to follow it up."""
    story = signed_in()
    story.touch(Act("note"))
    story.touch(Choose("note_what", "near_miss"))
    story.touch(Choose("note_hazard", "grabbed_work"))
    story.give(NoteKept("n1", "near_miss", "grabbed_work", "0" * 64))
    return story


def reached(seed: int, acts: int) -> set[str]:
    """A random walk; every screen on the way is held against the rules."""
    chance, seen = random.Random(seed), set()
    story = lesson_open() if seed % 2 else noted() if seed % 4 else begun()
    for _ in range(acts):
        random_act(story, chance)
        view = story.view
        seen.add(view.screen)
        for text in texts(view):
            assert not KEY.search(text), f"{view.screen}: {text!r} is a key, not a text"
            assert "{" not in text, f"{view.screen}: {text!r}"
        assert view.screen in SCREENS
        assert len(view.lines) <= 8 or view.screen == "sheet", view
    return seen


@pytest.mark.parametrize("seed", range(12))
def test_every_screen_reached_has_its_words(seed: int) -> None:
    assert len(reached(seed, 400)) > 5


def test_a_walk_reaches_every_screen_that_belongs_to_a_running_kiosk() -> None:
    seen: set[str] = set()

    for seed in range(36):
        seen |= reached(seed, 400)

    assert set(SCREENS) - seen == {"record_fault", "content_fault"}


def test_an_adult_check_has_at_most_seven_lines() -> None:
    from tests.core.test_lesson import at_the_check

    assert 3 <= len(at_the_check().view.lines) <= 7


def test_the_numbers_of_a_step_carry_their_units() -> None:
    from tests.core.test_lesson import at_the_check

    lines = at_the_check().view.lines

    assert any("rpm" in line for line in lines)
    assert all(re.search(r"\d\s*(mm|rpm)", line) for line in lines if re.search(r"\d{3,}", line))


def test_an_unknown_key_is_shown_as_it_is_rather_than_failing() -> None:
    assert WORDS.say("no.such.text") == "no.such.text"
    assert WORDS.say("idle.title") == ": touch your number"


def test_a_note_typed_by_nobody_signed_in_means_nothing() -> None:
    story = begun()

    events = story.give(TypeNote("note", "noise", "words"))

    assert events == ()
    assert story.give(Act("close")) == ()
    assert story.give(PickAdult(TECHNICIAN.ref)) == ()
    assert story.give(LeavePage()) != ()
