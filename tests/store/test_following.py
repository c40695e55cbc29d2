"""Lines to entries for reports: many at once and singly give the same, whatever is amiss."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from dataclasses import replace
from hashlib import sha256

import pytest

from kiosk.core.events import Entry, HoleDrilled, LessonOpened, StepDone
from kiosk.core.report import ChainFault
from kiosk.core.units import Moment
from kiosk.store.codec import BEFORE_FIRST, NotALine, decode, encode
from kiosk.store.following import Following

LOG = "c0ffee"


def chain(count: int, first: int = 1, prev: str = BEFORE_FIRST, step: str = "eyes") -> list[bytes]:
    """Lines of a log, each naming the hash of the one before."""
    made = []
    for seq in range(first, first + count):
        events = (
            StepDone(step, "pupil"),
            HoleDrilled(seq, "said"),
            LessonOpened("t1", "8b", (), 40),
        )
        at = Moment(f"boot{seq // 4}", seq * 1_000_000, seq * 1_000_000, seq % 3)
        line = encode(LOG, prev, Entry(seq, at, events[seq % 3]))
        made.append(line.bytes)
        prev = line.hash
    return made


def blocks(lines: Iterable[bytes]) -> list[bytes]:
    return [b"".join(line + b"\n" for line in lines)]


def singly(lines: Iterable[bytes]) -> list[bytes]:
    """A block for each line."""
    return [line + b"\n" for line in lines]


def is_line(line: bytes) -> bool:
    try:
        decode(line)
    except NotALine:
        return False
    return True


WHOLE = chain(12)
OTHER = chain(4, 7, "0" * 64, "hair")
LINK = WHOLE[5].replace(decode(WHOLE[5])[0].prev.encode(), b"0" * 64)
NUMBER = WHOLE[5].replace(b'"seq":6', b'"seq":9')
TWO = [WHOLE[5][:40], WHOLE[5][41:]]
NOT_UTF8 = WHOLE[5].replace(b"pupil", b"pup\xff\xff").replace(b"said", b"\xff\xff\xff\xff")
CASES = {
    "whole": (WHOLE, []),
    "gap": (WHOLE[:4] + WHOLE[6:], [("gap", 5, 6)]),
    "changed": ([*WHOLE[:5], WHOLE[5].replace(b"eyes", b"hair"), *WHOLE[6:]], [("broken", 6, 6)]),
    "overlap": (WHOLE[:8] + WHOLE[4:], []),
    "again": (WHOLE + WHOLE, []),
    "link": ([*WHOLE[:5], LINK, *WHOLE[6:]], [("broken", 6, 6)]),
    "number": ([*WHOLE[:5], NUMBER, *WHOLE[6:]], [("broken", 6, 6)]),
    "cut in two": ([*WHOLE[:5], *TWO, *WHOLE[6:]], [("broken", 6, 6)]),
    "two in one": (
        [*WHOLE[:5], WHOLE[5] + WHOLE[6], *WHOLE[7:]],
        [("broken", 6, 6), ("gap", 7, 7)],
    ),
    "last unreadable": ([*WHOLE[:11], b"{}"], [("broken", 12, 12)]),
    "a copy mended": ([*WHOLE[:5], b"{}", *WHOLE[6:], *WHOLE], [("broken", 6, 6)]),
    "a gap filled": (WHOLE[:4] + WHOLE[6:] + WHOLE, []),
    "fork": (WHOLE[:8] + OTHER, [("fork", 7, 8)]),
    "no line": ([*WHOLE[:5], b"{}", *WHOLE[6:]], [("broken", 6, 6)]),
    "no text": ([*WHOLE[:5], NOT_UTF8, *WHOLE[6:]], [("broken", 6, 6)]),
    "spaces": ([*WHOLE[:5], WHOLE[5] + b" ", *WHOLE[6:]], [("broken", 6, 6)]),
}


@pytest.mark.parametrize("case", CASES)
@pytest.mark.parametrize("as_blocks", [blocks, singly])
def test_faults_are_named_however_many_lines_are_looked_at_at_once(
    case: str, as_blocks: Callable[[Iterable[bytes]], list[bytes]]
) -> None:
    lines, faults = CASES[case]
    following = Following()

    entries = list(following.entries(as_blocks(lines)))

    assert [(f.what, f.first, f.last) for f in following.faults()] == faults
    assert entries == list(Following().entries(singly(lines)))
    assert len(entries) == len({line for line in lines if is_line(line)})


def test_of_a_damaged_copy_of_lines_seen_before_nothing_is_counted_twice() -> None:
    following = Following()
    copy = [*WHOLE[:5], LINK, *WHOLE[6:]]

    entries = list(following.entries(blocks([*WHOLE, *copy])))

    assert following.faults() == (ChainFault("broken", 6, 6),)
    assert entries == list(Following().entries(blocks(WHOLE)))


@pytest.mark.parametrize("number", [1, 6, 11, 12])
@pytest.mark.parametrize("byte", [b"7", b"x", b'"', b"\\", b"\xff"])
def test_whichever_byte_was_changed_the_line_is_named_once(number: int, byte: bytes) -> None:
    line = WHOLE[number - 1]
    for at in range(len(line)):
        changed = line[:at] + byte + line[at + 1 :]
        following = Following()
        following.begins(1)

        list(following.entries(said_to_end(following, [*WHOLE[: number - 1], changed], number)))

        expected = () if changed == line else (ChainFault("broken", number, number),)
        assert following.faults() == expected, changed


def said_to_end(following: Following, before: list[bytes], number: int) -> Iterator[bytes]:
    yield from blocks([*before, *WHOLE[number:]])
    following.ends(12, sha256(WHOLE[-1]).hexdigest())


@pytest.mark.parametrize("kept", [0, 1, 7])
def test_lines_cut_off_a_download_are_named_as_missing(kept: int) -> None:
    following = Following()
    following.begins(1)
    list(following.entries(blocks(WHOLE[:kept]) if kept else []))

    following.ends(12, sha256(WHOLE[-1]).hexdigest())

    assert following.faults() == (ChainFault("gap", kept + 1, 12),)


def test_entries_are_those_that_were_recorded() -> None:
    entries = list(Following().entries(blocks(WHOLE)))

    assert entries == [decode(line)[1] for line in WHOLE]


def test_a_stretch_with_no_lines_is_no_broken_line() -> None:
    following = Following()

    assert list(following.entries([b"", *blocks(WHOLE), b""])) == list(
        Following().entries(blocks(WHOLE))
    )
    assert following.faults() == ()


def test_a_line_with_an_escape_is_read_as_what_it_says() -> None:
    at = Moment('b"1', 1, 1, 2)
    line = encode(LOG, BEFORE_FIRST, Entry(1, at, StepDone('a "step"', "pupil"))).bytes

    (entry,) = Following().entries(blocks([line]))

    assert entry.at == at
    assert entry.event == replace(StepDone("", "pupil"), step='a "step"')


def test_a_body_that_is_no_json_is_carried_and_does_not_stop_the_report() -> None:
    line = WHOLE[0].replace(b'"by":', b'"by"')

    (entry,) = Following().entries(blocks([line]))

    assert entry.seq == 1
