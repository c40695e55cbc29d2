"""Sheets and reports are written whole or not at all."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.export.whole import write_whole


def test_new_files_take_the_place_of_older_ones(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_bytes(b"old")

    made = write_whole(tmp_path, {"a.html": b"new", "a.pdf": b"paper"})

    assert made == (tmp_path / "a.html", tmp_path / "a.pdf")
    assert {path.name: path.read_bytes() for path in tmp_path.iterdir()} == {
        "a.html": b"new",
        "a.pdf": b"paper",
    }


def test_where_one_file_cannot_be_written_the_older_ones_stay(tmp_path: Path) -> None:
    (tmp_path / "a.html").write_bytes(b"old")
    (tmp_path / "a.pdf.part").mkdir()  # so that the second file can't be begun

    with pytest.raises(OSError):
        write_whole(tmp_path, {"a.html": b"new", "a.pdf": b"paper"})

    assert (tmp_path / "a.html").read_bytes() == b"old"
    assert not (tmp_path / "a.html.part").exists()
