"""The two commands as a technician types them: on a stick, and off it."""

from __future__ import annotations

import re
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from kiosk.cli.pack_update import pack_update_command
from kiosk.cli.update import update_command
from kiosk.core.units import Moment
from kiosk.updating.package import Fits, write_update
from kiosk.updating.versions import Versions
from tests.recording import lesson_at
from tests.updating.wheels import tiny


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A kiosk's record with a lesson in it."""
    path = tmp_path / "kiosk" / "record.sqlite"
    path.parent.mkdir()
    with lesson_at(path):
        pass
    return path


def run(*words: object) -> tuple[int, str]:
    done = CliRunner().invoke(update_command, [str(word) for word in words])
    return done.exit_code, done.output


def stick(tmp_path: Path, fits: Fits) -> Path:
    to = tmp_path / "stick"
    to.mkdir()
    wheel = tiny(tmp_path, "0.2.0")
    write_update(to, "0.2.0", fits, {wheel.name: wheel}, Moment("b", 1, 1_777_800_000_000_000, 2))
    return to


def test_an_update_says_each_step_and_how_to_go_on_and_leads_back(
    tmp_path: Path, record: Path
) -> None:
    code, said = run("--record", record, "--from", stick(tmp_path, Fits.here()))
    back, told = run("--record", record, "--back")

    assert (code, back) == (0, 0)
    assert said.splitlines()[0] == "version 0.2.0, put together on 2026-05-03"
    assert said.splitlines()[-1] == "Start the kiosk anew: sudo systemctl restart pillarside"
    assert told.splitlines()[0] == "Version 0.1.0 is started from now on."
    assert Versions(record.parent / "versions", Path(sys.prefix)).chosen().version == ""


def test_another_computers_update_is_refused_in_plain_words(tmp_path: Path, record: Path) -> None:
    code, said = run("--record", record, "--from", stick(tmp_path, Fits("3.99", "abacus")))

    assert code == 1
    assert "the update is for Python 3.99 on abacus; this computer has Python" in said
    assert not (record.parent / "backups").exists()


def test_a_folder_without_an_update_is_named(tmp_path: Path, record: Path) -> None:
    (tmp_path / "empty").mkdir()

    code, said = run("--record", record, "--from", tmp_path / "empty")

    assert code == 1
    assert f"there is no update in {tmp_path}/empty; make one with pack-update" in said


def test_there_is_no_way_back_from_what_was_installed(record: Path) -> None:
    code, said = run("--record", record, "--back")

    assert code == 1
    assert "which was installed here, runs already" in said


@pytest.mark.parametrize("python", ["3", "three", "3.11.2", "2.7"])
def test_a_python_that_is_none_is_refused_with_what_is_allowed(python: str) -> None:
    done = CliRunner().invoke(pack_update_command, ["--python", python, "--to", "/"])

    assert done.exit_code == 2
    assert "allowed: such as 3.11" in done.output


def test_a_processor_that_is_none_is_refused_with_those_that_are_allowed() -> None:
    done = CliRunner().invoke(pack_update_command, ["--processor", "arm9", "--to", "/"])

    assert done.exit_code == 2
    assert "'arm9'" in done.output
    assert "aarch64" in done.output and "x86_64" in done.output


def test_a_library_that_a_folder_lacks_is_named_with_python_and_processor(tmp_path: Path) -> None:
    (tmp_path / "wheels").mkdir()
    words = ["--python", "3.12", "--processor", "aarch64", "--to", str(tmp_path)]

    done = CliRunner().invoke(pack_update_command, [*words, "--wheels", str(tmp_path / "wheels")])

    assert done.exit_code == 1
    assert re.fullmatch(
        rf"Error: {tmp_path}/wheels has no wheel of [\w-]+ [\d.]+ for Python 3\.12 on aarch64;"
        r" .*\n",
        done.output,
    )
