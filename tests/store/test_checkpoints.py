"""Checkpoints: as good as the fold of the log, and never trusted over it."""

from __future__ import annotations

import sqlite3
from pathlib import Path

import pytest

from kiosk.core.events import KioskStarted, LevelSet
from kiosk.core.kiosk import EMPTY
from kiosk.store import Record, checkpoints
from kiosk.store.checkpoints import remembered
from kiosk.store.codec import digest
from tests.recording import Playing, play_lesson

STARTED = KioskStarted("drill-1", "0.1.0", "first")


def test_every_checkpoint_of_a_lesson_equals_the_fold_of_the_log(path: Path) -> None:
    playing = Playing(Record.open(path))
    original = playing.happens

    def happens(*events, plan=None):  # type: ignore[no-untyped-def]
        made = original(*events, plan=plan)
        restored = playing.record.restore()
        assert restored == playing.record.rebuild() == remembered(playing.kiosk)
        return made

    playing.happens = happens  # type: ignore[method-assign]
    play_lesson(playing)

    assert playing.kiosk.machine.readings
    playing.record.close()


def damage(path: Path, statement: str) -> None:
    with sqlite3.connect(path) as connection:
        connection.execute(statement)
    connection.close()


def lie(path: Path, part: str, data: bytes) -> None:
    """Put another state into a checkpoint, with a sum that fits."""
    put = f"SET bytes = x'{data.hex()}', hash = '{digest(data)}'"
    damage(path, f"UPDATE checkpoints {put} WHERE part = '{part}'")


@pytest.mark.parametrize(
    "statement",
    [
        "DELETE FROM checkpoints WHERE part = 'machine'",
        "DELETE FROM checkpoints",
        "UPDATE checkpoints SET bytes = x'7b7d' WHERE part = 'machine'",
        "UPDATE checkpoints SET bytes = x'00' WHERE part = 'adults'",
        "UPDATE checkpoints SET code = 'of another version' WHERE part = 'head'",
        "UPDATE checkpoints SET seq = seq - 1 WHERE part = 'head'",
        "DELETE FROM checkpoints WHERE part = 'head'",
    ],
)
def test_a_bad_checkpoint_is_folded_anew_from_the_log(
    path: Path, playing: Playing, statement: str
) -> None:
    play_lesson(playing)
    playing.record.close()
    damage(path, statement)

    record = Record.open(path)

    assert record.restore() == remembered(playing.kiosk)
    record.close()


def test_a_checkpoint_is_used_where_it_is_good(path: Path, playing: Playing) -> None:
    playing.happens(STARTED, LevelSet("p1", "shown", "roster"))
    playing.record.close()
    lie(path, "pupils", b'{"grants":[{"pupil":"p2","level":"signed off"}]}')

    record = Record.open(path)

    assert record.restore().pupils.has("p2")
    assert record.rebuild().pupils.has("p1")
    record.close()


def test_the_state_is_folded_anew_after_the_code_has_changed(
    path: Path, playing: Playing, monkeypatch: pytest.MonkeyPatch
) -> None:
    playing.happens(STARTED, LevelSet("p1", "shown", "roster"))
    playing.record.close()
    lie(path, "pupils", b'{"grants":[]}')
    monkeypatch.setattr(checkpoints, "code_print", lambda: "newer code")

    record = Record.open(path)

    assert record.restore().pupils.has("p1")
    record.close()


def test_what_is_forgotten_at_a_restart_is_not_restored(playing: Playing) -> None:
    play_lesson(playing)

    restored = playing.record.restore()

    assert playing.kiosk.desk != EMPTY.desk
    assert restored.desk == EMPTY.desk
