"""`pillarside download`, with the kiosk running and without it."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest

from kiosk.core.events import Downloaded
from kiosk.export import verify
from kiosk.store import Record
from tests.cli.conftest import Listening, Run
from tests.recording import Playing, remount, small_card

Listen = Callable[[bytes], Listening]


def folder_in(stick: Path) -> Path:
    (found,) = stick.iterdir()
    return found


def last_event(record: Path) -> tuple[int, object]:
    opened = Record.open(record)
    entry = list(opened.entries())[-1]
    opened.close()
    return entry.seq, entry.event


def test_without_a_kiosk_it_downloads_and_notes_it_in_the_record(
    run: Run, record: Path, stick: Path
) -> None:
    done = run("download", "--week", "--to", stick, "--record", record)

    folder = folder_in(stick)
    verdict = verify(folder)
    seq, event = last_event(record)
    assert (done.exit_code, done.stderr) == (0, "")
    assert done.stdout.endswith(f"{folder}\n")
    assert verdict.problems == ()
    assert event == Downloaded("week", 1, seq - 1, verdict.said["head"])


def test_beside_a_running_kiosk_it_downloads_and_tells_it(
    run: Run, record: Path, stick: Path, listening: Listen
) -> None:
    kiosk = Record.open(record)
    far = listening(b'{"ok": true}\n')

    done = run("download", "--all", "--to", stick, "--record", record)

    said = verify(folder_in(stick)).said
    told = {"do": "downloaded", "span": "all", "first": 1, "last": said["last"]}
    assert (done.exit_code, done.stderr) == (0, "")
    assert far.asked == [{**told, "head": said["head"]}]
    assert kiosk.head[0] == said["last"]
    kiosk.close()


def test_since_last_carries_on_where_the_last_one_ended(
    run: Run, record: Path, stick: Path
) -> None:
    run("download", "--week", "--to", stick, "--record", record)
    first = folder_in(stick)
    opened = Record.open(record)
    Playing(opened).happens(Downloaded("term", 1, 3, "h"), Downloaded("term", 1, 3, "h"))
    opened.close()

    run("download", "--since-last", "--to", stick, "--record", record)

    (second,) = set(stick.iterdir()) - {first}
    assert verify(second).said["first"] == 4
    assert run("verify", second, "--previous", first).exit_code == 0


@pytest.mark.parametrize(
    "answer", [b'{"ok": false, "why": "not now"}\n', b"{}\n", b"nothing to read\n", b""]
)
def test_a_kiosk_that_does_not_take_the_note_leaves_the_download_whole(
    run: Run, record: Path, stick: Path, listening: Listen, answer: bytes
) -> None:
    listening(answer)

    done = run("download", "--week", "--to", stick, "--record", record)

    assert done.exit_code == 0
    assert "The download is whole, but the record could not note it" in done.stderr
    assert verify(folder_in(stick)).problems == ()


def test_a_socket_left_behind_by_a_cut_kiosk_is_no_kiosk(
    run: Run, record: Path, stick: Path, listening: Listen
) -> None:
    listening(b"").stop()

    done = run("download", "--week", "--to", stick, "--record", record)

    assert (done.exit_code, done.stderr) == (0, "")
    assert isinstance(last_event(record)[1], Downloaded)


def test_a_record_from_a_read_only_card_is_downloaded_though_not_noted(
    run: Run, record: Path, stick: Path, tmp_path: Path
) -> None:
    with small_card(tmp_path / "card", "4m") as card:
        (card / "record.sqlite").write_bytes(record.read_bytes())
        remount(card, "ro")

        done = run("download", "--week", "--to", stick, "--record", card / "record.sqlite")

        assert done.exit_code == 0
        assert "can't be written to" in done.stderr
        assert verify(folder_in(stick)).problems == ()


@pytest.mark.parametrize("spans", [(), ("--week", "--all")])
def test_exactly_one_span_is_asked_for(
    run: Run, record: Path, stick: Path, spans: tuple[str, ...]
) -> None:
    done = run("download", *spans, "--to", stick, "--record", record)

    assert done.exit_code == 2
    assert "give one of --week, --term, --since-last, --all" in done.stderr


def test_a_folder_that_is_not_there_is_one_clear_line(
    run: Run, record: Path, tmp_path: Path
) -> None:
    done = run("download", "--week", "--to", tmp_path / "away", "--record", record)

    assert done.exit_code == 1
    assert re.fullmatch(
        r"Error: .*/away: there is no such folder; make it first, or name one that is there\n",
        done.stderr,
    )


@pytest.mark.parametrize("mount", ["/media/nobody/STICK", "/mnt/stick", "/run/media/nobody/STICK"])
def test_where_sticks_are_mounted_it_is_the_stick_that_is_not_there(
    run: Run, record: Path, mount: str
) -> None:
    done = run("download", "--week", "--to", mount, "--record", record)

    assert done.exit_code == 1
    assert done.stderr.startswith(f"Error: {mount}: the folder is not there; put the stick in")


def test_a_record_that_is_not_there_is_one_clear_line(
    run: Run, tmp_path: Path, stick: Path
) -> None:
    done = run("download", "--week", "--to", stick, "--record", tmp_path / "none.sqlite")

    assert done.exit_code == 1
    assert "none.sqlite: no record here; name the kiosk's record with --record FILE" in done.stderr
    assert list(stick.iterdir()) == []


def test_an_empty_record_has_nothing_to_take_away(run: Run, tmp_path: Path, stick: Path) -> None:
    Record.open(tmp_path / "new.sqlite").close()

    done = run("download", "--all", "--to", stick, "--record", tmp_path / "new.sqlite")

    assert done.exit_code == 1
    assert "there are no events to take away" in done.stderr


def test_a_file_that_is_no_record_is_left_as_it_is(run: Run, tmp_path: Path, stick: Path) -> None:
    (tmp_path / "letter").write_text("a letter")

    done = run("download", "--all", "--to", stick, "--record", tmp_path / "letter")

    assert done.exit_code == 1
    assert (tmp_path / "letter").read_text() == "a letter"
