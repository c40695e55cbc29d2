"""Where a download stands to what is collected already: carries on, overlaps, leaves a gap, forks.

A log has one branch, or more where two histories went on from one line: a card was put back to
an older copy, or one was cloned. Since each line names the hash of the line before, two lines with
equal hashes have equal lines before them, so one look at the end of a stretch tells of all of it.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from typing import NamedTuple

from kiosk.store.collected.values import Download, Row

HashAt = Callable[[int], str]


class Stretch(NamedTuple):
    """Lines that are there without a gap: `prev` is the hash before the first, `head` the last's.

    `number` is that of the branch which holds them.
    """

    number: int
    first: int
    last: int
    prev: str
    head: str


@dataclass(frozen=True)
class Branch:
    """One history of a log, with the stretches it shares with its parent before line `begins`."""

    number: int
    begins: int
    stretches: tuple[Stretch, ...]
    kept_from: int = 1

    @property
    def last(self) -> int:
        """The number of its last line; 0 with none."""
        return max((s.last for s in self.stretches), default=0)

    def holder(self, seq: int) -> int | None:
        """The branch that holds a line of this history; None for a line that is missing."""
        return next((s.number for s in self.stretches if s.first <= seq <= s.last), None)


class Share(NamedTuple):
    """Lines that are to be added to a branch; `number` 0 stands for one still to be made."""

    number: int
    first: int
    last: int


@dataclass(frozen=True)
class Standing:
    """Where a download belongs: what of it is new, to which branch, and at which line it forks.

    `forks_at` is 0 where it carries `branch` on; otherwise it begins a branch of its own there.
    """

    branch: Branch | None
    shares: tuple[Share, ...]
    forks_at: int = 0


def standing(
    of: Download, branches: Sequence[Branch], theirs: HashAt, ours: Callable[[Branch, int], str]
) -> Standing:
    """Where the download stands; `theirs` gives its lines' hashes, `ours` those collected."""
    if not branches:
        return Standing(None, (Share(0, of.first, of.last),))
    apart = {b.number: parting(of, b, theirs, ours) for b in branches}
    agreeing = [b for b in branches if not apart[b.number]]
    if agreeing:
        branch = max(agreeing, key=lambda b: (_touches(of, b), b.last <= of.last, -b.number))
        return Standing(branch, _missing(of, branch, branch.number, of.last))
    branch = max(branches, key=lambda b: (apart[b.number], -b.number))
    at = apart[branch.number]
    shared = _missing(of, branch, branch.number, at - 1)
    return Standing(branch, (*shared, Share(0, max(at, of.first), of.last)), at)


def parting(
    of: Download, branch: Branch, theirs: HashAt, ours: Callable[[Branch, int], str]
) -> int:
    """The first line in which the two differ; 0 if they agree wherever they meet."""
    for stretch in branch.stretches:
        first, last = max(of.first, stretch.first), min(of.last, stretch.last)
        if first <= last:
            if theirs(last) != ours(branch, last):
                return _first_apart(first, last, lambda s: theirs(s) != ours(branch, s))
            if first == stretch.first > of.first and stretch.prev != theirs(first - 1):
                return first
        elif (stretch.last == of.first - 1 and stretch.head != of.prev) or (
            stretch.first == of.last + 1 and stretch.prev != of.head
        ):
            return of.first
    return 0


def _first_apart(first: int, last: int, is_apart: Callable[[int], bool]) -> int:
    """The first line that is apart, of which `last` is one: all after it are too."""
    while first < last:
        middle = (first + last) // 2
        first, last = (first, middle) if is_apart(middle) else (middle + 1, last)
    return first


def _touches(of: Download, branch: Branch) -> int:
    """How many lines the two have in common, the one before the first counted too."""
    met = (min(of.last, s.last) - max(of.first - 1, s.first) + 1 for s in branch.stretches)
    return sum(max(0, lines) for lines in met)


def _missing(of: Download, branch: Branch, number: int, until: int) -> tuple[Share, ...]:
    """What the branch lacks of the download up to a line, but for what was kept long enough."""
    shares, first = [], max(of.first, branch.kept_from)
    for stretch in sorted(branch.stretches, key=lambda s: s.first):
        if first <= min(stretch.first - 1, until):
            shares.append(Share(number, first, min(stretch.first - 1, until)))
        first = max(first, stretch.last + 1)
    if first <= until:
        shares.append(Share(number, first, until))
    return tuple(shares)


def gaps(branch: Branch) -> tuple[tuple[int, int], ...]:
    """The lines that are missing in a branch, as first and last of each gap."""
    found, expected = [], branch.kept_from
    for stretch in sorted(branch.stretches, key=lambda s: s.first):
        if stretch.first > expected:
            found.append((expected, stretch.first - 1))
        expected = max(expected, stretch.last + 1)
    return tuple(found)


def joined(stretches: Iterable[Stretch]) -> tuple[Stretch, ...]:
    """Stretches of one branch, those that follow each other made one."""
    done: list[Stretch] = []
    for stretch in sorted(stretches, key=lambda s: s.first):
        if done and done[-1].last == stretch.first - 1 and done[-1].head == stretch.prev:
            done[-1] = done[-1]._replace(last=stretch.last, head=stretch.head)
        else:
            done.append(stretch)
    return tuple(done)


class Side(NamedTuple):
    """One side of a fork: its first line after it and its last, and the machine it names."""

    first: Row
    last: Row
    machine: str


def _moment(row: Row) -> tuple[str, int]:
    """Boot and time since boot of a line."""
    said = json.loads(row.bytes)
    return str(said["boot"]), int(said["us"])


def name_of_fork(theirs: Side, ours: Side) -> str:
    """`changed`, `cloned`, `put_back`, or `fork` where the clocks can't tell.

    Changed: one line of one boot at one moment has two wordings. Cloned: two machines, or both
    went on at the same time. Put back: one went on only after the other had ended.
    """
    if _moment(theirs.first) == _moment(ours.first):
        return "changed"
    if theirs.machine != ours.machine:
        return "cloned"
    if 0 in {row.quality for side in (theirs, ours) for row in (side.first, side.last)}:
        return "fork"
    apart = theirs.first.wall_us > ours.last.wall_us or ours.first.wall_us > theirs.last.wall_us
    return "put_back" if apart else "cloned"
