"""The chain, the checkpoints, and the one writer."""

from __future__ import annotations

import sqlite3
import subprocess
import sys
import threading
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.core.events import (
    AdultAdded,
    HoleDrilled,
    KioskStarted,
    KioskStopped,
    LessonOpened,
    PinTried,
    ReadingChanged,
    SessionStarted,
    StepDone,
)
from kiosk.core.kiosk import EMPTY
from kiosk.store import Record, RecordFault
from kiosk.store.checkpoints import remembered
from kiosk.store.codec import BEFORE_FIRST, decode, encode
from kiosk.store.tables import SCHEMA
from tests.recording import ROOT, Playing, content, plan_of, play_lesson, started

STARTED = KioskStarted("drill-1", "0.1.0", "first")


def test_a_new_record_is_empty_and_says_so(path: Path) -> None:
    record = Record.open(path)

    assert record.head == (0, BEFORE_FIRST)
    assert record.restore() == EMPTY
    assert (record.after, record.schema, record.unknown) == ("first", SCHEMA, ())
    assert len(record.log) == 32
    record.close()


def test_two_records_never_share_a_log_id(tmp_path: Path) -> None:
    one, other = Record.open(tmp_path / "one"), Record.open(tmp_path / "other")

    assert one.log != other.log
    one.close(), other.close()


def test_only_its_own_user_can_read_the_record(playing: Playing) -> None:
    playing.happens(STARTED)

    modes = {p.name: p.stat().st_mode & 0o077 for p in playing.record.path.parent.iterdir()}

    assert set(modes.values()) == {0}, modes


def test_entries_come_back_in_order_as_they_were(playing: Playing) -> None:
    made = [e for _ in range(260) for e in playing.happens(STARTED, StepDone("eyes", "pupil"))]

    assert list(playing.record.entries()) == made
    assert list(playing.record.entries(3, 5)) == made[2:5]
    assert playing.record.head[0] == len(made)


def test_the_start_of_a_session_comes_back_with_its_plan(playing: Playing) -> None:
    play_lesson(playing)

    starts = [e for e in playing.record.entries() if isinstance(e.event, SessionStarted)]

    assert [e.plan for e in starts] == [plan_of()]


def test_a_session_without_its_plan_is_not_recorded(playing: Playing) -> None:
    entries = playing.entries(started(plan_of()))

    with pytest.raises(ValueError, match="its plan was not handed in"):
        playing.record.append(entries, EMPTY)

    assert playing.record.head[0] == 0


def test_numbers_must_go_on_from_the_head(playing: Playing) -> None:
    playing.happens(STARTED)
    skipped = [replace(entry, seq=entry.seq + 1) for entry in playing.entries(STARTED)]

    with pytest.raises(ValueError, match="entry number 3; the next one is 2"):
        playing.record.append(skipped, EMPTY)


def test_the_state_is_there_again_after_closing(path: Path, playing: Playing) -> None:
    play_lesson(playing)
    playing.record.close()

    record = Record.open(path)

    assert record.restore() == remembered(playing.kiosk)
    assert list(record.entries())[-1].seq == record.head[0]
    record.close()


@pytest.mark.parametrize("table", ["events", "plans", "logs", "content"])
@pytest.mark.parametrize("act", ["DELETE FROM {}", "UPDATE {} SET rowid = rowid"])
def test_what_is_written_once_can_neither_be_changed_nor_deleted(
    path: Path, playing: Playing, table: str, act: str
) -> None:
    play_lesson(playing)
    playing.record.keep_content(content())
    connection = sqlite3.connect(path)

    with pytest.raises(sqlite3.IntegrityError, match=f"{table} are written once"):
        connection.execute(act.format(table))

    connection.close()


def test_no_line_can_follow_the_same_line_twice(path: Path, playing: Playing) -> None:
    playing.happens(STARTED)
    connection = sqlite3.connect(path)
    columns = "hash, prev, wall_us, quality, kind, v, bytes"

    with pytest.raises(sqlite3.IntegrityError, match="UNIQUE"):
        connection.execute(
            f"INSERT INTO events (log, seq, {columns}) SELECT log, 2, {columns} FROM events"
        )

    connection.close()


def test_a_second_opener_is_refused_until_the_first_has_closed(path: Path) -> None:
    first = Record.open(path)

    with pytest.raises(RecordFault) as refused:
        Record.open(path)
    first.close()
    second = Record.open(path)

    assert refused.value.why == "in_use"
    second.close()


def test_another_process_is_refused_too(path: Path, playing: Playing) -> None:
    code = (
        "import sys; from pathlib import Path; from kiosk.store import Record, RecordFault\n"
        "try: Record.open(Path(sys.argv[1]))\n"
        "except RecordFault as fault: print(fault.why)"
    )

    words = [sys.executable, "-c", code, str(path)]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)

    assert done.stdout == "in_use\n"


def test_four_threads_with_records_of_their_own_make_one_chain(path: Path) -> None:
    refused: list[str] = []

    def write() -> None:
        done = 0
        while done < 5:
            try:
                record = Record.open(path)
            except RecordFault as fault:
                refused.append(fault.why)
                continue
            Playing(record).happens(STARTED)
            record.close()
            done += 1

    run_four(write)

    record = Record.open(path)
    assert [entry.seq for entry in record.entries()] == list(range(1, 21))
    assert set(refused) <= {"in_use"}
    record.close()


def test_four_threads_on_one_record_never_fork_it(path: Path) -> None:
    record = Record.open(path)

    def write() -> None:
        done = 0
        while done < 25:
            playing = Playing(record)
            try:
                playing.happens(STARTED)
            except (ValueError, RecordFault):
                continue  # another thread was first with this number
            done += 1

    run_four(write)

    assert [entry.seq for entry in record.entries()] == list(range(1, 101))
    record.close()
    Record.open(path).close()  # its chain is checked at opening


def run_four(work) -> None:  # type: ignore[no-untyped-def]
    threads = [threading.Thread(target=work) for _ in range(4)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()


@pytest.mark.parametrize(
    ("events", "after"),
    [
        ((), "first"),
        ((AdultAdded("a1", "technician", "command"),), "first"),
        ((STARTED,), "cut"),
        ((STARTED, KioskStopped()), "clean"),
        ((STARTED, KioskStopped(), AdultAdded("a1", "technician", "command")), "clean"),
        ((STARTED, KioskStopped(), STARTED, LessonOpened("a1", "g", (), 60)), "cut"),
    ],
)
def test_it_says_how_the_run_before_ended(path: Path, events: tuple, after: str) -> None:
    playing = Playing(Record.open(path))
    if events:
        playing.happens(*events)
    playing.record.close()

    record = Record.open(path)

    assert record.after == after
    record.close()


def test_a_commit_that_failed_but_was_taken_after_all_is_not_written_twice(
    playing: Playing, monkeypatch: pytest.MonkeyPatch
) -> None:
    """The batch is handed in again with more after it, as the kiosk does while it waits."""
    playing.happens(STARTED)
    first = playing.entries(ReadingChanged("starter", "on", "settled"))
    with monkeypatch.context() as patch:
        patch.setattr(playing.record._checkpoints, "written", failing)
        with pytest.raises(RecordFault):
            playing.record.append(first, playing.kiosk)

    more = [replace(e, seq=e.seq + 1) for e in playing.entries(PinTried("a1", "ok"))]
    playing.record.append((*first, *more), playing.kiosk)

    assert list(playing.record.entries(2)) == [*first, *more]


def failing(_: object) -> None:
    raise RecordFault("failing", "the card said no, but had written")


def test_lines_that_another_program_added_are_not_written_over(playing: Playing) -> None:
    playing.happens(STARTED)
    head = playing.record._head
    playing.happens(HoleDrilled(1, "said"))
    playing.record._head = head

    with pytest.raises(RecordFault, match="line 2 is not from this kiosk"):
        playing.record.append(playing.entries(HoleDrilled(2, "said")), playing.kiosk)


def test_an_unknown_kind_is_carried_and_told(path: Path, playing: Playing) -> None:
    playing.happens(STARTED)
    record = playing.record
    entry = playing.entries(StepDone("eyes", "pupil"))[0]
    add_unknown(path, record, entry)
    record.close()

    again = Record.open(path)

    assert again.unknown == ("belt_seen",)
    assert [type(e.event).__name__ for e in again.entries()] == ["KioskStarted", "UnknownKind"]
    assert again.restore() == remembered(playing.kiosk)
    again.close()


def add_unknown(path: Path, record: Record, entry) -> None:  # type: ignore[no-untyped-def]
    known = encode(record.log, record.head[1], entry)
    line, _ = decode(known.bytes.replace(b'"kind":"step_done"', b'"kind":"belt_seen"'))
    with sqlite3.connect(path) as connection:
        connection.execute(
            "INSERT INTO events (log, seq, wall_us, quality, kind, v, prev, hash, bytes) "
            "VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)",
            (record.log, *line),
        )
    connection.close()


def test_content_is_kept_once_under_its_digest(playing: Playing) -> None:
    digest = playing.record.keep_content(content())

    again = playing.record.keep_content(content())

    assert again == digest
    assert playing.record.content(digest) == content()
    assert playing.record.content("0" * 64) is None
