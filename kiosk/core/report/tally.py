"""Counting as it goes on: how often each word came, who stood behind it, and how long it took."""

from __future__ import annotations

from collections import Counter, defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field

from kiosk.core.report.clock import (
    SECOND_US,
    SYNCHRONISED,
    UNSET,
    ClockRemark,
    Quarter,
    quarter_of,
)
from kiosk.core.units import Moment

Counts = tuple[tuple[str, int], ...]
"""Words with how often each came, the most frequent first."""

Ranks = tuple[tuple[tuple[str, ...], int], ...]
"""As `Counts`, by several words each."""


@dataclass
class Use:
    """What was done in a quarter of an hour, or by a group: sums, and the pupils behind them."""

    lessons: int = 0
    sessions: int = 0
    holes: int = 0
    pupils: set[str] = field(default_factory=set)

    def add(self, other: Use) -> None:
        """Take in another's sums."""
        self.lessons += other.lessons
        self.sessions += other.sessions
        self.holes += other.holes
        self.pupils |= other.pupils


@dataclass
class Tally:
    """One log counted as far as it has come.

    `counts` has words by what is counted, `pupils` who stood behind a word, `seconds` how long
    things took, as whole seconds with how often. Boots with a synchronised clock are in
    `offsets`, those whose clock only ran on from before in `restored`. `first_told` and
    `last_told` are moments that a synchronised clock told. `cuts` are where lines before are not
    in the log: what was done earlier that day is not known.
    """

    counts: defaultdict[str, Counter[tuple[str, ...]]] = field(
        default_factory=lambda: defaultdict(Counter)
    )
    pupils: defaultdict[tuple[str, str], set[str]] = field(default_factory=lambda: defaultdict(set))
    seconds: defaultdict[tuple[str, str], Counter[int]] = field(
        default_factory=lambda: defaultdict(Counter)
    )
    quarters: defaultdict[Quarter, Use] = field(default_factory=lambda: defaultdict(Use))
    groups: defaultdict[str, Use] = field(default_factory=lambda: defaultdict(Use))
    levels: defaultdict[str, Use] = field(default_factory=lambda: defaultdict(Use))
    clock: list[ClockRemark] = field(default_factory=list)
    cuts: set[Quarter] = field(default_factory=set)
    offsets: dict[str, int] = field(default_factory=dict)
    restored: dict[str, int] = field(default_factory=dict)
    entries: int = 0
    first: tuple[int, Moment] | None = None
    last: tuple[int, Moment] | None = None
    first_told: Moment | None = None
    last_told: Moment | None = None
    _next: int = 1
    _boot: str = ""
    _quality: int = -1

    def count(self, of: str, *words: str, times: int = 1) -> None:
        """So many more of `words` among the things called `of`."""
        self.counts[of][words] += times

    def took(self, of: str, word: str, us: int, pupil: str) -> None:
        """Something of a pupil's took so long."""
        self.seconds[of, word][us // SECOND_US] += 1
        self.pupils[of, word].add(pupil)

    def meet(self, seq: int, at: Moment) -> None:
        """An entry of that number was met at that moment."""
        self.entries += 1
        self.last = (seq, at)
        if seq > self._next:
            self.cuts.add(quarter_of(at))
        self._next = seq + 1
        if at.quality >= SYNCHRONISED:
            self.last_told = at
        if at.boot is not self._boot or at.quality != self._quality:
            self._meet_clock(seq, at)

    def _meet_clock(self, seq: int, at: Moment) -> None:
        """Another boot, or a clock of another quality."""
        self._boot, self._quality = at.boot, at.quality
        self.first = self.first or (seq, at)
        if at.quality >= SYNCHRONISED:
            self.first_told = self.first_told or at
            self.offsets.setdefault(at.boot, at.wall_us - at.us)
        elif at.quality > UNSET:
            self.restored.setdefault(at.boot, at.wall_us - at.us)

    def quarter(self, at: Moment) -> Use:
        """What was done in the quarter of an hour of that moment."""
        return self.quarters[quarter_of(at)]

    def ranked(self, of: str) -> Counts:
        """What was counted of these, the most frequent first, then by word."""
        return tuple((words[0], count) for words, count in self.ranks(of))

    def ranks(self, of: str) -> Ranks:
        """As `ranked`, for what is counted by several words."""
        found = self.counts.get(of, Counter())
        return tuple(sorted(found.items(), key=lambda one: (-one[1], one[0])))

    def total(self, of: str) -> int:
        """How many of these there were in all."""
        return sum(self.counts.get(of, Counter()).values())

    def add(self, other: Tally) -> None:
        """Take in another log's counts; first and last are this one's."""
        for of, found in other.counts.items():
            self.counts[of].update(found)
        for behind, refs in other.pupils.items():
            self.pupils[behind] |= refs
        for what, spread in other.seconds.items():
            self.seconds[what].update(spread)
        for mine, others in ((self.groups, other.groups), (self.levels, other.levels)):
            for name, use in others.items():
                mine[name].add(use)
        self.clock += other.clock
        self.entries += other.entries


def together(tallies: Iterable[Tally]) -> Tally:
    """The counts of several logs in one."""
    joined = Tally()
    for tally in tallies:
        joined.add(tally)
    return joined
