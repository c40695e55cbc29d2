"""Guessing: a hundred wrong tries as fast as they are taken, through restarts and clock steps.

Stated: two slips are free, then waits from 30 s doubling up to an hour on that PIN at that kiosk;
two seconds after a wrong badge or spare code (NIST SP 800-63B rev 3, 5.2.2: limit the tries, with
a delay that rises). The hundredth try is no quicker than that adds up to.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

import pytest

from kiosk.core.events import Event, PinPassed, PinTried
from kiosk.core.inputs import (
    AskAdult,
    BadgeChecked,
    BadgeRead,
    ClockMoved,
    CodeChecked,
    Input,
    KioskBegan,
    OpenPage,
    PickAdult,
    PinChecked,
    Still,
    TypeCode,
    TypePin,
)
from kiosk.core.kiosk import EMPTY, replay
from kiosk.core.units import Moment
from tests.core.story import TEACHER, Story, begun

TRIES = 100
FREE, FIRST_S, LONGEST_S, PAUSE_S = 2, 30, 3600, 2
STATED_S = sum(
    min(FIRST_S * 2**n, LONGEST_S) for n in range(TRIES - 1 - FREE)
)  # before each try but the first three


def as_soon_as(story: Story, given: Callable[[], Input], step_s: float = 1.0) -> tuple[float, int]:
    """Try again and again until it is taken; the seconds that took, and how often it was not."""
    waited, refused = 0.0, 0
    while True:
        events = story.give(given())
        if events:
            return waited, refused
        story.now = replace(story.now, us=story.now.us + round(step_s * 1e6))
        waited, refused = waited + step_s, refused + 1
        assert waited <= LONGEST_S + 60, "no try is taken any more"


def typed(story: Story) -> Callable[[], Input]:
    def one() -> Input:
        if story.kiosk.desk.page != "pin":
            story.give(AskAdult("menu"))
            story.give(PickAdult(TEACHER.ref))
        return TypePin(TEACHER.ref, "000000")

    return one


@pytest.mark.parametrize("cut_every", [0, 7])
def test_a_hundred_wrong_pins_take_no_less_than_is_stated(
    cut_every: int, sum_up: Callable[[str], None]
) -> None:
    story, passed, refused = begun(), 0.0, 0
    for turn in range(TRIES):
        waited, tooearly = as_soon_as(story, typed(story), 10.0)
        story.give(PinChecked(TEACHER.ref, False))
        passed, refused = passed + waited, refused + tooearly
        if cut_every and turn % cut_every == 0:
            restarted(story, turn)

    assert passed >= STATED_S
    assert len(story.events(PinTried)) == TRIES
    assert story.events(PinPassed) == []
    cuts = f", a power cut every {cut_every}" if cut_every else ""
    sum_up(f"guessing: {TRIES} PINs in {passed / 3600:.1f} h{cuts}; {refused} tries refused")


def restarted(story: Story, turn: int) -> None:
    """The power goes and comes back, and the wall clock is a day off, one way or the other."""
    wall = story.now.wall_us + (-1) ** turn * 86_400_000_000
    story.now = Moment(f"boot{turn}", 5_000_000, wall, 1)
    story.give(KioskBegan("drill-1", "test", "cut"))
    story.give(ClockMoved(-86_400_000_000, 1))
    story.give(Still())


def test_a_power_cut_before_the_answer_gives_no_free_try() -> None:
    story = begun()
    for turn in range(FREE + 1):
        as_soon_as(story, typed(story))
        assert isinstance(story.record[-1].event, PinTried)  # on the card before it is checked
        restarted(story, turn)

    state = story.kiosk.adults.find(TEACHER.ref)
    assert state is not None and state.wrong == FREE + 1
    assert replay(story.record, EMPTY).adults.find(TEACHER.ref) == state
    story.give(AskAdult("menu"))
    story.give(PickAdult(TEACHER.ref))
    assert story.give(TypePin(TEACHER.ref, "482915")) == ()
    assert story.refusal == "pin_wait"


def test_the_right_pin_has_to_wait_as_long_as_a_wrong_one() -> None:
    story = begun()
    for _ in range(FREE + 1):
        as_soon_as(story, typed(story))
        story.give(PinChecked(TEACHER.ref, False))

    waited, _ = as_soon_as(story, typed(story))

    assert waited >= FIRST_S
    assert story.give(PinChecked(TEACHER.ref, True))[0] == PinPassed(TEACHER.ref, "menu")


def badge(story: Story) -> tuple[Callable[[], Input], Input]:
    return lambda: BadgeRead("0000000000"), BadgeChecked("")


def code(story: Story) -> tuple[Callable[[], Input], Input]:
    story.kiosk = replay(story.record, EMPTY)
    at_the_code(story)
    return lambda: TypeCode(TEACHER.ref, "0000000000"), CodeChecked(TEACHER.ref, 0)


def at_the_code(story: Story) -> tuple[Event, ...]:
    story.give(AskAdult("menu"))
    story.give(PickAdult(TEACHER.ref))
    return story.give(OpenPage("code"))


@pytest.mark.parametrize("way", [badge, code])
def test_a_hundred_wrong_badges_or_codes_wait_two_seconds_each(
    way: Callable[[Story], tuple[Callable[[], Input], Input]], sum_up: Callable[[str], None]
) -> None:
    story, passed = begun(), 0.0
    given, answer = way(story)
    for _ in range(TRIES):
        waited, _ = as_soon_as(story, given, 0.5)
        story.give(answer)
        passed += waited

    assert passed >= PAUSE_S * (TRIES - 1)
    sum_up(f"guessing: {TRIES} {way.__name__}s in {passed:.0f} s")
