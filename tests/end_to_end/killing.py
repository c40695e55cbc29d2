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
from itertools import dropwhile
from pathlib import Path
from typing import NamedTuple

from kiosk.core.kiosk import replay
from kiosk.store import Record, RecordFault
from tests.core.story import WORDS
from tests.end_to_end.headless import RECORD, TOLD, first_start, run

MOST_SCREENS, MOST_IN_TURN = 30, 6
LONGEST_S = 0.1
PATIENCE_S, STANDS_STILL_S = 60, 10
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


def play_and_kill(folder: Path, seed: int, screens: int, in_turn: bool, after_s: float) -> None:
    """One kiosk, killed so long after so many screens, however slow the machine.

    With `in_turn` they are counted from the first of a pupil's turn.
    """
    child = os.fork()
    if child == 0:
        try:
            run(folder, seed, lambda monkey: False)
        finally:
            os._exit(1)
    wait_for(folder / TOLD, screens, in_turn)
    time.sleep(after_s)
    os.kill(child, signal.SIGKILL)
    os.waitpid(child, 0)


def wait_for(told: Path, screens: int, in_turn: bool) -> None:
    """Wait until the kiosk has shown so many screens; where it stands still, not for ever."""
    began = time.monotonic()
    seen: list[Shown] = []
    while len(seen) < screens:
        every = shown(told) if told.exists() else []
        seen = list(dropwhile(lambda s: s.screen not in IN_SESSION, every)) if in_turn else every
        waited = time.monotonic() - began
        if every and waited > STANDS_STILL_S:
            return
        if waited > PATIENCE_S:
            raise TimeoutError("the kiosk shows nothing")
        time.sleep(0.002)


def shown(told: Path) -> list[Shown]:
    """All screens of one round, a last torn line left out."""
    lines = told.read_bytes().split(b"\n")[:-1]
    return [Shown(*json.loads(line)) for line in lines]


class Held(NamedTuple):
    """What the record does not bear out, empty if it does; and whether a turn was cut short."""

    wrong: str
    in_turn: bool = False


def held(folder: Path, screens: list[Shown]) -> Held:
    """The record held against what was shown."""
    try:
        record = Record.open(folder / RECORD)
    except RecordFault as fault:
        return Held(f"does not open: {fault}")
    try:
        return _held_against(record, screens)
    finally:
        record.close()


def _held_against(record: Record, screens: list[Shown]) -> Held:
    if record.set_aside is not None:
        return Held("the record was set aside")
    most = max(s.head_seq for s in screens)
    if record.head[0] < most or max(s.seq for s in screens) > most:
        return Held(f"ends at event {record.head[0]}; {most} had been shown")
    entries = list(record.entries(1, most))
    last = next((s for s in reversed(screens) if not s.unsaved), screens[0])
    session = replay(entries[: last.seq]).session
    if last.screen in IN_SESSION and session is None:
        return Held(f"{last.title!r} was shown, and the record knows of no turn")
    if last.screen == "step" and session is not None:
        titles = titles_of(session.step.id)
        return Held("" if last.title in titles else f"{last.title!r}, {sorted(titles)}", True)
    return Held("", session is not None)


def titles_of(step: str) -> frozenset[str]:
    """What a step may be called: in each language a pupil may have chosen."""
    languages = (WORDS, *WORDS.others.values())
    return frozenset(words.say(f"step.{step}.title") for words in languages)


def main(folder: Path, count: int, seed: int) -> int:
    """Kill `count` kiosks; prints what came of it, and returns how much was lost."""
    chance, bad, turns = random.Random(seed), [], 0
    first_start(folder)
    for number in range(1, count + 1):
        (folder / TOLD).unlink(missing_ok=True)
        in_turn = number % 2 == 0
        most = chance.randint(1, MOST_IN_TURN if in_turn else MOST_SCREENS)
        play_and_kill(folder, number, most, in_turn, chance.uniform(0.0, LONGEST_S))
        screens = shown(folder / TOLD)
        if number > 1 and screens[0].screen not in FIRST:
            bad.append(f"kill {number}: the first screen is {screens[0].screen}")
        found = held(folder, screens)
        turns += found.in_turn
        bad += [f"kill {number}: {found.wrong}"] if found.wrong else []
    print(f"kill: {count} kiosks without a window, {turns} within a turn, {len(bad)} lost")
    print("\n".join(bad[:20]), file=sys.stderr)
    return len(bad)


if __name__ == "__main__":
    sys.exit(min(1, main(Path(sys.argv[1]), int(sys.argv[2]), int(sys.argv[3]))))
