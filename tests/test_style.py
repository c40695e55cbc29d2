"""Lint, form and strict types, and that the lock file holds what the project asks for."""

from __future__ import annotations

import re
import subprocess
import sys
import tomllib
from pathlib import Path

import pytest

PROJECT = tomllib.loads((Path(__file__).parents[1] / "pyproject.toml").read_text("utf-8"))
LOCK = (Path(__file__).parents[1] / "requirements.lock").read_text("utf-8")


@pytest.mark.parametrize(
    "command",
    [
        ["ruff", "check", "--quiet", "."],
        ["ruff", "format", "--check", "--quiet", "."],
        ["mypy", "--no-error-summary"],
    ],
    ids=lambda command: " ".join(command[:2]),
)
def test_the_source_passes(command: list[str], root: Path) -> None:
    done = subprocess.run(
        [sys.executable, "-m", *command], cwd=root, capture_output=True, text=True, check=False
    )

    assert done.returncode == 0, f"{' '.join(command)}\n{done.stdout}{done.stderr}"


def test_the_core_is_typed_strictly() -> None:
    assert PROJECT["tool"]["mypy"]["strict"] is True
    assert PROJECT["tool"]["mypy"]["files"] == ["kiosk/core"]


def plain(name: str) -> str:
    """A distribution's name as PyPA's name normalisation writes it."""
    return re.sub(r"[-_.]+", "-", name).lower()


def asked_for() -> set[str]:
    """The names of every library in pyproject.toml."""
    extras = PROJECT["project"]["optional-dependencies"].values()
    lines = [*PROJECT["project"]["dependencies"], *(line for extra in extras for line in extra)]
    return {plain(re.split(r"[\s<>=!~;\[]", line)[0]) for line in lines}


def test_the_lock_file_holds_every_library_asked_for() -> None:
    locked = {plain(name) for name in re.findall(r"(?m)^([\w.-]+)==", LOCK)}

    assert asked_for() <= locked, f"missing: {asked_for() - locked}; make the lock file anew"


def test_every_locked_library_has_hashes_and_no_place_of_its_own() -> None:
    entries = re.split(r"(?m)^(?=[\w.-]+==)", LOCK)[1:]

    assert all("--hash=sha256:" in entry for entry in entries)
    assert "://" not in LOCK
    assert "index" not in re.sub(r"(?m)^\s*#.*", "", LOCK)
