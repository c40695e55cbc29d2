"""A thread that ends by an error is told, kept beside the record, and may end the screens."""

from __future__ import annotations

import logging
import threading
from collections.abc import Iterator
from pathlib import Path

import pytest

from kiosk.core.inputs import ReadingIs
from kiosk.core.model import Reading
from kiosk.installing.wanted import FILES
from kiosk.runtime.ending import Ending, NotWorking
from kiosk.runtime.faults import FAULTS, keep_faults
from kiosk.runtime.settings import Settings
from kiosk.runtime.start import start
from kiosk.screens.source import LOOK_S, MOST_FAULTS
from kiosk.store import ReadOnlyRecord


@pytest.fixture
def ending() -> Iterator[Ending]:
    """Told of threads that end by an error, as in the kiosk's main."""
    before = threading.excepthook
    told = Ending()
    told.watch()
    yield told
    threading.excepthook = before
    log = logging.getLogger("kiosk")
    for handler in log.handlers[:]:
        log.removeHandler(handler)
        handler.close()


def ended_by_an_error(name: str) -> None:
    def work() -> None:
        raise ZeroDivisionError("planted")

    thread = threading.Thread(target=work, name=name)
    thread.start()
    thread.join()


def test_an_error_in_a_thread_it_can_not_do_without_is_raised_at_each_look(ending: Ending) -> None:
    ending.look()

    ended_by_an_error("pins")

    for _ in range(3):
        with pytest.raises(NotWorking, match="the thread pins has ended"):
            ending.look()


def test_an_error_in_another_thread_is_kept_and_nothing_ends(
    ending: Ending, tmp_path: Path
) -> None:
    record = tmp_path / "data" / "record.sqlite"
    keep_faults(record)

    ended_by_an_error("contacts")

    ending.look()
    kept = record.with_name(record.name + FAULTS).read_text("utf-8")
    assert "the thread contacts ended by an error" in kept
    assert "ZeroDivisionError: planted" in kept


def test_a_card_that_takes_no_log_of_faults_keeps_no_kiosk_from_starting(tmp_path: Path) -> None:
    (tmp_path / "file").touch()

    keep_faults(tmp_path / "file" / "record.sqlite")


def test_an_error_in_the_loop_is_no_orderly_end_and_the_record_stays_whole(
    ending: Ending, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    path = tmp_path / "record.sqlite"
    running = start(Settings(record=path, boot="b1"))
    assert running.loop is not None and running.loop._thread is not None
    monkeypatch.setattr(running.loop, "turn", lambda now: 1 // 0)

    running.loop.post(ReadingIs("isolator", Reading.ON, "settled"))
    running.loop._thread.join(10)
    with pytest.raises(NotWorking, match="the thread loop has ended"):
        ending.look()
    running.stop()

    with ReadOnlyRecord(path) as record:
        record.look_through()
        assert record.last("kiosk_stopped") is None
    again = start(Settings(record=path, boot="b2"))
    shown = again.latest()
    again.stop()
    assert shown.screen == "restart"


def test_the_screens_end_the_process_a_few_seconds_after_errors_that_do_not_end() -> None:
    """The plain screen can be read meanwhile; the unit's watchdog does not come in between."""
    assert 5 <= MOST_FAULTS * LOOK_S <= 15


def test_three_starts_in_a_row_that_end_stay_ended_with_who_to_call() -> None:
    unit = (FILES / "pillarside.service").read_text("utf-8").splitlines()
    said = (FILES / "stopped.txt").read_text("utf-8")

    for line in ("Restart=always", "StartLimitBurst=3", "OnFailure=pillarside-stopped.service"):
        assert line in unit
    assert "call the workshop technician" in said
    assert "Press the red stop" in said
