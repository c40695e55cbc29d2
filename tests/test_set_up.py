"""The two commands that set everything up say clearly what they can't do."""

from __future__ import annotations

import os
import shutil
import subprocess
from pathlib import Path

import pytest

TOOLS = ("cat", "grep", "printf", "sh", "ldconfig")


def shell(root: Path, words: list[str], **environment: str) -> subprocess.CompletedProcess[str]:
    """Run `sh` from the root with nothing to read and a bare environment."""
    bare = {"PATH": os.environ["PATH"], "HOME": os.environ.get("HOME", "/"), **environment}
    return subprocess.run(
        ["sh", *words],
        cwd=root,
        env=bare,
        stdin=subprocess.DEVNULL,
        capture_output=True,
        text=True,
        check=False,
    )


@pytest.fixture
def bare_path(tmp_path: Path) -> str:
    """A PATH with an apt-get and a few tools, no Xvfb, and a user who is not root."""
    (tmp_path / "id").write_text("#!/bin/sh\necho 1000\n")
    (tmp_path / "apt-get").write_text("#!/bin/sh\necho apt-get was run; exit 9\n")
    for name in ("id", "apt-get"):
        (tmp_path / name).chmod(0o755)
    for tool in TOOLS:
        found = shutil.which(tool, path="/usr/bin:/bin:/sbin:/usr/sbin")
        if found:
            (tmp_path / tool).symlink_to(found)
    return str(tmp_path)


def test_the_demo_without_a_display_points_at_the_tour(root: Path) -> None:
    done = shell(root, ["demo/run.sh"])

    assert done.returncode == 1
    assert "no display" in done.stderr
    assert "sh demo/run.sh --tour DIR" in done.stderr


def test_the_tour_wants_a_folder(root: Path) -> None:
    done = shell(root, ["demo/run.sh", "--tour"])

    assert done.returncode == 1
    assert done.stderr == "Say where the tour's pictures go: sh demo/run.sh --tour DIR\n"


def test_the_demo_tells_its_two_forms(root: Path) -> None:
    done = shell(root, ["demo/run.sh", "--help"])

    assert done.returncode == 0
    assert done.stdout.count("sh demo/run.sh") == 2
    assert "--language en, cy, pl or uk" in done.stdout
    assert "--panel 7inch or 10inch" in done.stdout


def test_without_root_the_one_line_to_run_is_printed_and_nothing_installed(
    root: Path, bare_path: str
) -> None:
    done = shell(root, ["-c", ". tests/set-up.sh; install_packages"], PATH=bare_path)

    assert done.returncode == 1
    line = "  sudo apt-get update && sudo apt-get install -y --no-install-recommends python3"
    assert line in done.stderr
    assert " xvfb xdotool" in done.stderr
    assert "apt-get was run" not in done.stdout


def test_without_a_fitting_python_the_versions_are_said(root: Path) -> None:
    done = shell(root, ["-c", ". tests/set-up.sh; make_environment"], PYTHON="false")

    assert done.returncode == 1
    assert "No Python from 3.11 to 3.13" in done.stderr


def test_what_a_start_reads_is_compiled_whoever_may_write_later(root: Path, tmp_path: Path) -> None:
    rooms = [tmp_path / name for name in ("kiosk", "hardware", "demo")]
    for room in rooms:
        room.mkdir()
        (room / "part.py").write_text("whole = True\n", "utf-8")
    (tmp_path / ".venv").symlink_to(root / ".venv")
    words = ["-c", f". {root}/tests/set-up.sh; compile_sources"]

    done = shell(tmp_path, words, PYTHONDONTWRITEBYTECODE="1")

    assert (done.returncode, done.stderr) == (0, "")
    assert all(list(room.glob("__pycache__/part.*.pyc")) for room in rooms)


@pytest.mark.parametrize("file", ["tests/set-up.sh", "tests/run.sh", "demo/run.sh", ".ci/run"])
def test_every_script_can_be_read_by_a_plain_shell(root: Path, file: str) -> None:
    assert shell(root, ["-n", file]).returncode == 0
