"""A sheet's files on a stick: whole, or a word and a line for why not; and read before that."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.export import DownloadFault, folder
from kiosk.export.sheets.carrying import FOLDER, put_on_stick
from tests.export.test_pulled import Steps, no_answer
from tests.recording import remount, small_card

FILES = {"wall-drill-1-A4.html": b"<p>" + b"a" * 50_000, "wall-drill-1-A4.pdf": b"%PDF" * 20_000}


def whole_on(stick: Path) -> dict[str, bytes]:
    """What has a name of its own on the stick."""
    found = (stick / FOLDER).glob("*.[hp]*[lf]")
    return {path.name: path.read_bytes() for path in found}


def nothing_moves() -> None:
    """No bar."""


def test_both_files_lie_in_a_folder_of_sheets_and_each_step_is_told(stick: Path) -> None:
    steps: list[None] = []

    to = put_on_stick(stick, FILES, lambda: steps.append(None))

    assert to == stick / FOLDER
    assert whole_on(stick) == FILES
    assert len(steps) == 2


def test_an_older_sheet_gives_way_and_what_a_pulled_stick_left_is_no_hindrance(stick: Path) -> None:
    put_on_stick(stick, {"wall-drill-1-A4.html": b"old"}, nothing_moves)
    (stick / FOLDER / "wall-drill-1-A4.pdf.part").write_bytes(b"half of i")

    put_on_stick(stick, FILES, nothing_moves)

    assert whole_on(stick) == FILES
    assert len(list((stick / FOLDER).iterdir())) == 2


def test_a_stick_that_stops_answering_at_any_step_is_no_success(
    stick: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    put_on_stick(stick, dict.fromkeys(FILES, b"old"), nothing_moves)
    whole = Steps(0, no_answer, False)
    assert ended(stick, monkeypatch, whole) == ""
    steps = range(1, whole.count + 1)

    ends = {at: ended(stick, monkeypatch, Steps(at, no_answer, True)) for at in steps}

    assert len(ends) > 10
    assert set(ends.values()) <= {"failing", "gone"}
    assert set(whole_on(stick)) == set(FILES)  # never less than what was there
    assert ended(stick, monkeypatch, Steps(0, no_answer, False)) == ""


def ended(stick: Path, monkeypatch: pytest.MonkeyPatch, steps: Steps) -> str:
    """The word that it ended with; empty for a success."""
    with monkeypatch.context() as patch:
        patch.setattr(folder, "os", steps)
        try:
            put_on_stick(stick, FILES, nothing_moves)
        except DownloadFault as fault:
            assert "\n" not in str(fault)
            return fault.why
    return ""


def test_a_full_stick_says_so_and_what_was_there_stays(tmp_path: Path) -> None:
    with small_card(tmp_path / "small") as card:
        put_on_stick(card, {"wall-drill-1-A4.html": b"old"}, nothing_moves)
        large = {"wall-drill-1-A4.html": bytes(4 << 20)}

        with pytest.raises(DownloadFault, match="the stick is full") as fault:
            put_on_stick(card, large, nothing_moves)

        assert fault.value.why == "full"
        assert whole_on(card) == {"wall-drill-1-A4.html": b"old"}


def test_a_stick_that_can_not_be_written_to_says_so(tmp_path: Path) -> None:
    with small_card(tmp_path / "small") as card:
        put_on_stick(card, {"accident.pdf": b"old"}, nothing_moves)
        remount(card, "ro")

        with pytest.raises(DownloadFault) as fault:
            put_on_stick(card, {"accident.pdf": b"new"}, nothing_moves)

        assert fault.value.why == "read_only"
        assert (card / FOLDER / "accident.pdf").read_bytes() == b"old"


def test_a_stick_that_is_not_there_is_gone_and_nothing_lands_on_the_card(stick: Path) -> None:
    with pytest.raises(DownloadFault) as fault:
        put_on_stick(stick, FILES, nothing_moves, mounted=True)

    assert fault.value.why == "gone"
    assert list(stick.iterdir()) == []
