"""A card that takes its time: progress waits, warnings do not, and it is said."""

from __future__ import annotations

import threading

from kiosk.core.inputs import SeenRight, SomethingWrong, Touch, Touched
from kiosk.runtime.loop import SLOW_AFTER_US, WARN_AFTER_US
from tests.core.story import WORDS
from tests.runtime.driven import Driven, in_set_up


def slow_commit(driven: Driven, touch: Touch) -> threading.Thread:
    """A turn whose commit hangs until the gate opens."""
    driven.memory.gate = threading.Event()
    driven.memory.entered.clear()
    driven.loop.post(Touched(driven.loop.latest().number, touch))
    thread = threading.Thread(target=driven.turn)
    thread.start()
    assert driven.memory.entered.wait(10)
    return thread


def finish(driven: Driven, thread: threading.Thread) -> None:
    assert driven.memory.gate is not None
    driven.memory.gate.set()
    thread.join(10)
    driven.memory.gate = None


def test_progress_waits_for_its_commit_and_further_touches_are_visibly_refused() -> None:
    driven = Driven(in_set_up())
    before = driven.loop.latest()
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))

    during = driven.loop.latest()
    driven.loop.post(Touched(before.number, SeenRight("hair")))
    refused = driven.loop.latest()
    finish(driven, thread)

    assert during.title == before.title
    assert refused.answer == WORDS.say("answer.saving")
    driven.clock.pass_us(5_000_000)
    assert driven.loop.latest().title != before.title
    assert driven.loop.kiosk.session.at == 1


def test_a_warning_does_not_wait_for_a_slow_card() -> None:
    driven = Driven(in_set_up())
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))
    driven.clock.pass_us(WARN_AFTER_US + 1)

    driven.loop.post(Touched(driven.loop.latest().number, SomethingWrong()))
    warned = driven.loop.latest()
    finish(driven, thread)
    driven.turn()

    assert warned.screen == "wrong"
    assert warned.unsaved == WORDS.say("unsaved.warning")
    assert driven.loop.latest().screen == "wrong"
    assert driven.loop.latest().unsaved == ""


def test_after_two_seconds_unsaved_the_kiosk_says_so() -> None:
    driven = Driven(in_set_up())
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))
    driven.clock.pass_us(SLOW_AFTER_US + 1)

    slow = driven.loop.latest()
    finish(driven, thread)

    assert slow.screen == "record_fault"
    assert slow.title == WORDS.say("record_fault.slow")


def test_the_screens_are_told_to_look_often_while_a_commit_lasts() -> None:
    driven = Driven(in_set_up())
    told: list[bool] = []
    thread = slow_commit(driven, SeenRight(driven.loop.kiosk.session.step.id))
    driven.loop.on_news = lambda: told.append(driven.loop.is_restless)

    driven.loop.post(Touched(driven.loop.latest().number, SomethingWrong()))
    during = list(told)
    finish(driven, thread)

    assert during == [True]
    assert not driven.loop.is_restless
