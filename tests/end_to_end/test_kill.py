"""`kill -9` at random moments of a running lesson, in the real app with real touches.

A process killed says nothing of a card that loses power (that is another proof); it says that
the app never shows as done what it has not recorded, and how it comes back.
"""

from __future__ import annotations

import random
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path

import pytest

from demo.bench import Bench
from demo.hand import Sight
from kiosk.core.events import Entry, SessionEnded
from kiosk.core.kiosk import replay
from kiosk.store import Record
from tests.core.story import WORDS
from tests.end_to_end.cutting import STEPS, Cutter, Round

SMALL, FULL = 3, 50


@pytest.mark.kill
@pytest.mark.timeout(3600)
def test_nothing_shown_as_done_is_lost_and_no_restart_resumes_drilling(
    displays: Callable[[int, int], str], tmp_path: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    points = FULL if full else SMALL
    with Bench(run_down=1.0) as bench:
        cutter = Cutter(displays(800, 480), tmp_path, bench, random.Random(20261125))

        for _ in range(points):
            cut = cutter.play_and_cut()
            entries = recorded(cutter.record)
            held_against_the_record(cut, entries)
        cutter.play_and_cut()

    entries = recorded(cutter.record)
    for before, after in pairwise(cutter.rounds):
        came_back_rightly(before, after.first, entries)
    in_session = sum(r.sights[-1].screen in STEPS for r in cutter.rounds[:points])
    sum_up(f"kill: {points} points, {in_session} within a turn, 0 lost")


def recorded(path: Path) -> list[Entry]:
    """The whole record, its chain checked on the way."""
    record = Record.open(path)
    try:
        return list(record.entries())
    finally:
        record.close()


def held_against_the_record(cut: Round, entries: list[Entry]) -> None:
    """Every step that was shown stands in the record as it stood on the screen."""
    assert cut.sights[-1].seq <= len(entries), "something shown is missing from the record"
    for sight in cut.sights[-6:]:
        if sight.screen not in STEPS or sight.raw["unsaved"]:
            continue
        session = replay(entries[: sight.seq]).session
        assert session is not None, sight.title
        if sight.screen != "adult_check":
            values = {"hole": session.done + 1, "holes": session.plan.holes}
            assert sight.title == WORDS.say(f"step.{session.step.id}.title", **values)


def came_back_rightly(before: Round, first: Sight, entries_after: list[Entry]) -> None:
    """The first screen asks whether it is turning; a turn that was open is shown as cut short."""
    assert first.screen == "restart"
    assert first.title == "Is it turning? Press the red stop."
    open_turn = before.sights[-1].screen in STEPS
    cut_short = any("was cut short" in line for line in first.raw["lines"])
    assert cut_short or not open_turn
    ended = [e.event for e in entries_after if isinstance(e.event, SessionEnded)]
    assert not cut_short or SessionEnded("cut_short") in ended
