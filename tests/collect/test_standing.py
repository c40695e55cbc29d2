"""Where a download belongs, and how lines are judged: pure, with no server."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.store.codec import BEFORE_FIRST, Line
from kiosk.store.collected.lines import Judge, Refused
from kiosk.store.collected.standing import (
    Branch,
    Side,
    Stretch,
    gaps,
    joined,
    name_of_fork,
    parting,
    standing,
)
from kiosk.store.collected.values import Download, Row
from tests.collect.drills import Card

pytestmark = pytest.mark.collect

CARD = Card().used(60)
BACK = Card(lines=CARD.lines[:40]).copy("boot2", after_s=500).used(30)


def of(lines: Sequence[Line], machine: str = "drill-1") -> Download:
    first, last = lines[0], lines[-1]
    log = "a" * 32
    return Download("d", "k", log, first.seq, last.seq, first.prev, last.hash, machine)


def stretch(lines: Sequence[Line], number: int = 1) -> Stretch:
    return Stretch(number, lines[0].seq, lines[-1].seq, lines[0].prev, lines[-1].hash)


def hashes(lines: Sequence[Line]) -> dict[int, str]:
    return {0: BEFORE_FIRST} | {line.seq: line.hash for line in lines}


def rows_of(lines: Sequence[Line], texts: Sequence[bytes] | None = None) -> list[Row]:
    data = texts or [line.bytes for line in lines]
    return list(Judge(of(lines)).rows(text + b"\n" for text in data))


@given(
    first=st.integers(1, 60),
    count=st.integers(1, 60),
    there=st.lists(st.tuples(st.integers(1, 60), st.integers(1, 60)), max_size=4),
)
def test_what_is_added_is_what_is_missing(
    first: int, count: int, there: list[tuple[int, int]]
) -> None:
    lines, known = CARD.lines, hashes(CARD.lines)
    parts = sorted({seq for a, b in there for seq in range(a, min(60, a + b) + 1)})
    held = joined(stretch([lines[seq - 1]]) for seq in parts)
    taken = lines[first - 1 : first + count - 1]
    branch = Branch(1, 1, held)

    stands = standing(of(taken), [branch], known.__getitem__, lambda b, seq: known[seq])

    added = [seq for share in stands.shares for seq in range(share.first, share.last + 1)]
    assert added == [line.seq for line in taken if line.seq not in set(parts)]
    assert stands.forks_at == 0


@given(first=st.integers(1, 71), held=st.integers(41, 60))
def test_a_fork_is_found_at_its_line_wherever_the_download_begins(first: int, held: int) -> None:
    theirs, mine = hashes(BACK.lines), hashes(CARD.lines)
    branch = Branch(1, 1, (stretch(CARD.lines[:held]),))

    at = parting(of(BACK.lines[first - 1 :]), branch, theirs.__getitem__, lambda b, seq: mine[seq])

    meets = first <= held + 1
    assert at == (max(41, first) if meets else 0)


def test_a_fork_goes_on_in_a_branch_of_its_own() -> None:
    mine, theirs = hashes(CARD.lines), hashes(BACK.lines)
    root = Branch(1, 1, (stretch(CARD.lines),))
    other = Branch(2, 41, (stretch(CARD.lines[:40]), stretch(BACK.lines[40:50], 2)))
    held = {1: mine, 2: theirs}

    stands = standing(
        of(BACK.lines[50:]), [root, other], theirs.__getitem__, lambda b, seq: held[b.number][seq]
    )

    assert stands.branch == other
    assert [(s.number, s.first, s.last) for s in stands.shares] == [(2, 51, 71)]


def test_gaps_are_the_lines_between() -> None:
    lines = CARD.lines
    branch = Branch(1, 1, (stretch(lines[10:20]), stretch(lines[29:])))

    assert gaps(branch) == ((1, 10), (21, 29))
    assert gaps(replace(branch, kept_from=11)) == ((21, 29),)


def side(lines: Sequence[Line], machine: str = "drill-1") -> Side:
    rows = rows_of(lines)
    return Side(rows[0], rows[-1], machine)


def test_forks_are_named_by_boots_machines_and_clocks() -> None:
    mine = side(CARD.lines[40:])
    early = Card(lines=CARD.lines[:40], wall_us=CARD.wall_us - 10_000_000).copy("boot3").used(5)
    unset = Card(lines=CARD.lines[:40], quality=0).copy("boot4", after_s=500).used(5)

    assert name_of_fork(mine, side(BACK.lines[40:])) == "put_back"
    assert name_of_fork(side(BACK.lines[40:]), mine) == "put_back"
    assert name_of_fork(mine, side(early.lines[40:])) == "cloned"
    assert name_of_fork(mine, side(BACK.lines[40:], "drill-2")) == "cloned"
    assert name_of_fork(mine, side(unset.lines[40:])) == "fork"
    assert name_of_fork(mine, mine) == "changed"


def test_good_lines_become_rows_with_the_bytes_they_came_with() -> None:
    rows = rows_of(CARD.lines)

    assert [row.bytes for row in rows] == [line.bytes for line in CARD.lines]
    assert [row.hash.hex() for row in rows] == [line.hash for line in CARD.lines]
    assert [row.kind for row in rows] == [line.kind for line in CARD.lines]


@given(seq=st.integers(1, 60), at=st.integers(0, 10**6), change=st.integers(1, 255))
def test_one_changed_byte_anywhere_is_refused(seq: int, at: int, change: int) -> None:
    texts = [line.bytes for line in CARD.lines]
    spoilt = bytearray(texts[seq - 1])
    spoilt[at % len(spoilt)] ^= change
    texts[seq - 1] = bytes(spoilt)

    with pytest.raises(Refused) as refused:
        rows_of(CARD.lines, texts)

    assert refused.value.remark.first in (seq, seq + 1)


def test_a_download_cut_short_or_too_long_is_refused() -> None:
    texts = [line.bytes for line in CARD.lines]

    with pytest.raises(Refused, match="to end with line 60"):
        rows_of(CARD.lines, texts[:-1])
    with pytest.raises(Refused, match="to end with line 59"):
        rows_of(CARD.lines[:-1], texts)
