"""What was kept long enough goes, from the beginning; the chain and the state stay whole."""

from __future__ import annotations

import sqlite3
from dataclasses import replace
from pathlib import Path

import pytest

from kiosk.core.events import (
    AdultAdded,
    AdultRevoked,
    BitsChanged,
    CheckDone,
    DatumSet,
    DeputyNamed,
    Erased,
    KioskStarted,
    LevelSet,
    Noted,
    PinTried,
    RecordRenewed,
    ReturnedToUse,
    StepDone,
    TakenOutOfUse,
)
from kiosk.core.kiosk import Kiosk
from kiosk.core.model import Adult
from kiosk.store import ReadOnlyRecord, Record, RecordFault, cut_before
from kiosk.store.checkpoints import remembered
from tests.ageing import STARTED, days, purge
from tests.recording import DAY_US, Playing

KNOWN = (
    AdultAdded("a1", "technician", "command"),
    AdultAdded("a2", "teacher", "command"),
    AdultRevoked("a2", "command"),
    LevelSet("p1", "supervised", "roster"),
    PinTried("a1", "menu"),
    DeputyNamed("a1", "a1"),
    CheckDone("extraction_tested", "right", 19_000, "a1"),
    BitsChanged("twist", 6000, "new", "a1"),
    DatumSet("run_down", 9000, "a1"),
    TakenOutOfUse("belt", "a1"),
    ReturnedToUse("a1"),
    Noted("a1", "n8", "near_miss", "dust", "0" * 64),
    TakenOutOfUse("guard", "a1"),
)


def without_words(kiosk: Kiosk) -> Kiosk:
    """The state but for the word why a set-up that is void anyway was void."""
    return replace(kiosk, machine=replace(kiosk.machine, void_why=""))


def test_old_days_go_and_the_rest_is_as_it_was(path: Path, playing: Playing) -> None:
    playing.happens(STARTED, *KNOWN)
    days(playing, 6)
    kept = list(playing.record.entries())

    (purged,) = purge(playing.record, playing, playing.wall_us - 3 * DAY_US)

    left = list(playing.record.entries())
    assert purged.first == 1
    assert left[0] == kept[purged.last]
    assert left[:-1] == kept[purged.last :]
    assert isinstance(left[0].event, KioskStarted)
    assert left[-1].event == purged


def test_the_state_folded_from_what_is_left_is_the_state(path: Path, playing: Playing) -> None:
    playing.happens(STARTED, *KNOWN)
    days(playing, 6)
    purge(playing.record, playing, playing.wall_us - 3 * DAY_US)

    rebuilt = playing.record.rebuild()

    assert without_words(rebuilt) == without_words(remembered(playing.kiosk))
    assert rebuilt.machine.out_of_use == "guard"
    assert rebuilt.incidents == playing.kiosk.incidents
    assert rebuilt.care == playing.kiosk.care
    assert rebuilt.care.deputy == "a1" and len(rebuilt.care.faults) == 2
    assert rebuilt.pupils == playing.kiosk.pupils
    assert rebuilt.adults == playing.kiosk.adults


def test_it_opens_again_and_can_be_cut_again(path: Path, playing: Playing) -> None:
    playing.happens(STARTED, *KNOWN)
    days(playing, 6)
    purge(playing.record, playing, playing.wall_us - 4 * DAY_US)
    playing.record.close()
    with sqlite3.connect(path) as connection:
        connection.execute("DELETE FROM checkpoints")
    connection.close()

    again = Playing(Record.open(path), wall_us=playing.wall_us)
    (purged,) = purge(again.record, again, playing.wall_us - 2 * DAY_US)

    assert again.record.set_aside is None
    assert without_words(again.kiosk) == without_words(remembered(playing.kiosk))
    assert purged.first > 1
    again.record.close()
    Record.open(path).close()


def test_a_clock_that_was_never_set_decides_nothing(playing: Playing) -> None:
    playing.happens(STARTED, *KNOWN)
    playing.quality = 0
    days(playing, 4)

    assert purge(playing.record, playing, playing.wall_us - DAY_US) == ()


def test_days_of_an_unset_clock_go_with_the_older_ones_around_them(playing: Playing) -> None:
    days(playing, 2)
    until = playing.wall_us
    playing.quality, playing.wall_us = 0, 0
    days(playing, 2)
    unset = playing.record.head[0]
    playing.quality, playing.wall_us = 2, until
    days(playing, 4)

    (purged,) = purge(playing.record, playing, playing.wall_us - 2 * DAY_US)

    assert purged.last > unset


def test_nothing_is_cut_while_something_was_going_on(playing: Playing) -> None:
    for day in range(4):
        playing.boot = f"boot{day}"
        playing.wall_us += DAY_US
        playing.happens(KioskStarted("drill-1", "0.1.0", "cut"))  # nobody saw it still

    assert purge(playing.record, playing, playing.wall_us - DAY_US) == ()


def test_a_line_that_is_kept_can_still_not_be_deleted(path: Path, playing: Playing) -> None:
    days(playing, 4)
    purge(playing.record, playing, playing.wall_us - 2 * DAY_US)
    connection = sqlite3.connect(path)

    with pytest.raises(sqlite3.IntegrityError, match="events are written once"):
        connection.execute("DELETE FROM events WHERE seq > 0")

    connection.close()


def test_a_beginning_that_no_event_bears_out_is_damage(path: Path, playing: Playing) -> None:
    days(playing, 3)
    playing.record.close()
    with sqlite3.connect(path) as connection:
        (prev,) = connection.execute("SELECT hash FROM events WHERE seq = 9").fetchone()
        insert = "INSERT INTO begins SELECT log, 10, ?, x'5b5d' FROM logs"
        connection.execute(insert, (prev,))
        connection.execute("DELETE FROM events WHERE seq < 10")
    connection.close()

    with pytest.raises(RecordFault, match="no event bears out"):
        Record.open(path, renew=False)


def test_a_purge_that_was_not_prepared_is_refused(playing: Playing) -> None:
    days(playing, 3)
    with ReadOnlyRecord(playing.record.path) as read:
        lines = read.with_hashes(1, read.head[0])
        begin = cut_before(lines, read.begin, playing.wall_us - DAY_US, 2)
    said = playing.record.prepare(begin)

    with pytest.raises(ValueError, match="was not prepared"):
        playing.happens(replace(said, last=said.last + 1))

    assert next(playing.record.entries()).seq == 1


def test_a_damaged_record_that_was_cut_still_carries_on(path: Path, playing: Playing) -> None:
    playing.happens(STARTED, *KNOWN)
    days(playing, 5)
    purge(playing.record, playing, playing.wall_us - 2 * DAY_US)
    head = playing.record.head
    playing.record.close()
    with sqlite3.connect(path) as connection:
        connection.execute("DROP TRIGGER events_no_delete")
        connection.execute("DELETE FROM events WHERE seq = ?", (head[0],))
    connection.close()

    record = Record.open(path)

    first = next(record.entries()).event
    assert isinstance(first, RecordRenewed)
    assert (first.last, first.head) == head
    assert record.restore().machine.out_of_use == "guard"
    record.close()


@pytest.mark.parametrize("journal", ["wal", "truncate"])
def test_what_is_erased_is_in_no_file_of_the_record(path: Path, journal: str) -> None:
    playing = Playing(Record.open(path, journal=journal))
    record = playing.record
    record.keep_adult(Adult("a1", "Quillfeather Invented", "teacher"), "hash-of-quill")
    note, digest = record.keep_note("incident", "swarf", "Quillfeather slipped, invented")
    playing.happens(STARTED, KNOWN[0], Noted("a1", note, "incident", "swarf", digest))

    playing.happens(Erased("adult", "a1", "asked"), Erased("note", note, "asked"))

    files = [p.read_bytes() for p in path.parent.iterdir() if p.is_file()]
    assert not any(b"uillfeather" in data or b"hash-of-quill" in data for data in files)
    assert record.note_text(note) is None
    record.close()
    Record.open(path).close()


def test_an_erasure_that_is_not_written_erases_nothing(
    playing: Playing, monkeypatch: pytest.MonkeyPatch
) -> None:
    record = playing.record
    record.keep_adult(Adult("a1", "Alex Invented", "teacher"), "hash")
    playing.happens(STARTED, StepDone("eyes", "pupil"))

    def fails(*_: object) -> None:
        raise RecordFault("failing", "the card said no")

    with monkeypatch.context() as patch:
        patch.setattr(record._checkpoints, "write", fails)
        with pytest.raises(RecordFault):
            playing.happens(Erased("adult", "a1", "asked"))

    assert record.pin_hash("a1") == "hash"
