"""The pepper beside a record: made once, readable to its owner alone."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.people import pepper_for, pepper_path


def test_the_first_call_makes_a_pepper_and_later_ones_read_it(tmp_path: Path) -> None:
    record = tmp_path / "new folder" / "drill.sqlite"

    first = pepper_for(record)

    assert len(first) == 32
    assert pepper_for(record) == first


def test_only_its_owner_can_read_the_pepper(tmp_path: Path) -> None:
    record = tmp_path / "drill.sqlite"

    pepper_for(record)

    assert pepper_path(record).stat().st_mode & 0o077 == 0


def test_two_records_have_two_peppers(tmp_path: Path) -> None:
    assert pepper_for(tmp_path / "a.sqlite") != pepper_for(tmp_path / "b.sqlite")


def test_making_leaves_no_part_file_behind(tmp_path: Path) -> None:
    record = tmp_path / "drill.sqlite"

    pepper_for(record)

    assert [path.name for path in tmp_path.iterdir()] == ["drill.sqlite.pepper"]


@pytest.mark.parametrize("text", ["", "abcd", "not hexadecimal"])
def test_a_cut_pepper_is_refused_rather_than_used(tmp_path: Path, text: str) -> None:
    record = tmp_path / "drill.sqlite"
    pepper_path(record).write_text(text)

    with pytest.raises(ValueError, match=r"drill\.sqlite\.pepper"):
        pepper_for(record)
