"""Every message there is: a broken file, and the lines it leads to.

The first line of NAME.yaml says where it stands: `# as: FILE` in place of a shipped file,
`# in: FILE` and then `# instead of: LINE` to put the rest in place of one of its lines,
`# school: FILE` in a school's own folder over the shipped one. NAME.expected holds the problems,
one a line; `{line}` is where the lines were put, `…` stands for a list too long to repeat.
"""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from kiosk.content import load

BROKEN = Path(__file__).parent / "broken"
NAMES = sorted(path.stem for path in BROKEN.glob("*.yaml"))


def put(broken: Path, sequences: Path, school: Path) -> int:
    """Put the broken file where it belongs; the line at which it was put in, or 0."""
    head, _, rest = broken.read_text("utf-8").partition("\n")
    kind, _, name = head.removeprefix("# ").partition(": ")
    if kind == "in":
        return put_in(sequences / name, rest)
    folder = school if kind == "school" else sequences
    (folder / name).parent.mkdir(parents=True, exist_ok=True)
    shutil.copy(broken, folder / name)
    return 0


def put_in(path: Path, rest: str) -> int:
    """Put lines in place of the first line that is as their first line says."""
    first, _, lines = rest.partition("\n")
    old = first.removeprefix("# instead of: ")
    written = path.read_text("utf-8").splitlines()
    assert old in written, f"{old!r} is not in {path.name}"
    at = written.index(old)
    written[at : at + 1] = lines.splitlines()
    path.write_text("\n".join(written) + "\n", "utf-8")
    return at + 1


def fits(expected: str, found: str) -> bool:
    """Whether a line is the one expected, anything standing for `…`."""
    pattern = ".*".join(re.escape(part) for part in expected.split("…"))
    return re.fullmatch(pattern, found) is not None


@pytest.mark.parametrize("name", NAMES)
def test_a_mistake_is_told_with_its_line_and_what_is_allowed(name: str, sequences: Path) -> None:
    school = sequences.parent / "school"
    school.mkdir()
    line = put(BROKEN / f"{name}.yaml", sequences, school)

    loaded = load(sequences, school if any(school.rglob("*.yaml")) else None)

    text = (BROKEN / f"{name}.expected").read_text("utf-8").replace("{line}", str(line))
    expected, found = text.splitlines(), [str(problem) for problem in loaded.problems]
    assert len(found) == len(expected) and all(map(fits, expected, found)), "\n".join(found)
    assert loaded.content is None


def test_there_are_pairs_and_no_halves() -> None:
    expected = {path.stem for path in BROKEN.glob("*.expected")}

    assert expected == set(NAMES)
    assert len(NAMES) >= 60
