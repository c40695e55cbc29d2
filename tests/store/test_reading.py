"""Reading beside the kiosk, and the stretches by clock and by number."""

from __future__ import annotations

import threading
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.events import Downloaded, KioskStarted, StepDone
from kiosk.store import ReadOnlyRecord, Record
from kiosk.store.codec import BEFORE_FIRST
from kiosk.store.reading import DAY_US, SPANS, first_within
from kiosk.store.tables import SCHEMA
from tests.recording import Playing, plan_of, play_lesson

DONE = StepDone("eyes", "pupil")
WEEK = SPANS["week"]


def test_it_sees_what_was_committed_while_the_kiosk_writes_on(path: Path, playing: Playing) -> None:
    stop, seen = threading.Event(), []

    def write() -> None:
        while not stop.is_set():
            playing.happens(DONE)

    playing.happens(DONE)
    writer = threading.Thread(target=write)
    writer.start()
    for _ in range(20):
        with ReadOnlyRecord(path) as read:
            lines = list(read.lines(1, read.head[0]))
            seen.append((len(lines), lines[-1].hash == read.head[1]))
    stop.set()
    writer.join()

    assert all(whole for _, whole in seen)
    assert seen[-1][0] > seen[0][0] > 0


def test_it_leaves_the_record_as_it_is(path: Path, playing: Playing) -> None:
    playing.happens(DONE)

    with ReadOnlyRecord(path) as read, pytest.raises(Exception, match="readonly"):
        read._connection.exec_driver_sql("DELETE FROM checkpoints")

    playing.happens(DONE)
    assert playing.record.head[0] == 2


def test_it_reads_a_record_nobody_has_open(path: Path) -> None:
    playing = Playing(Record.open(path))
    playing.happens(DONE, DONE)
    playing.record.close()

    with ReadOnlyRecord(path) as read:
        assert read.head == playing.record.head
        assert (read.log, read.schema) == (playing.record.log, SCHEMA)


def test_it_reads_what_a_power_cut_left_in_the_write_ahead_log(
    path: Path, playing: Playing, tmp_path: Path
) -> None:
    playing.happens(DONE, DONE)
    (tmp_path / "cut").mkdir()
    for name in ("record.sqlite", "record.sqlite-wal"):
        (tmp_path / "cut" / name).write_bytes((tmp_path / name).read_bytes())

    before = (tmp_path / "cut" / "record.sqlite").read_bytes()

    with ReadOnlyRecord(tmp_path / "cut" / "record.sqlite") as read:
        seen = read.head

    assert seen == playing.record.head
    assert (tmp_path / "cut" / "record.sqlite").read_bytes() == before  # it never checkpoints
    assert (tmp_path / "cut" / "record.sqlite-wal").stat().st_size > 0


def test_no_record_is_said_and_none_is_made(path: Path) -> None:
    with pytest.raises(FileNotFoundError, match="no record here"):
        ReadOnlyRecord(path)

    assert not path.exists()


def test_entries_have_their_plans(path: Path, playing: Playing) -> None:
    play_lesson(playing)

    with ReadOnlyRecord(path) as read:
        plans = [e.plan for e in read.entries(1, read.head[0]) if e.plan]

    assert plans == [plan_of()]


def test_the_whole_span_goes_from_the_first_line_to_the_head(path: Path, playing: Playing) -> None:
    playing.happens(DONE, DONE)

    with ReadOnlyRecord(path) as read:
        span = read.span("all")
        lines = list(read.lines(span.first, span.last))

    assert (span.first, span.last, span.prev) == (1, 2, BEFORE_FIRST)
    assert span.head == lines[-1].hash
    assert span.size == sum(len(line.bytes) for line in lines)


def test_since_last_begins_after_what_the_last_download_held(path: Path, playing: Playing) -> None:
    playing.happens(DONE, DONE)
    playing.happens(Downloaded("week", 1, 2, "h"), DONE)

    with ReadOnlyRecord(path) as read:
        span = read.span("since-last")
        (second,) = read.lines(2, 2)

    assert (span.first, span.last, span.prev) == (3, 4, second.hash)


def test_since_last_is_everything_before_the_first_download(path: Path, playing: Playing) -> None:
    playing.happens(DONE)

    with ReadOnlyRecord(path) as read:
        assert (read.span("since-last").first, read.span("since-last").last) == (1, 1)


def test_a_week_begins_seven_days_before_the_last_line(path: Path, playing: Playing) -> None:
    playing.happens(KioskStarted("drill-1", "0.1.0", "first"))
    playing.wall_us += 8 * DAY_US
    playing.happens(DONE, DONE)
    playing.wall_us += 6 * DAY_US
    playing.happens(DONE)

    with ReadOnlyRecord(path) as read:
        week, term = read.span("week"), read.span("term")

    assert (week.first, week.last) == (2, 4)
    assert term.first == 1


def test_a_span_ends_where_the_record_ended_when_it_was_opened(
    path: Path, playing: Playing
) -> None:
    playing.happens(DONE, DONE)

    with ReadOnlyRecord(path) as read:
        playing.wall_us += 30 * DAY_US
        playing.happens(DONE)
        span = read.span("week")

    assert (span.first, span.last, span.head) == (1, 2, read.head[1])


def test_an_empty_record_has_empty_spans(path: Path, playing: Playing) -> None:
    with ReadOnlyRecord(path) as read:
        span = read.span("week")

    assert (span.first, span.last) == (1, 0)


def backwards(*lines: tuple[int, int]) -> list[tuple[int, int, int]]:
    """(number, wall, quality), the last first, of lines given as (day, quality)."""
    numbered = [(n, day * DAY_US, quality) for n, (day, quality) in enumerate(lines, 1)]
    return numbered[::-1]


@pytest.mark.parametrize(
    ("lines", "first"),
    [
        (((0, 2), (5, 2), (12, 2)), 2),
        (((0, 2), (4, 2), (12, 2)), 3),
        (((100, 2), (101, 2), (0, 0), (0, 0)), 1),  # the clock was lost: the last trusted counts
        (((90, 2), (100, 2), (0, 0)), 2),
        (((0, 0), (100, 2), (107, 2)), 1),  # an untrusted clock never ends the stretch
        (((0, 1), (100, 1), (101, 1)), 2),  # nothing better is known
        (((200, 1), (100, 1), (101, 1)), 1),  # a clock set back only makes it longer
    ],
)
def test_a_wrong_clock_can_only_make_a_week_longer(
    lines: tuple[tuple[int, int], ...], first: int
) -> None:
    assert first_within(backwards(*lines), WEEK) == first


@given(st.lists(st.tuples(st.integers(0, 60), st.sampled_from((0, 1, 2))), min_size=1))
def test_a_week_holds_every_line_of_its_days_whatever_the_clock_did(
    lines: list[tuple[int, int]],
) -> None:
    rows = backwards(*lines)

    first = first_within(rows, WEEK)

    inside = [row for row in rows if row[0] >= first]
    trust = max(quality for _, _, quality in inside)
    trusted = [wall for _, wall, quality in inside if quality == trust]
    assert all(wall >= trusted[0] - WEEK for wall in trusted)
    if first > 1:
        _, wall, quality = rows[len(inside)]
        assert quality == trust
        assert wall < trusted[0] - WEEK
