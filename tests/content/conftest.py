"""A copy of the shipped content to break, and the shipped content itself."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

import pytest

from kiosk.content import Loaded, load

SEQUENCES = Path(__file__).parents[2] / "sequences"


@pytest.fixture(scope="session")
def shipped() -> Loaded:
    """The content of the project as it is shipped."""
    return load(SEQUENCES)


@pytest.fixture
def sequences(tmp_path: Path) -> Path:
    """A copy of the shipped sequences that may be broken."""
    return Path(shutil.copytree(SEQUENCES, tmp_path / "sequences"))


@pytest.fixture
def changed(sequences: Path) -> Callable[[str, str, str], Loaded]:
    """Loads the copy after one text in one of its files was replaced once."""

    def change(file: str, old: str, new: str) -> Loaded:
        path = sequences / file
        text = path.read_text(encoding="utf-8")
        assert old in text, f"{old!r} is not in {file}"
        path.write_text(text.replace(old, new, 1), encoding="utf-8")
        return load(sequences)

    return change
