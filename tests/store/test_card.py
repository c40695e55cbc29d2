"""Cards that are full, read-only or failing: said, nothing lost, and a later append works."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from kiosk.core.events import StepDone
from kiosk.store import ReadOnlyRecord, Record, RecordFault
from kiosk.store.faults import fault_of
from tests.recording import Playing, remount, small_card

DONE = StepDone("eyes", "pupil")


def fill(at: Path) -> Path:
    """Take up all the room that is left."""
    ballast = at / "ballast"
    with ballast.open("wb", buffering=0) as file:
        try:
            while True:
                file.write(b"\0" * 4096)
        except OSError:
            return ballast


def append_until_full(playing: Playing) -> RecordFault:
    for _ in range(10_000):
        try:
            playing.happens(DONE)
        except RecordFault as fault:
            return fault
    raise AssertionError("the card never became full")


@pytest.mark.parametrize("journal", ["wal", "truncate"])
def test_a_full_card_is_said_and_work_goes_on_once_there_is_room(
    tmp_path: Path, journal: str
) -> None:
    with small_card(tmp_path / "card") as card:
        playing = Playing(Record.open(card / "record.sqlite", journal=journal))
        playing.happens(DONE)
        ballast = fill(card)

        fault = append_until_full(playing)
        stood = playing.record.head
        waiting = playing.entries(DONE)
        ballast.unlink()
        playing.record.append(waiting, playing.kiosk)

        assert fault.why == "full"
        assert playing.record.head[0] == stood[0] + 1
        playing.record.close()
        again = Record.open(card / "record.sqlite", journal=journal)
        assert [e.seq for e in again.entries()] == list(range(1, stood[0] + 2))
        assert again.set_aside is None
        again.close()


def test_a_new_record_on_a_full_card_says_full(tmp_path: Path) -> None:
    with small_card(tmp_path / "card", "64k") as card:
        fill(card)

        with pytest.raises(RecordFault) as fault:
            Record.open(card / "record.sqlite")

        assert fault.value.why == "full"


def test_a_read_only_card_is_said_and_can_still_be_read(tmp_path: Path) -> None:
    with small_card(tmp_path / "card") as card:
        playing = Playing(Record.open(card / "record.sqlite"))
        playing.happens(DONE, DONE)
        playing.record.close()
        remount(card, "ro")

        with pytest.raises(RecordFault) as fault:
            Record.open(card / "record.sqlite")
        with ReadOnlyRecord(card / "record.sqlite") as read:
            seen = len(list(read.lines(1, read.head[0])))

        assert fault.value.why == "read_only"
        assert seen == 2
        remount(card, "rw")
        again = Record.open(card / "record.sqlite")
        assert again.head[0] == 2
        again.close()


def test_a_read_only_card_with_a_write_ahead_log_is_not_read_wrongly(tmp_path: Path) -> None:
    """An immutable reader would not see the newest lines, so it is refused."""
    with small_card(tmp_path / "card") as card:
        playing = Playing(Record.open(card / "record.sqlite"))
        playing.happens(DONE)
        files = {p.name: p.read_bytes() for p in card.iterdir()}
        playing.record.close()
        for name in ("record.sqlite", "record.sqlite-wal"):
            (card / name).write_bytes(files[name])
        remount(card, "ro")

        with pytest.raises(RecordFault, match="copy all its files") as fault:
            ReadOnlyRecord(card / "record.sqlite")

        assert fault.value.why == "read_only"


def test_a_card_that_turns_read_only_is_said_and_work_goes_on_when_it_is_back(
    playing: Playing,
) -> None:
    playing.happens(DONE)
    waiting = playing.entries(DONE)
    connection = playing.record._connected._connection
    assert connection is not None
    connection.exec_driver_sql("PRAGMA query_only = ON")
    connection.rollback()

    with pytest.raises(RecordFault) as fault:
        playing.record.append(waiting, playing.kiosk)
    playing.record.append(waiting, playing.kiosk)

    assert fault.value.why == "read_only"
    assert [e.seq for e in playing.record.entries()] == [1, 2]


def test_after_a_fault_the_card_is_looked_at_again_before_anything_is_written(
    playing: Playing,
) -> None:
    playing.happens(DONE, DONE)
    playing.record._connected.drop()
    with sqlite3.connect(playing.record.path) as connection:
        connection.execute("DROP TRIGGER events_no_delete")
        connection.execute("DELETE FROM events WHERE seq = 2")
    connection.close()

    with pytest.raises(RecordFault, match="line 2 had been acknowledged") as fault:
        playing.happens(DONE)

    assert fault.value.why == "damaged"


def test_a_closed_record_refuses_to_be_written(playing: Playing) -> None:
    playing.record.close()

    with pytest.raises(RecordFault, match="was closed"):
        playing.happens(DONE)


def test_a_folder_that_cant_be_made_is_said(tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")

    with pytest.raises(RecordFault) as fault:
        Record.open(tmp_path / "file" / "record.sqlite")

    assert fault.value.why == "failing"
    assert "File exists" in str(fault.value)  # a file lies where the folder should be


@pytest.mark.parametrize(
    ("code", "why"),
    [
        ("SQLITE_FULL", "full"),
        ("SQLITE_READONLY_DBMOVED", "read_only"),
        ("SQLITE_IOERR_FSYNC", "failing"),
        ("SQLITE_CORRUPT_INDEX", "damaged"),
        ("SQLITE_BUSY_SNAPSHOT", "in_use"),
        ("SQLITE_CANTOPEN", "failing"),
    ],
)
def test_each_error_of_sqlite_has_its_word(tmp_path: Path, code: str, why: str) -> None:
    error = sqlite3.OperationalError("as the library says")
    error.sqlite_errorname = code

    assert fault_of(error, tmp_path / "record.sqlite").why == why
