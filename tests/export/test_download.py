"""A download: whole or not at all, never over another one, and nothing of people in it."""

from __future__ import annotations

import json
import re
import zipfile
from pathlib import Path

import pytest

from kiosk.core.events import Noted
from kiosk.core.model import Adult
from kiosk.export import DownloadFault, verify
from kiosk.export.folder import Folder, Written
from kiosk.store import ReadOnlyRecord
from tests.export.conftest import Take
from tests.recording import Playing, remount, small_card

FILES = {"events.jsonl", "events.csv", "week.xlsx", "report.html", "manifest.json"}


def test_it_holds_the_evidence_its_views_and_a_manifest(take: Take) -> None:
    folder = take()

    assert {p.name for p in folder.iterdir()} == FILES
    assert verify(folder).problems == ()


def test_each_line_is_the_stored_bytes_and_a_line_feed(take: Take, playing: Playing) -> None:
    folder = take()

    with ReadOnlyRecord(playing.record.path) as read:
        stored = b"".join(line.bytes + b"\n" for line in read.lines(1, read.head[0]))
    assert (folder / "events.jsonl").read_bytes() == stored


def test_the_manifest_names_every_file_and_both_ends_of_the_chain(
    take: Take, playing: Playing
) -> None:
    folder = take(5)

    said = json.loads((folder / "manifest.json").read_bytes())

    with ReadOnlyRecord(playing.record.path) as read:
        (fourth,) = read.lines(4, 4)
    assert {file["name"] for file in said["files"]} == FILES - {"manifest.json"}
    assert (said["first"], said["last"]) == (5, playing.record.head[0])
    assert (said["prev"], said["head"]) == (fourth.hash, playing.record.head[1])
    assert said["made"] == {
        "utc": "2026-05-03 09:20:00",
        "wall_us": 1_777_800_000_000_000,
        "clock": "synchronised",
    }


def test_its_name_says_log_and_lines_in_letters_any_stick_takes(
    take: Take, playing: Playing
) -> None:
    folder = take(2, 9)

    assert folder.name == f"PILLARSIDE-{playing.record.log[:8].upper()}-2-9"
    assert re.fullmatch(r"[A-Z0-9_-]{1,60}", folder.name)


def test_nothing_is_ever_written_over(take: Take, stick: Path) -> None:
    first = take()
    kept = {p.name: p.read_bytes() for p in first.iterdir()}

    second, third = take(), take()

    assert second.name == first.name + "-2"
    assert third.name == first.name + "-3"
    assert {p.name: p.read_bytes() for p in first.iterdir()} == kept


def test_progress_goes_up_to_the_last_line(take: Take, playing: Playing) -> None:
    told: list[tuple[int, int]] = []

    take(progress=lambda done, whole: told.append((done, whole)))

    whole = playing.record.head[0]
    assert told == sorted(told)
    assert told[-1] == (whole, whole)


def test_no_name_and_no_note_is_ever_in_it(take: Take, playing: Playing) -> None:
    record = playing.record
    record.keep_adult(Adult("a1", "Alex Invented", "technician"), "hash-of-a-pin")
    record.name_pupils({record.pupil_refs("year-9", (1,))[1]: "Sam Invented"})
    note, digest = record.keep_note("near_miss", "swarf", "The invented guard was up.")
    playing.happens(Noted("a1", note, "near_miss", "swarf", digest))

    folder = take()

    everything = b"".join(all_bytes(folder))
    assert digest.encode() in everything
    for secret in (b"Alex", b"Sam Invented", b"hash-of-a-pin", b"guard was up"):
        assert secret not in everything


def all_bytes(folder: Path) -> list[bytes]:
    with zipfile.ZipFile(folder / "week.xlsx") as book:
        inside = [book.read(name) for name in book.namelist()]
    return [*(p.read_bytes() for p in folder.iterdir()), *inside]


# --- what can go wrong --------------------------------------------------------------------------


def why(call) -> DownloadFault:  # type: ignore[no-untyped-def]
    with pytest.raises(DownloadFault) as fault:
        call()
    return fault.value


def test_a_folder_that_is_gone_is_said_and_not_made(take: Take, tmp_path: Path) -> None:
    fault = why(lambda: take(to=tmp_path / "pulled"))

    assert fault.why == "no_folder"
    assert str(tmp_path / "pulled") in str(fault)
    assert not (tmp_path / "pulled").exists()


def test_a_file_is_no_folder(take: Take, tmp_path: Path) -> None:
    (tmp_path / "letter.txt").write_text("")

    assert why(lambda: take(to=tmp_path / "letter.txt")).why == "not_folder"


def test_too_little_room_is_said_with_what_is_needed_before_anything_is_written(
    take: Take, tmp_path: Path
) -> None:
    with small_card(tmp_path / "small", "256k") as small:
        fault = why(lambda: take(to=small, size=1_000_000))

        assert fault.why == "full"
        assert "needs 3.5 MB, 0.3 MB are free" in str(fault)
        assert list(small.iterdir()) == []


@pytest.mark.parametrize("size", ["4k", "8k", "16k", "24k", "36k"])
def test_a_stick_that_fills_up_on_the_way_is_left_as_it_was(
    take: Take, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, size: str
) -> None:
    monkeypatch.setattr("kiosk.export.download.MARGIN", 0)
    with small_card(tmp_path / "small", size) as small:
        fault = why(lambda: take(to=small))

        assert fault.why == "full"
        assert list(small.iterdir()) == []


def test_a_stick_that_is_read_only_is_said(take: Take, tmp_path: Path) -> None:
    with small_card(tmp_path / "small", "8m") as small:
        remount(small, "ro")

        assert why(lambda: take(to=small)).why == "read_only"


def test_a_stick_pulled_out_on_the_way_is_said(take: Take, stick: Path) -> None:
    moved = stick.with_name("in another place")

    fault = why(lambda: take(progress=lambda done, whole: stick.exists() and stick.rename(moved)))

    assert fault.why == "gone"
    assert not stick.exists()
    assert list(moved.iterdir()) == []


def test_the_card_under_a_pulled_stick_is_not_taken_for_it(take: Take, stick: Path) -> None:
    """The mount point is still there, but it is another folder now."""
    moved = stick.with_name("in another place")

    def pull(done: int, whole: int) -> None:
        if not moved.exists():
            stick.rename(moved)
            stick.mkdir()

    fault = why(lambda: take(progress=pull))

    assert fault.why == "gone"
    assert list(stick.iterdir()) == []


def test_what_is_read_back_changed_is_no_success(take: Take, stick: Path) -> None:
    def spoil(folder: Folder, written: Written) -> None:
        path = folder.path / written.name
        path.write_bytes(path.read_bytes()[:-1] + b"?")
        real(folder, written)

    real = Folder.read_back
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(Folder, "read_back", spoil)
        fault = why(take)

    assert fault.why == "changed"
    assert list(stick.iterdir()) == []


@pytest.mark.parametrize("kind", ["changed", "missing", "short"])
def test_a_record_that_is_not_whole_is_not_taken_away(
    take: Take, playing: Playing, stick: Path, kind: str
) -> None:
    with ReadOnlyRecord(playing.record.path) as read:
        lines = list(read.lines(1, read.head[0]))
    spoilt = {
        "changed": [*lines[:3], lines[3]._replace(bytes=lines[3].bytes + b" "), *lines[4:]],
        "missing": [*lines[:3], *lines[4:]],
        "short": lines[:-1],
    }

    fault = why(lambda: take(lines=spoilt[kind]))

    assert fault.why == "damaged"
    assert list(stick.iterdir()) == []


@pytest.mark.parametrize("fails", [False, True])
def test_no_temporary_file_stays_behind(
    take: Take, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, fails: bool
) -> None:
    waiting = tmp_path / "waiting"
    waiting.mkdir()
    monkeypatch.setattr("tempfile.tempdir", str(waiting))

    why(lambda: take(lines=[])) if fails else take()

    assert list(waiting.iterdir()) == []


def test_a_file_has_its_name_only_when_it_is_whole(stick: Path) -> None:
    with Folder.open(stick) as folder, folder.writing("a.txt") as part:
        part.write(b"half")
        before = [p.name for p in stick.iterdir()]
        written = part.finish()
        folder.name_whole("a.txt")

    assert before == ["a.txt.part"]
    assert [p.name for p in stick.iterdir()] == ["a.txt"]
    assert written[:2] == ("a.txt", 4)
