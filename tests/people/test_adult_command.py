"""`pillarside adult`, against a real record and against a socket that answers as a kiosk does."""

from __future__ import annotations

import json
import re
import socket
import threading
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from kiosk.cli.adult import adult_command
from kiosk.core.events import AdultAdded, AdultRevoked, CodesIssued, Event, PinIssued
from kiosk.people import pepper_for, pepper_path, pin_is_right
from kiosk.store import Record


@pytest.fixture
def record(tmp_path: Path) -> Path:
    """A new record that no kiosk holds."""
    path = tmp_path / "drill.sqlite"
    Record.open(path).close()
    return path


def run(record: Path, *words: str) -> Result:
    """What the command prints and how it ends."""
    return CliRunner().invoke(adult_command, [*words, "--record", str(record)])


def issue(record: Path, name: str, role: str) -> str:
    """Issue a PIN and read it off what is printed."""
    done = run(record, "issue", "--name", name, "--role", role)
    assert done.exit_code == 0, done.output
    return pin_in(done.output)


def pin_in(printed: str) -> str:
    """The PIN on the card, which shows it in two threes."""
    found = re.search(r"PIN\s+(\d{3}) (\d{3})\n", printed)
    assert found, printed
    return found[1] + found[2]


def events_of(record: Path) -> list[Event]:
    """Every event of a closed record."""
    opened = Record.open(record)
    try:
        return [entry.event for entry in opened.entries()]
    finally:
        opened.close()


@contextmanager
def answering(record: Path, answer: dict[str, Any]) -> Iterator[list[dict[str, Any]]]:
    """A socket beside the record that gives one answer; yields the requests that came."""
    came: list[dict[str, Any]] = []
    with socket.socket(socket.AF_UNIX) as server:
        server.bind(f"{record}.sock")
        server.listen()

        def serve() -> None:
            caller, _ = server.accept()
            with caller, caller.makefile("rwb") as lines:
                came.append(json.loads(lines.readline()))
                lines.write(json.dumps(answer).encode() + b"\n")

        thread = threading.Thread(target=serve)
        thread.start()
        yield came
        thread.join(10)


def test_an_issued_pin_is_printed_once_and_only_its_hash_is_kept(record: Path) -> None:
    pin = issue(record, "Ms Ash", "technician")

    opened = Record.open(record)
    (ash,) = opened.adults()
    kept = opened.pin_hash(ash.ref)
    opened.close()
    assert pin_is_right(kept, pin, pepper_for(record))
    assert (ash.name, ash.role) == ("Ms Ash", "technician")
    files = [path.read_bytes() for path in record.parent.iterdir() if path.is_file()]
    assert not any(pin.encode() in raw for raw in files)


def test_issuing_is_recorded_by_reference_and_never_by_name(record: Path) -> None:
    issue(record, "Ms Ash", "technician")

    added, issued, codes = events_of(record)
    assert isinstance(added, AdultAdded) and isinstance(issued, PinIssued)
    assert codes == CodesIssued(added.adult, 5, "command")
    assert (added.adult, added.role, added.by) == (issued.adult, "technician", "command")
    assert "Ash" not in repr((added, issued))


def test_a_second_pin_for_the_same_adult_replaces_the_first(record: Path) -> None:
    first = issue(record, "Ms Ash", "technician")
    second = issue(record, "ms ash", "technician")

    opened = Record.open(record)
    (ash,) = opened.adults()
    kept = opened.pin_hash(ash.ref)
    opened.close()
    assert not pin_is_right(kept, first, pepper_for(record))
    assert pin_is_right(kept, second, pepper_for(record))
    assert [type(event) for event in events_of(record)] == [
        *(AdultAdded, PinIssued, CodesIssued),
        *(PinIssued, CodesIssued),
    ]


def test_the_list_names_who_can_use_the_kiosk(record: Path) -> None:
    issue(record, "Ms Ash", "technician")
    issue(record, "Mr Elm", "teacher")

    done = run(record, "list")

    assert done.output == ("teacher     Mr Elm, 5 spare codes\ntechnician  Ms Ash, 5 spare codes\n")


def test_an_empty_list_says_what_to_do(record: Path) -> None:
    assert "first start of the kiosk" in run(record, "list").output


def test_revoking_erases_the_hash_and_keeps_the_name_for_the_record(record: Path) -> None:
    issue(record, "Ms Ash", "technician")
    issue(record, "Mr Elm", "teacher")

    run(record, "revoke", "Mr Elm")

    opened = Record.open(record)
    hashes = {adult.name: opened.pin_hash(adult.ref) for adult in opened.adults()}
    opened.close()
    assert hashes["Mr Elm"] == ""
    assert hashes["Ms Ash"]


def test_a_revoked_adult_is_off_the_list_and_may_come_back(record: Path) -> None:
    issue(record, "Ms Ash", "technician")
    issue(record, "Mr Elm", "teacher")

    done = run(record, "revoke", "mr elm")

    assert done.output == "Mr Elm can no longer use the kiosk.\n"
    assert run(record, "list").output == "technician  Ms Ash, 5 spare codes\n"
    assert isinstance(events_of(record)[-1], AdultRevoked)
    issue(record, "Mr Elm", "technician")
    assert "technician  Mr Elm" in run(record, "list").output


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("revoke", "Ms Ash"), "Error: Ms Ash is the only technician; issue another one first\n"),
        (("revoke", "Ms Asch"), "no adult named 'Ms Asch'; known: Ms Ash; did you mean 'Ms Ash'?"),
        (
            ("issue", "--name", "Ms Ash", "--role", "teacher"),
            "Ms Ash is a technician; revoke first",
        ),
        (("issue", "--name", " ", "--role", "teacher"), "allowed: 1 to 40 letters"),
    ],
)
def test_what_can_not_be_done_is_one_line_and_changes_nothing(
    record: Path, words: tuple[str, ...], said: str
) -> None:
    issue(record, "Ms Ash", "technician")
    before = events_of(record)

    done = run(record, *words)

    assert done.exit_code == 1
    assert said in done.output
    assert done.output.count("\n") == 1
    assert events_of(record) == before


def test_a_path_with_no_record_is_refused_and_none_is_made(tmp_path: Path) -> None:
    done = run(tmp_path / "other.sqlite", "issue", "--name", "Ms Ash", "--role", "teacher")

    assert done.exit_code == 1
    assert "no record here" in done.output
    assert list(tmp_path.iterdir()) == []


def test_a_lost_pepper_is_said_when_the_next_pin_is_issued(record: Path) -> None:
    issue(record, "Ms Ash", "technician")
    pepper_path(record).unlink()

    done = run(record, "issue", "--name", "Mr Elm", "--role", "teacher")

    assert done.exit_code == 0
    assert "PINs issued before no longer work" in done.output


def test_a_running_kiosk_is_asked_and_the_record_left_alone(record: Path) -> None:
    answer = {"ok": True, "name": "Ms Ash", "pin": "304871"}

    with answering(record, answer) as came:
        done = run(record, "issue", "--name", "Ms Ash", "--role", "teacher")

    assert pin_in(done.output) == "304871"
    assert came == [{"do": "adult_issue", "name": "Ms Ash", "role": "teacher"}]
    assert events_of(record) == []


def test_a_refusal_of_the_running_kiosk_is_said(record: Path) -> None:
    with answering(record, {"ok": False, "why": "Ms Ash is the only technician"}):
        done = run(record, "revoke", "Ms Ash")

    assert done.exit_code == 1
    assert done.output == "Error: Ms Ash is the only technician\n"
