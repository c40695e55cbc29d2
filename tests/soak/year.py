"""Lessons for years: days, nights and weekends, and all that happens to a kiosk on its wall.

Starts and power cuts, a card that fails in a lesson, a box that falls silent, downloads by the
process that a kiosk starts for them, and what was kept long enough taken away.
"""

from __future__ import annotations

import json
import random
import shutil
import subprocess
import sys
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from kiosk.core.inputs import DownloadEnded, EraseAsked, PurgeReady
from kiosk.export import verify
from kiosk.runtime.settings import TREE
from kiosk.store import Begin, ReadOnlyRecord
from kiosk.store.checkpoints import remembered
from tests.soak.driven import Driven, shipped
from tests.soak.lesson import Lessons

A_DAY, WEEK = 4, 5
NIGHT_S, WEEKEND_S, LUNCH_S = 18 * 3600, 66 * 3600, 1800
CUT, CARD = 0.3, 0.1
PATIENCE = 200


@dataclass
class Year:
    """So many lessons at one kiosk; a download and a purge every `every` lessons."""

    folder: Path
    lessons: int
    chance: random.Random
    every: int
    kept_days: int
    cuts: int = 0
    starts: int = 0
    card_faults: int = 0
    purges: int = 0
    downloads: list[Path] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.kiosk = Driven(self.folder)
        self.played = Lessons(self.kiosk, self.chance)

    def run(self, after: Callable[[int], None]) -> None:
        """Every lesson; `after` is told how many are over."""
        for number in range(1, self.lessons + 1):
            if number % A_DAY == 1:
                self._new_day(number // A_DAY)
            self.played.one(1 + (self.chance.random() < 0.1))
            if self.chance.random() < CARD:
                self._card_fails()
            if number % self.every == 0:
                self._purge()
                self._download()
            self.kiosk.wait(2)
            after(number)

    def _new_day(self, day: int) -> None:
        orderly = self.chance.random() > CUT
        self.cuts += not orderly
        self.starts += 1
        self.kiosk.restart(orderly, NIGHT_S if day % WEEK else WEEKEND_S)

    def _card_fails(self) -> None:
        """The card takes nothing for some seconds: it is said, and then kept after all."""
        kiosk, before = self.kiosk, self.kiosk.record.head[0]
        with kiosk.failing_card():
            kiosk.isolator(not kiosk.is_on)
            shown, kept = kiosk.loop.latest().screen, kiosk.record.head[0]
        kiosk.wait(4)
        assert (shown, kept) == ("record_fault", before)
        assert kiosk.loop.latest().screen != "record_fault"
        assert kiosk.record.head[0] > before
        self.card_faults += 1

    def _purge(self) -> None:
        kiosk, found = self.kiosk, self._kept_enough()
        for what, ref in found["erase"]:
            kiosk.post(EraseAsked(what, ref, "retention"))
        if found["begin"]:
            first, prev, base = found["begin"]
            purged = kiosk.record.prepare(Begin(first, prev, bytes.fromhex(base)))
            kiosk.post(PurgeReady(purged.first, purged.last, purged.head))
            self.purges += 1
        kiosk.turn()

    def _kept_enough(self) -> dict[str, Any]:
        """By a process of its own, as at a kiosk."""
        kiosk, now = self.kiosk, self.kiosk.clock.now()
        asked = {
            "days": dict.fromkeys(shipped().kept_for, self.kept_days),
            "roster": [p.ref for g in kiosk.loop.shop.roster.groups for p in g.pupils],
            "now": [now.boot, now.us, now.wall_us, now.quality],
        }
        words = [sys.executable, "-m", "tests.soak.kept_enough", str(kiosk.path)]
        said = subprocess.run(
            words, input=json.dumps(asked), cwd=TREE, check=True, capture_output=True, text=True
        )
        found: dict[str, Any] = json.loads(said.stdout)
        return found

    def _download(self) -> None:
        kiosk = self.kiosk
        before = set(self.folder.iterdir())
        kiosk.ended.clear()
        kiosk.runners.download("since_last")
        for _ in range(PATIENCE):
            if kiosk.ended:
                break
            kiosk.answer()
        kiosk.turn()
        (ended,) = kiosk.ended
        assert isinstance(ended, DownloadEnded) and not ended.why, ended
        self.downloads += [p for p in self.folder.iterdir() if p not in before and p.is_dir()]
        for old in self.downloads[:-2]:
            shutil.rmtree(old, ignore_errors=True)  # room in memory, where this is played

    def proved(self) -> int:
        """End, and prove all that was kept; how many lines the record has now."""
        before, last = self.downloads[-2:]
        assert verify(last, before).problems == ()
        assert self.kiosk.record.rebuild() == remembered(self.kiosk.loop.kiosk)
        self.kiosk.end()
        with ReadOnlyRecord(self.kiosk.path) as read:
            read.look_through()
            return read.head[0]

    def told(self) -> str:
        """What came about, in one line."""
        played = self.played
        return (
            f"{played.turns} turns, {played.touches} touches, {self.starts} starts "
            f"({self.cuts} after a cut), {self.card_faults} card faults, {played.losses} contact "
            f"faults, {len(self.downloads)} downloads, {self.purges} purges"
        )
