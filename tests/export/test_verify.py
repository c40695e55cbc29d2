"""Proving a download: every change is found, and one in the events is named."""

from __future__ import annotations

import json
import shutil
from hashlib import sha256
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from kiosk.core.events import KioskStarted, StepDone
from kiosk.export import verify
from kiosk.store import ReadOnlyRecord, Record
from tests.export.conftest import Take
from tests.recording import Playing

shared_folder = settings(
    max_examples=150,
    suppress_health_check=[HealthCheck.function_scoped_fixture, HealthCheck.too_slow],
    deadline=None,
)


def told(folder: Path, previous: Path | None = None) -> str:
    return "\n".join(map(str, verify(folder, previous).problems))


def test_a_whole_download_is_said_in_one_line(take: Take, playing: Playing) -> None:
    verdict = verify(take())

    assert verdict.problems == ()
    assert str(verdict) == (
        f"whole and unchanged: {playing.record.head[0]} events, 1 to {playing.record.head[0]} "
        f"of record {playing.record.log[:8]}, head {playing.record.head[1][:16]}"
    )


def test_a_download_of_one_event_says_one_event(take: Take) -> None:
    assert str(verify(take(4, 4))).startswith("whole and unchanged: 1 event, 4, of record ")


@shared_folder
@given(where=st.integers(0, 10**9), change=st.integers(1, 255))
def test_one_changed_byte_anywhere_in_the_events_names_the_event(
    take: Take, tmp_path: Path, where: int, change: int
) -> None:
    folder = tmp_path / "taken"
    if not folder.exists():
        take().rename(folder)
    good = (folder / "events.jsonl").read_bytes()
    at = where % len(good)
    number = good[:at].count(b"\n") + 1
    kind = json.loads(good.split(b"\n")[number - 1])["kind"]
    spoilt = bytearray(good)
    spoilt[at] ^= change

    try:
        (folder / "events.jsonl").write_bytes(bytes(spoilt))
        problems = verify(folder).problems
    finally:
        (folder / "events.jsonl").write_bytes(good)

    first = str(problems[0])
    assert f"events.jsonl:{number}: event {number} (" in first
    in_kind = good[:at].endswith(b'"kind":"') or b'"kind":"' in good[max(0, at - 40) : at + 8]
    assert f"({kind})" in first or in_kind or change_splits_the_line(spoilt, at)
    assert any("changed since it was written" in str(p) for p in problems)


def change_splits_the_line(spoilt: bytearray, at: int) -> bool:
    """A line feed put into a line can part it from its kind."""
    return spoilt[at] == ord("\n")


@pytest.mark.parametrize("field", ["step", "us", "prev", "kind"])
def test_a_change_that_is_still_good_json_is_named_all_the_same(take: Take, field: str) -> None:
    folder = take()
    lines = (folder / "events.jsonl").read_bytes().splitlines()
    event = json.loads(lines[7])
    changed = {
        "step": {**event, "body": {**event["body"], "step": "another"}},
        "us": {**event, "us": event["us"] + 1},
        "prev": {**event, "prev": "f" * 64},
        "kind": {**event, "kind": "stepped_back"},
    }[field]
    lines[7] = json.dumps(changed, sort_keys=True, separators=(",", ":")).encode()
    (folder / "events.jsonl").write_bytes(b"\n".join(lines) + b"\n")

    first = str(verify(folder).problems[0])

    assert f"event 8 ({changed['kind']}) is not what was recorded" in first


@pytest.mark.parametrize("number", [1, -1])
def test_a_change_in_the_first_or_last_event_is_named(take: Take, number: int) -> None:
    folder = take()
    lines = (folder / "events.jsonl").read_bytes().splitlines()
    at = number - 1 if number > 0 else number
    event = json.loads(lines[at])
    lines[at] = json.dumps(
        {**event, "us": event["us"] + 1}, sort_keys=True, separators=(",", ":")
    ).encode()
    (folder / "events.jsonl").write_bytes(b"\n".join(lines) + b"\n")

    first = str(verify(folder).problems[0])

    assert f"event {event['seq']} ({event['kind']}) is not what was recorded" in first


def test_a_line_that_is_not_canonical_is_found_even_where_every_hash_fits(
    take: Take, playing: Playing
) -> None:
    with ReadOnlyRecord(playing.record.path) as read:
        (first,) = read.lines(1, 1)
    data = first.bytes.replace(b'"seq":1', b'"seq": 1')
    forged = first._replace(bytes=data, hash=sha256(data).hexdigest())

    folder = take(1, 1, lines=[forged], head=forged.hash)

    assert "event 1 (kiosk_started) is not what was recorded: not in canonical" in told(folder)


def test_a_line_taken_out_is_named(take: Take) -> None:
    folder = take()
    lines = (folder / "events.jsonl").read_bytes().splitlines(keepends=True)
    (folder / "events.jsonl").write_bytes(b"".join((*lines[:4], *lines[5:])))

    assert "event 5 (" in told(folder)
    assert "numbered 6" in told(folder)


def test_the_last_lines_taken_off_are_told(take: Take, playing: Playing) -> None:
    folder = take()
    lines = (folder / "events.jsonl").read_bytes().splitlines(keepends=True)
    (folder / "events.jsonl").write_bytes(b"".join(lines[:-2]))

    last = playing.record.head[0]
    assert f"ends with event {last - 2}; allowed: up to event {last}" in told(folder)


@pytest.mark.parametrize("name", ["events.csv", "week.xlsx", "report.html"])
def test_a_change_in_a_view_is_found(take: Take, name: str) -> None:
    folder = take()
    data = bytearray((folder / name).read_bytes())
    data[len(data) // 2] ^= 1
    (folder / name).write_bytes(bytes(data))

    assert told(folder) == f"{folder / name}: changed since it was written"


@pytest.mark.parametrize("name", ["events.jsonl", "events.csv"])
def test_a_missing_file_is_found(take: Take, name: str) -> None:
    folder = take()
    (folder / name).unlink()

    assert f"{folder / name}: missing" in told(folder)


@pytest.mark.parametrize(
    ("found", "put"),
    [
        (b'"span": "week"', b'"span": "term"'),
        (b'"clock": "synchronised"', b'"clock": "not set"'),
        (b'"schema": "0001"', b'"schema": 1'),
        (b'"format": 1', b'"format": 9'),
        (b"{", b"{{"),
    ],
)
def test_a_changed_manifest_is_found(take: Take, found: bytes, put: bytes) -> None:
    folder = take()
    path = folder / "manifest.json"
    path.write_bytes(path.read_bytes().replace(found, put, 1))

    assert told(folder).startswith(f"{path}: ")


def test_a_folder_without_a_manifest_is_no_download_and_says_where_one_is(
    take: Take, stick: Path
) -> None:
    folder = take()

    assert f"name one of the downloads in it: {folder.name}" in told(stick)


def test_a_file_that_does_not_belong_is_told_but_not_what_other_systems_hide(take: Take) -> None:
    folder = take()
    (folder / ".hidden").write_text("")
    whole = told(folder)
    (folder / "events.jsonl.part").write_text("")

    assert whole == ""
    assert "events.jsonl.part: not part of the download" in told(folder)


# --- carrying on the last one -------------------------------------------------------------------


@pytest.mark.parametrize("first", [1, 5, 11])
def test_a_download_carries_on_the_previous_one(take: Take, first: int) -> None:
    previous = take(1, 10)

    assert told(take(first), previous) == ""


def test_a_gap_between_two_downloads_is_named(take: Take) -> None:
    previous = take(1, 10)

    assert "events 11 to 12 are in neither" in told(take(13), previous)
    assert "event 11 is in neither" in told(take(12), previous)


def test_a_download_that_ends_before_the_previous_one_does_not_carry_it_on(take: Take) -> None:
    previous = take(1, 10)

    assert "ends at event 8" in told(take(1, 8), previous)


def test_another_record_does_not_carry_it_on(take: Take, playing: Playing, tmp_path: Path) -> None:
    previous = take()
    playing.record.close()
    other = Playing(Record.open(tmp_path / "other.sqlite"))
    other.happens(KioskStarted("drill-1", "0.1.0", "first"))
    playing.record = other.record

    assert f"from record {other.record.log[:8]}" in told(take(), previous)
    other.record.close()


def test_a_fork_of_the_same_record_does_not_carry_it_on(take: Take, playing: Playing) -> None:
    """The card was copied, and both went on: same log, same numbers, other lines."""
    record, copy = playing.record.path, playing.record.path.with_name("copy.sqlite")
    playing.record.close()
    shutil.copy(record, copy)
    one = Playing(Record.open(record))
    one.happens(StepDone("eyes", "pupil"), StepDone("hair", "pupil"))
    playing.record = one.record
    previous = take()
    one.record.close()
    other = Playing(Record.open(copy))
    other.happens(*[StepDone("clothes", "pupil")] * 3)
    playing.record = other.record

    found = told(take(), previous)

    assert f"event {one.record.head[0]} is not the one in the previous download" in found
    other.record.close()


def test_a_record_begun_anew_carries_on_from_the_very_end_it_points_at(
    take: Take, playing: Playing
) -> None:
    path = playing.record.path
    previous, short = take(), take(1, 10)
    playing.record.close()
    data = path.read_bytes()
    path.write_bytes(data.replace(b'"quality":2', b'"quality":1'))
    playing.record = Record.open(path)

    renewed = take()

    assert told(renewed, previous) == ""
    assert "from record" in told(renewed, short)
    playing.record.close()
