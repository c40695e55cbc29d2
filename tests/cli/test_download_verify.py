"""`pillarside verify`, the group of commands, and what they share."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from kiosk.cli.asking import LONGEST_ADDRESS, ask, socket_path
from kiosk.cli.options import default_record
from kiosk.runtime.settings import default_record as of_the_kiosk
from tests.cli.conftest import Listening, Run
from tests.recording import ROOT


@pytest.fixture
def taken(run: Run, record: Path, stick: Path) -> Path:
    """A download."""
    assert run("download", "--all", "--to", stick, "--record", record).exit_code == 0
    (folder,) = stick.iterdir()
    return folder


def test_a_whole_download_is_one_line_and_0(run: Run, taken: Path) -> None:
    done = run("verify", taken)

    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.startswith(f"{taken}: whole and unchanged: ")
    assert done.stdout.count("\n") == 1


def test_one_changed_byte_is_1_and_names_the_event(run: Run, taken: Path) -> None:
    path = taken / "events.jsonl"
    path.write_bytes(
        path.read_bytes().replace(b'"trouble":"bit_broken"', b'"trouble":"bit_brokem"')
    )

    done = run("verify", taken)

    assert (done.exit_code, done.stdout) == (1, "")
    assert "(trouble_named) is not what was recorded" in done.stderr


def test_a_folder_that_is_none_is_1_and_one_line(run: Run, tmp_path: Path) -> None:
    done = run("verify", tmp_path / "nowhere")

    assert done.exit_code == 1
    assert "nowhere/manifest.json: No such file or directory" in done.stderr
    assert done.stderr.count("\n") == 1


def test_no_folder_named_is_2(run: Run) -> None:
    assert run("verify").exit_code == 2


def test_a_mistyped_command_is_2(run: Run) -> None:
    done = run("donwload")

    assert done.exit_code == 2
    assert "No such command 'donwload'" in done.stderr


def test_help_lists_the_commands_without_importing_them() -> None:
    code = (
        "import sys\n"
        "from kiosk.cli import group\n"
        "group(['--help'], standalone_mode=False)\n"
        "print([m for m in ('sqlalchemy', 'xlsxwriter', 'kivy', 'serial') if m in sys.modules])"
    )

    words = [sys.executable, "-c", code]
    done = subprocess.run(words, cwd=ROOT, capture_output=True, text=True, check=True)

    assert "verify" in done.stdout
    assert done.stdout.endswith("[]\n")


def test_the_commands_and_the_kiosk_look_for_the_same_record(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    usual = default_record(), of_the_kiosk()

    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))

    assert usual[0] == usual[1]
    assert default_record() == of_the_kiosk() == tmp_path / "pillarside" / "record.sqlite"


def test_nobody_listening_is_no_answer(tmp_path: Path) -> None:
    assert ask(tmp_path / "record.sqlite", {"do": "ping"}) is None


def test_a_socket_in_a_folder_with_a_long_name_is_reached_too(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    folder = tmp_path / ("a-long-name-" * 10)
    folder.mkdir()
    record = folder / "record.sqlite"
    monkeypatch.chdir(folder)
    with Listening(Path("record.sqlite.sock"), b'{"ok": true}\n') as far:
        answer = ask(record, {"do": "ping"})

    assert len(str(socket_path(record))) > LONGEST_ADDRESS
    assert answer == {"ok": True}
    assert far.asked == [{"do": "ping"}]


def test_an_answer_cut_short_is_an_error_not_an_answer(tmp_path: Path) -> None:
    cut = Listening(tmp_path / "record.sqlite.sock", b'{"ok": tr')

    with cut, pytest.raises(ConnectionError, match="ended before it had answered"):
        ask(tmp_path / "record.sqlite", {"do": "ping"})
