"""`pillarside erase`, and what the running kiosk takes away by itself."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.cli.tidying import to_tidy
from kiosk.content import load
from kiosk.content.retention import load_retention
from kiosk.core.events import AdultAdded, AdultRevoked, Erased, KioskStarted, LevelSet, Noted
from kiosk.core.model import Adult
from kiosk.core.units import Moment
from kiosk.runtime.settings import TREE, Settings
from kiosk.runtime.start import start
from kiosk.store import Record
from tests.cli.conftest import Run
from tests.recording import DAY_US, Playing

PEOPLE = (
    AdultAdded("a1", "technician", "command"),
    AdultAdded("a2", "teacher", "command"),
    LevelSet("p1", "shown", "roster"),
)


@pytest.fixture
def known(tmp_path: Path) -> tuple[Path, str, str]:
    """A record with a technician, a teacher, a pupil and a note: its path, the pupil, the note."""
    path = tmp_path / "record.sqlite"
    record = Record.open(path)
    record.keep_adult(Adult("a1", "Alex Invented", "technician"), "hash")
    record.keep_adult(Adult("a2", "Robin Invented", "teacher"), "hash")
    pupil = record.pupil_refs("year-9", (14,))[14]
    note, digest = record.keep_note("incident", "swarf", "Robin slipped, invented")
    playing = Playing(record)
    playing.happens(KioskStarted("drill-1", "0.1.0", "first"), *PEOPLE)
    playing.happens(
        LevelSet(pupil, "shown", "roster"), Noted("a2", note, "incident", "swarf", digest)
    )
    record.close()
    return path, pupil, note


def erased(path: Path) -> list[Erased]:
    record = Record.open(path)
    try:
        return [e.event for e in record.entries() if isinstance(e.event, Erased)]
    finally:
        record.close()


def test_an_adult_is_erased_and_can_no_longer_use_the_kiosk(run: Run, known) -> None:  # type: ignore[no-untyped-def]
    path, _, _ = known

    done = run("erase", "adult", "robin invented", "--record", path)

    record = Record.open(path)
    assert done.exit_code == 0, done.output
    assert [a.name for a in record.adults()] == ["Alex Invented"]
    assert record.restore().adults.find("a2") is None
    record.close()
    assert erased(path) == [Erased("adult", "a2", "asked")]


def test_a_pupil_is_erased_and_comes_again_as_somebody_new(run: Run, known) -> None:  # type: ignore[no-untyped-def]
    path, pupil, _ = known

    done = run("erase", "pupil", "year-9", "14", "--record", path)

    record = Record.open(path)
    assert done.exit_code == 0, done.output
    assert record.pupil_refs("year-9", (14,))[14] != pupil
    record.close()
    assert erased(path) == [Erased("pupil", pupil, "asked")]


def test_a_note_is_listed_then_erased(run: Run, known) -> None:  # type: ignore[no-untyped-def]
    path, _, note = known

    listed = run("erase", "notes", "--record", path)
    done = run("erase", "note", note, "--record", path)
    after = run("erase", "notes", "--record", path)

    assert f"{note}  incident  swarf  Robin slipped, invented" in listed.output
    assert done.exit_code == 0, done.output
    assert after.output == "No notes are kept.\n"


@pytest.mark.parametrize(
    ("words", "why"),
    [
        (("adult", "Robyn Invented"), "Robin Invented"),
        (("adult", "Alex Invented"), "only technician"),
        (("pupil", "year-9", "15"), "nobody is kept as number 15"),
        (("note", "n0"), "no note 'n0'"),
    ],
)
def test_who_is_not_there_or_must_stay_is_said_in_one_line(  # type: ignore[no-untyped-def]
    run: Run, known, words: tuple[str, ...], why: str
) -> None:
    done = run("erase", *words, "--record", known[0])

    assert done.exit_code == 1
    assert why in done.output
    assert done.output.count("\n") == 1
    assert erased(known[0]) == []


def test_a_record_set_aside_is_named_since_it_is_untouched(run: Run, known) -> None:  # type: ignore[no-untyped-def]
    path, _, _ = known
    path.with_name("record.sqlite.damaged-1").write_bytes(b"of old")

    done = run("erase", "adult", "Robin Invented", "--record", path)

    assert "record.sqlite.damaged-1 was set aside as damaged and is untouched" in done.output


def test_the_running_kiosk_erases_when_it_is_asked(run: Run, known, tmp_path: Path) -> None:  # type: ignore[no-untyped-def]
    path, _, _ = known
    roster = tmp_path / "roster.csv"
    roster.write_text("group,number,level\nyear-9,14,shown\n")
    running = start(Settings(record=path, roster=roster, boot="boot2"))
    assert running.loop is not None
    before = running.loop.shop.roster.groups[0].pupils[0].ref
    try:
        done = run("erase", "pupil", running.loop.shop.roster.groups[0].id, "14", "--record", path)
        run("adult", "list", "--record", path)  # answered in a later turn
        after = running.loop.shop.roster.groups[0].pupils[0].ref
    finally:
        running.stop()

    assert done.exit_code == 0, done.output
    assert after != before
    assert Erased("pupil", before, "asked") in erased(path)


def later(days: int) -> Moment:
    return Moment("b", 1, Playing.wall_us + days * DAY_US, 2)


def test_what_was_kept_long_enough_is_found_and_nothing_else(known, run: Run) -> None:  # type: ignore[no-untyped-def]
    path, pupil, note = known
    record = Record.open(path)
    Playing(record).happens(AdultRevoked("a2", "command"))
    record.close()
    kept, problems = load_retention(TREE / "sequences")

    soon = to_tidy(path, kept, frozenset(), later(200))
    still_here = to_tidy(path, kept, frozenset((pupil,)), later(400))
    late = to_tidy(path, kept, frozenset(), later(1200))

    assert problems == ()
    assert soon["erase"] == []
    assert still_here["erase"] == [("adult", "a2")]
    assert late["erase"] == [("note", note), ("adult", "a2"), ("pupil", pupil)]


def test_with_a_clock_never_set_nothing_is_old(known) -> None:  # type: ignore[no-untyped-def]
    kept, _ = load_retention(TREE / "sequences")

    found = to_tidy(known[0], kept, frozenset(), Moment("b", 1, later(4000).wall_us, 0))

    assert found == {"begin": None, "erase": []}


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("country: XX\nkept: {}\n", "country 'XX'"),
        ("country: GB\nkept:\n  GB:\n    events: soon\n", "events: soon"),
        ("country: GB\nkept:\n  GB:\n    events: 3 days\n", "events: 3 days"),
        ("country: GB\nkept:\n  GB:\n    event: 3 years\n", "class 'event'"),
        ("country: GB\n", "nothing kept"),
    ],
)
def test_a_mistake_in_the_retention_file_is_one_line_and_nothing_is_taken_away(
    tmp_path: Path, text: str, found: str
) -> None:
    (tmp_path / "retention.yaml").write_text(text)

    kept, problems = load_retention(tmp_path)

    assert kept == {}
    assert found in str(problems[0])
    assert "retention.yaml:" in str(problems[0])


def test_a_schools_own_retention_replaces_the_shipped_one_and_is_no_strange_file(
    tmp_path: Path,
) -> None:
    shipped = (TREE / "sequences" / "retention.yaml").read_text()
    (tmp_path / "retention.yaml").write_text(shipped.replace("country: GB", "country: DE"))

    kept, _ = load_retention(TREE / "sequences", tmp_path)

    assert kept["events"] > load_retention(TREE / "sequences")[0]["events"]
    assert load(TREE / "sequences", tmp_path).problems == ()
