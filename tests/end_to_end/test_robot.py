"""A robot touches without sense at a running lesson, in a real window: nothing gives way.

It leaves the kiosk standing, nothing on its error stream, no step passed over, and a record that
says what was shown. Full: ten thousand touches; small: enough to see that the robot works.
"""

from __future__ import annotations

import random
import subprocess
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from demo.bench import Bench
from demo.hand import Hand, Sight
from demo.kiosk import TREE, KioskProcess, command, issue_pins
from demo.played import Lesson
from kiosk.core.events import Entry, HoleDrilled, OkGiven, ReadyInLine, SessionStarted, StepDone
from kiosk.core.inputs import PickJob, PickPupil
from kiosk.store import Record
from tests.core.story import WORDS, drill_one_hole, lesson_open, shop
from tests.core.test_line import clearing_up, lines_up
from tests.end_to_end.borne_out import not_borne_out, not_seen, skipped
from tests.end_to_end.robot import Pointer, Robot

SMALL, FULL = 150, 10_000


@pytest.mark.robot
@pytest.mark.window
@pytest.mark.timeout(3600)
def test_no_touch_or_key_breaks_a_lesson_skips_a_step_or_falsifies_the_record(
    displays: Callable[[int, int], str], tmp_path: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    display, count = displays(800, 480), FULL if full else SMALL
    record, told = tmp_path / "record.sqlite", tmp_path / "stderr"
    pins = {**issue_pins(record), **more_pins(record, 4 if full else 0)}

    with Bench(run_down=0.5) as bench:
        kiosk = KioskProcess(display, record, tmp_path / "shown", bench.port, errors=told)
        hand = Hand(display, tmp_path / "shown", lambda sight: None)
        hand.lives = lambda: kiosk.runs
        pointer = Pointer(display)
        hand.wait("the first screen", lambda sight: True, patience=120)
        Lesson(hand, bench, pins).open_lesson()
        robot = Robot(hand, pointer, bench, pins, random.Random(20261125))
        robot.play(count)
        lives, code = kiosk.runs, kiosk.end()
        pointer.end()

    hand.look()
    sights = [sight for _, sight in hand.sights]
    entries = recorded(record)
    kinds = [type(entry.event) for entry in entries]
    counts = {k.__name__: kinds.count(k) for k in (SessionStarted, StepDone, OkGiven, HoleDrilled)}
    sum_up(f"robot: {robot.made.total()} touches; {dict(robot.made)}; {counts}")
    assert lives, told.read_text()
    assert (code, told.read_text()) == (0, "")
    assert counts["StepDone"] >= (count // 40 if full else 0)
    assert counts["SessionStarted"]
    assert not {p for s in sights for p in s.problems}
    assert skipped(entries) == []
    assert not_borne_out(shop(), WORDS, entries, sights) == []
    assert not_seen(shop(), WORDS, entries, sights) == []


def more_pins(record: Path, count: int) -> dict[str, str]:
    """Further teachers, so that a back-off of some does not end the lesson."""
    found = {}
    for number in range(count):
        name = f"Teacher {number + 1}"
        words = ["adult", "issue", "--name", name, "--role", "teacher", "--record", str(record)]
        told = subprocess.run(command(*words), capture_output=True, text=True, check=True, cwd=TREE)
        line = next(line for line in told.stdout.splitlines() if "PIN" in line)
        found[name] = "".join(c for c in line if c.isdecimal())[:6]
    return found


def recorded(path: Path) -> list[Entry]:
    """The whole record, its chain checked on the way."""
    record = Record.open(path)
    try:
        return list(record.entries())
    finally:
        record.close()


def test_a_step_taken_out_of_a_record_is_noticed() -> None:
    story = lesson_open()
    story.touch(PickPupil(14))
    story.touch(PickJob("hook_bar", 0))
    story.do_steps("adult_check")
    story.touch(next(b.touch for b in story.buttons() if b.look == "adult"))
    story.pin()
    drill_one_hole(story)
    done = [entry for entry in story.record if isinstance(entry.event, StepDone)]

    whole = skipped(story.record)
    missing = [skipped([e for e in story.record if e is not one]) for one in done[1:]]

    assert whole == []
    assert all(missing)


def test_what_was_looked_at_in_line_counts_only_if_it_stood_on_the_screen_then() -> None:
    story = clearing_up()
    lines_up(story, 21)
    at = next(n for n, e in enumerate(story.record) if isinstance(e.event, ReadyInLine))
    story.do_steps("finished")
    story.touch(PickPupil(21))
    line = Sight(1, at, "already_set", "Number 21: it is your turn", (), (), {"unsaved": ""})

    seen = not_seen(story.shop, WORDS, story.record, [line])
    early = not_seen(story.shop, WORDS, story.record, [replace(line, seq=at - 1)])

    assert not [found for found in seen if "ready_again" in found]
    assert [found for found in early if "ready_again" in found]


def test_a_screen_that_the_record_does_not_bear_out_is_noticed() -> None:
    story = lesson_open()
    story.touch(PickPupil(14))
    story.touch(PickJob("hook_bar", 0))
    seq = len(story.record)
    shown = Sight(1, seq, "step", story.view.title, (), (), {"unsaved": ""})
    early, other = replace(shown, seq=seq - 1), replace(shown, title="Drill")

    assert not_borne_out(story.shop, WORDS, story.record, [shown]) == []
    assert not_borne_out(story.shop, WORDS, story.record, [early])
    assert not_borne_out(story.shop, WORDS, story.record, [other])
