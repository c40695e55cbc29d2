"""A damaged record is set aside, never deleted, and what could be read of it carries on."""

from __future__ import annotations

import re
import shutil
import sqlite3
from pathlib import Path

import pytest

from kiosk.core.events import (
    AdultAdded,
    AdultRevoked,
    KioskStarted,
    LevelSet,
    RecordRenewed,
    StepDone,
    TakenOutOfUse,
)
from kiosk.core.model import Adult, Level
from kiosk.core.units import Moment
from kiosk.store import Record, RecordFault
from tests.recording import MAY_2026_US, Playing

NOW = Moment("boot9", 5, MAY_2026_US, 2)
PEOPLE = (
    AdultAdded("a1", "technician", "command"),
    AdultAdded("a2", "teacher", "command"),
    AdultRevoked("a2", "command"),
    LevelSet("p1", "supervised", "roster"),
    TakenOutOfUse("guard", "a1"),
)


@pytest.fixture
def lived(path: Path) -> tuple[Path, str, tuple[int, str]]:
    """A record with people and some events, closed: its path, log and head."""
    record = Record.open(path)
    record.keep_adult(Adult("a1", "Alex Invented", "technician"), "hash of a PIN")
    playing = Playing(record)
    playing.happens(KioskStarted("drill-1", "0.1.0", "first"), *PEOPLE)
    for _ in range(40):
        playing.happens(StepDone("eyes", "pupil"))
    record.close()
    return path, record.log, record.head


def overwrite(path: Path, found: bytes, put: bytes) -> None:
    data = path.read_bytes()
    at = data.rindex(found)
    path.write_bytes(data[:at] + put + data[at + len(found) :])


def drop_triggers(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        for act in ("update", "delete"):
            connection.execute(f"DROP TRIGGER events_no_{act}")
    connection.close()


def change_a_byte(path: Path) -> None:
    overwrite(path, b'"step":"eyes"', b'"step":"eyez"')


def tear_a_page(path: Path) -> None:
    data = bytearray(path.read_bytes())
    data[4096 * 2 : 4096 * 3] = b"\xff" * 4096
    path.write_bytes(bytes(data))


def spoil_the_header(path: Path) -> None:
    path.write_bytes(b"\0" * 100 + path.read_bytes()[100:])


def cut_in_half(path: Path) -> None:
    data = path.read_bytes()
    path.write_bytes(data[: len(data) // 2])


def lose_the_last_lines(path: Path) -> None:
    drop_triggers(path)
    with sqlite3.connect(path) as connection:
        connection.execute("DELETE FROM events WHERE seq > 30")
    connection.close()


def lose_a_line_between(path: Path) -> None:
    drop_triggers(path)
    with sqlite3.connect(path) as connection:
        connection.execute("DELETE FROM events WHERE seq = 30")
    connection.close()


def change_a_copy(path: Path) -> None:
    drop_triggers(path)
    with sqlite3.connect(path) as connection:
        connection.execute("UPDATE events SET wall_us = wall_us + 1 WHERE seq = 30")
    connection.close()


DAMAGES = (
    change_a_byte,
    tear_a_page,
    spoil_the_header,
    cut_in_half,
    lose_the_last_lines,
    lose_a_line_between,
    change_a_copy,
)


@pytest.mark.parametrize("damage", DAMAGES, ids=lambda d: d.__name__)
def test_a_damaged_record_is_set_aside_and_a_new_log_points_at_it(
    lived: tuple[Path, str, tuple[int, str]], damage
) -> None:  # type: ignore[no-untyped-def]
    path, log, head = lived
    damage(path)
    spoilt = path.read_bytes()

    record = Record.open(path, NOW)

    first = next(record.entries())
    assert record.log != log
    assert record.set_aside == path.with_name("record.sqlite.damaged-1")
    assert record.set_aside.read_bytes() == spoilt
    assert first.event == RecordRenewed(log, *head)
    assert first.at == NOW
    assert record.after == "cut"
    record.close()


@pytest.mark.parametrize("damage", [change_a_byte, lose_the_last_lines, change_a_copy])
def test_who_may_use_the_kiosk_and_out_of_use_carry_on(
    lived: tuple[Path, str, tuple[int, str]], damage
) -> None:  # type: ignore[no-untyped-def]
    path, _, _ = lived
    damage(path)

    record = Record.open(path, NOW)

    kiosk = record.restore()
    assert [a.ref for a in kiosk.adults.known] == ["a1"]
    assert kiosk.pupils.level("p1") is Level.SUPERVISED
    assert kiosk.machine.out_of_use == "guard"
    assert record.pin_hash("a1") == "hash of a PIN"
    assert kiosk == record.rebuild()
    record.close()


def test_without_a_time_the_pointer_has_the_last_one_known(
    lived: tuple[Path, str, tuple[int, str]],
) -> None:
    path, _, _ = lived
    lose_the_last_lines(path)

    record = Record.open(path)

    at = next(record.entries()).at
    assert (at.boot, at.quality) == ("", 0)
    assert at.wall_us == MAY_2026_US + 30_000_000  # line 30's, a second a line
    record.close()


def test_a_power_cut_between_setting_aside_and_the_new_log_loses_nothing(
    lived: tuple[Path, str, tuple[int, str]],
) -> None:
    path, log, head = lived
    for part in path.parent.glob("record.sqlite*"):
        part.rename(part.with_name(part.name.replace(".sqlite", ".sqlite.damaged-1")))

    record = Record.open(path, NOW)

    assert next(record.entries()).event == RecordRenewed(log, *head)
    assert record.pin_hash("a1") == "hash of a PIN"
    record.close()


def test_a_second_damage_is_set_aside_beside_the_first(
    lived: tuple[Path, str, tuple[int, str]],
) -> None:
    path, log, _ = lived
    change_a_byte(path)
    second = Record.open(path, NOW)
    second.close()
    spoil_the_header(path)

    third = Record.open(path, NOW)

    names = sorted(p.name for p in path.parent.glob("*damaged-?"))
    assert names == ["record.sqlite.damaged-1", "record.sqlite.damaged-2"]
    pointer = next(third.entries()).event
    assert isinstance(pointer, RecordRenewed)
    assert pointer.log == second.log != log
    third.close()


def test_an_older_copy_put_back_is_set_aside_too(path: Path, tmp_path: Path) -> None:
    playing = Playing(Record.open(path))
    playing.happens(StepDone("eyes", "pupil"))
    playing.record.close()
    shutil.copy(path, tmp_path / "older")
    playing = Playing(Record.open(path))
    playing.happens(StepDone("hair", "pupil"))
    playing.record.close()
    shutil.copy(tmp_path / "older", path)

    record = Record.open(path)

    assert record.set_aside is not None
    assert next(record.entries()).event == RecordRenewed(playing.record.log, *playing.record.head)
    record.close()


def test_a_head_file_that_is_torn_or_missing_costs_nothing(
    lived: tuple[Path, str, tuple[int, str]],
) -> None:
    path, log, head = lived
    beside = path.with_name("record.sqlite.head")
    for spoilt in (b"", b"torn", beside.read_bytes().replace(b"0046", b"0099"), None):
        beside.unlink() if spoilt is None else beside.write_bytes(spoilt)

        record = Record.open(path)

        assert (record.log, record.head, record.set_aside) == (log, head, None)
        record.close()


def test_a_head_file_that_cant_be_written_is_not_fatal(playing: Playing) -> None:
    beside = playing.record.path.with_name("record.sqlite.head")
    playing.record._head_file.close()
    beside.unlink()
    beside.mkdir()

    playing.happens(StepDone("eyes", "pupil"))

    assert playing.record.head[0] == 1


def test_with_renew_off_a_damaged_record_stays_where_it_is(
    lived: tuple[Path, str, tuple[int, str]],
) -> None:
    path, _, _ = lived
    change_a_byte(path)
    spoilt = path.read_bytes()

    with pytest.raises(RecordFault) as fault:
        Record.open(path, renew=False)

    assert fault.value.why == "damaged"
    assert path.read_bytes() == spoilt
    assert re.search(r"line \d+ \(step_done\) is not what its hash", str(fault.value))


@pytest.mark.parametrize("content", [b"a letter to the head", b"\x89PNG\r\n\x1a\n" * 300])
def test_a_file_that_was_never_a_record_is_left_alone(path: Path, content: bytes) -> None:
    path.write_bytes(content)

    with pytest.raises(RecordFault, match="not a record") as fault:
        Record.open(path)

    assert fault.value.why == "damaged"
    assert path.read_bytes() == content


def test_a_database_of_another_program_is_left_alone(path: Path) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute("CREATE TABLE songs (title TEXT)")
    connection.close()
    before = path.read_bytes()

    with pytest.raises(RecordFault, match="not a record"):
        Record.open(path)

    assert path.read_bytes() == before


def test_a_record_of_a_newer_version_is_refused_and_left_alone(
    lived: tuple[Path, str, tuple[int, str]],
) -> None:
    path, _, _ = lived
    with sqlite3.connect(path) as connection:
        connection.execute("UPDATE alembic_version SET version_num = '0099'")
        connection.execute("PRAGMA user_version = 99")
    connection.close()

    with pytest.raises(RecordFault) as fault:
        Record.open(path)

    assert fault.value.why == "newer"
    assert "0099" in str(fault.value)
    assert not list(path.parent.glob("*damaged*"))
