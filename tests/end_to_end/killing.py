"""Kills a headless kiosk again and again on one record: `python -m ... FOLDER COUNT SEED`.

Each kiosk is a fork of this process, so that a start takes no longer than it must. After each
kill the record is opened and held against what the screens had shown.
"""

from __future__ import annotations

import json
import os
import random
import signal
import sys
import time
from pathlib import Path
from typing import NamedTuple

from kiosk.core.kiosk import replay
from kiosk.store import Record, RecordFault
from tests.core.story import WORDS
from tests.end_to_end.headless import RECORD, TOLD, first_start, run

LONGEST_S = 1.5
FIRST = ("restart", "recovery")
"""What may come first after a cut: the question whether it is turning, or a trouble that stands."""
IN_SESSION = ("step", "already_set", "adult_check", "drilling")


class Shown(NamedTuple):
    """One screen that was shown, and the head of the record at that moment."""

    seq: int
    screen: str
    title: str
    unsaved: str
    head: str
    head_seq: int


def play_and_kill(folder: Path, seed: int, after_s: float) -> None:
    """One kiosk, killed so long after its first screen."""
    child = os.fork()
    if child == 0:
        try:
            run(folder, seed, lambda monkey: False)
        finally:
            os._exit(1)
    wait_for_first_screen(folder / TOLD)
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)


def wait_for_first_screen(told: Path) -> None:
    """Wait until the kiosk shows anything."""
    until = time.monotonic() + 60
    while not (told.exists() and told.stat().st_size):
        if time.monotonic() > until:
            raise TimeoutError("the kiosk shows nothing")
        time.sleep(0.01)


def shown(told: Path) -> list[Shown]:
    """All screens of one round, a last torn line left out."""
    lines = told.read_bytes().split(b"\n")[:-1]
    return [Shown(*json.loads(line)) for line in lines]


def wrong_with(folder: Path, screens: list[Shown]) -> str:
    """What the record does not bear out of that which was shown; empty if it does."""
    try:
        record = Record.open(folder / RECORD)
    except RecordFault as fault:
        return f"does not open: {fault}"
    try:
        return _held_against(record, screens)
    finally:
        record.close()


def _held_against(record: Record, screens: list[Shown]) -> str:
    if record.set_aside is not None:
        return "the record was set aside"
    most = max(s.head_seq for s in screens)
    if record.head[0] < most or max(s.seq for s in screens) > most:
        return f"ends at event {record.head[0]}; {most} had been shown"
    entries = list(record.entries(1, most))
    last = next((s for s in reversed(screens) if not s.unsaved), screens[0])
    session = replay(entries[: last.seq]).session
    if last.screen in IN_SESSION and session is None:
        return f"{last.title!r} was shown, and the record knows of no turn"
    if last.screen == "step" and session is not None:
        expected = WORDS.say(f"step.{session.step.id}.title")
        return "" if "{" in expected or expected == last.title else f"{last.title!r}, {expected!r}"
    return ""


def main(folder: Path, count: int, seed: int) -> int:
    """Kill `count` kiosks; prints what came of it, and returns how much was lost."""
    chance, bad, turns = random.Random(seed), [], 0
    first_start(folder)
    for number in range(1, count + 1):
        (folder / TOLD).unlink(missing_ok=True)
        play_and_kill(folder, number, chance.uniform(0.0, LONGEST_S))
        screens = shown(folder / TOLD)
        if number > 1 and screens[0].screen not in FIRST:
            bad.append(f"kill {number}: the first screen is {screens[0].screen}")
        turns += screens[-1].screen in IN_SESSION
        gone = wrong_with(folder, screens)
        bad += [f"kill {number}: {gone}"] if gone else []
    print(f"kill: {count} kiosks without a window, {turns} within a turn, {len(bad)} lost")
    print("\n".join(bad[:20]), file=sys.stderr)
    return len(bad)


if __name__ == "__main__":
    sys.exit(min(1, main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))))
