"""Every message there is: a broken file, and the lines it leads to.

The first line of NAME.yaml says which shipped file it stands for; NAME.expected holds the
problems, one a line.
"""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from kiosk.content import load

BROKEN = Path(__file__).parent / "broken"
NAMES = sorted(path.stem for path in BROKEN.glob("*.yaml"))


@pytest.mark.parametrize("name", NAMES)
def test_a_mistake_is_told_with_its_line_and_what_is_allowed(name: str, sequences: Path) -> None:
    broken = BROKEN / f"{name}.yaml"
    target = broken.read_text("utf-8").splitlines()[0].removeprefix("# as: ")
    shutil.copy(broken, sequences / target)

    loaded = load(sequences)

    expected = (BROKEN / f"{name}.expected").read_text("utf-8").splitlines()
    assert [str(problem) for problem in loaded.problems] == expected
    assert loaded.content is None


def test_there_are_pairs_and_no_halves() -> None:
    expected = {path.stem for path in BROKEN.glob("*.expected")}

    assert expected == set(NAMES)
    assert len(NAMES) >= 15
