"""`pillarside run` where it can't begin: one line that says why, and an exit code that is not 0."""

from __future__ import annotations

import os
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from kiosk.main import run_command
from kiosk.runtime.settings import TREE


def test_where_nobody_could_see_it_one_line_says_so(tmp_path: Path) -> None:
    unseen = {k: v for k, v in os.environ.items() if k != "DISPLAY"}
    words = [sys.executable, "-m", "kiosk.main", "run", "--record", str(tmp_path / "r.sqlite")]

    done = subprocess.run(
        words,
        cwd=TREE,
        env={**unseen, "SDL_VIDEODRIVER": "dummy"},
        capture_output=True,
        text=True,
        check=False,
    )

    told = "Error: SDL_VIDEODRIVER is dummy: nobody would see the kiosk; use x11\n"
    assert (done.returncode, done.stdout, done.stderr) == (1, "", told)


@pytest.mark.parametrize(
    ("option", "value", "told"),
    [
        ("--port", "ttyUSB0", "ttyUSB0 is no path; allowed: such as /dev/serial/by-id/"),
        ("--download-to", "/nope", "/nope is not there; allowed: a folder, or one on a stick"),
    ],
)
def test_an_option_that_can_not_be_is_refused_by_its_name(
    option: str, value: str, told: str
) -> None:
    done = CliRunner().invoke(run_command, [option, value])

    assert done.exit_code == 2
    assert f"'{option}': {told}" in done.output


def test_help_says_that_a_workbook_is_a_roster_too() -> None:
    assert "a workbook or a CSV file" in CliRunner().invoke(run_command, ["--help"]).output
