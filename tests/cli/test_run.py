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


@pytest.mark.parametrize(
    ("unseen", "told"),
    [
        (
            {"SDL_VIDEODRIVER": "dummy"},
            "SDL_VIDEODRIVER is dummy: nobody would see the kiosk; use x11",
        ),
        (
            {"DISPLAY": ":4321"},
            "no display: DISPLAY is :4321 and no X runs there; start it under X",
        ),
    ],
)
def test_where_nobody_could_see_it_one_line_alone_says_so(
    tmp_path: Path, unseen: dict[str, str], told: str
) -> None:
    kept = {k: v for k, v in os.environ.items() if k not in ("DISPLAY", "SDL_VIDEODRIVER")}
    words = [sys.executable, "-m", "kiosk.main", "run", "--record", str(tmp_path / "r.sqlite")]

    done = subprocess.run(
        words, cwd=TREE, env={**kept, **unseen}, capture_output=True, text=True, check=False
    )

    assert (done.returncode, done.stdout, done.stderr) == (1, "", f"Error: {told}\n")


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
