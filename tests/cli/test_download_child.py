"""What a running kiosk starts as a process of its own, and its lines."""

from __future__ import annotations

import json
import signal
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from kiosk.export import verify
from kiosk.store import Record
from tests.recording import ROOT, small_card


def start(*words: object) -> subprocess.Popen[str]:
    command = [sys.executable, "-m", "kiosk.cli.child", *map(str, words)]
    return subprocess.Popen(
        command, cwd=ROOT, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
    )


def lines_of(child: subprocess.Popen[str]) -> list[dict[str, Any]]:
    out, _ = child.communicate(timeout=60)
    return [json.loads(line) for line in out.splitlines()]


def test_it_tells_its_progress_and_what_it_took(record: Path, stick: Path) -> None:
    kiosk = Record.open(record)

    child = start("download", "--record", record, "--to", stick, "--span", "week")
    *progress, last = lines_of(child)

    (folder,) = stick.iterdir()
    said = verify(folder).said
    assert child.returncode == 0
    assert progress[-1] == {"done": said["last"], "whole": said["last"]}
    assert last == {
        "first": said["first"],
        "last": said["last"],
        "head": said["head"],
        "folder": str(folder),
    }
    assert kiosk.head[0] == said["last"]  # its parent is the one who notes it
    kiosk.close()


def test_a_stick_that_is_gone_is_its_last_line(record: Path, tmp_path: Path) -> None:
    child = start("download", "--record", record, "--to", tmp_path / "gone", "--span", "week")

    (last,) = lines_of(child)

    assert (child.returncode, last["why"]) == (1, "gone")


def test_a_full_stick_is_its_last_line(record: Path, tmp_path: Path) -> None:
    with small_card(tmp_path / "small", "64k") as small:
        child = start("download", "--record", record, "--to", small, "--span", "week")

        last = lines_of(child)[-1]

        assert (child.returncode, last["why"]) == (1, "full")


@pytest.mark.parametrize("spoilt", ["missing", "not a record"])
def test_anything_else_is_said_to_have_failed(record: Path, stick: Path, spoilt: str) -> None:
    record.unlink()
    if spoilt != "missing":
        record.write_text(spoilt)

    child = start("download", "--record", record, "--to", stick, "--span", "week")
    (last,) = lines_of(child)

    assert (child.returncode, last["why"]) == (1, "failed")
    assert last["text"]


def test_told_to_stop_it_leaves_nothing_half_done(record: Path, stick: Path) -> None:
    child = start("download", "--record", record, "--to", stick, "--span", "week")
    assert child.stdout is not None
    child.stdout.readline()  # it has begun to write

    child.send_signal(signal.SIGTERM)
    child.communicate(timeout=60)

    left = [p for p in stick.rglob("*") if p.is_file()]
    assert left == [] or verify(next(stick.iterdir())).problems == ()
