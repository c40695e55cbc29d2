"""With no names imported, nothing that the kiosk leaves anywhere has one of the roster.

The search goes through every byte of every file: record and what lies beside it, downloads with
their workbooks unpacked, the log of what was shown, reports, sheets, and what commands print. The
same search finds the names where the school has them imported, so it can find them.
"""

from __future__ import annotations

import zipfile
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from click.testing import CliRunner

from kiosk.cli import group
from kiosk.core.inputs import LeavePage, OpenPage, PickPupil
from kiosk.runtime.settings import Settings
from kiosk.runtime.shown import ShownLog
from kiosk.runtime.start import start
from tests.runtime.test_start import People

NAMES = ("Quillfeather", "Zephyrine", "Oxtoby-Marl", "Ignatz", "Ångström", "Łucja")
ROWS = (
    "Class;No;Drill level;Surname;First name;adult beside\n"
    "8B;1;supervised;Quillfeather;Zephyrine;\n"
    "8B;2;shown;OXTOBY-MARL;Ignatz;yes\n"
    "8B;3;shown;Ångström;Łucja;\n"
)


@pytest.fixture
def office(tmp_path: Path) -> Path:
    """The office's desk: what lies there is not the kiosk's."""
    (tmp_path / "desk").mkdir()
    (tmp_path / "desk" / "roster.csv").write_text(ROWS, "utf-8-sig")
    for folder in ("kiosk", "stick", "school"):
        (tmp_path / folder).mkdir()
    return tmp_path


def lesson(office: Path, names: bool) -> None:
    """A kiosk is started with the roster; a lesson, a turn, the line, a download; all is shown."""
    if names:
        (office / "school" / "people.yaml").write_text("names: yes\n")
    log = ShownLog(office / "kiosk" / "shown.jsonl")
    running = start(
        Settings(
            record=office / "kiosk" / "record.sqlite",
            roster=office / "desk" / "roster.csv",
            school=office / "school",
            download_to=office / "stick",
        )
    )
    try:
        people = People(running)
        people.open_lesson()
        seen = [people.see(lambda v: any(b.look == "number" for b in v.choices), "numbers")]
        people.touch(OpenPage("line"))
        seen.append(people.see(lambda v: v.title != seen[0].title, "the line"))
        people.touch(LeavePage())
        people.touch(PickPupil(1))
        seen.append(people.see(lambda v: v.head.who != "", "the turn"))
        for view in seen:
            log.add(log.us(), view, [{"label": b.label} for b in view.choices], [])
    finally:
        running.stop()


def commands(office: Path) -> str:
    """Everything a technician has printed or written afterwards."""
    record, out = str(office / "kiosk" / "record.sqlite"), str(office / "stick")
    told = ""
    for words in (
        ["roster", str(office / "desk" / "roster.csv"), "--record", record],
        ["adult", "list", "--record", record],
        ["download", "--all", "--record", record, "--to", out],
        ["report", "--all", "--record", record, "--to", out],
        ["sheet", "card", "--job", "hook bar", "--machine", "drill-1", "--to", out],
    ):
        done = CliRunner().invoke(group, words)
        assert done.exit_code == 0, f"{words}: {done.output}"
        told += done.output
    return told


def pieces(folder: Path) -> Iterator[tuple[str, bytes]]:
    """Every file below a folder, and every part of what is packed."""
    for path in sorted(p for p in folder.rglob("*") if p.is_file()):
        yield str(path), path.read_bytes()
        if zipfile.is_zipfile(path):
            with zipfile.ZipFile(path) as packed:
                for name in packed.namelist():
                    yield f"{path}!{name}", packed.read(name)


def found_in(raw: bytes) -> list[str]:
    """The names in these bytes, in any of the usual encodings, in any case."""
    codes = ("utf-8", "utf-16-le", "utf-16-be", "latin-1")
    texts = [raw.decode(code, "ignore").casefold() for code in codes]
    return [name for name in NAMES if any(name.casefold() in text for text in texts)]


def search(office: Path) -> tuple[dict[str, list[str]], int]:
    """What was found where, and how many pieces were looked through."""
    looked = [piece for place in ("kiosk", "stick") for piece in pieces(office / place)]
    return {where: names for where, raw in looked if (names := found_in(raw))}, len(looked)


def test_with_no_names_imported_a_search_of_all_that_is_left_finds_none(
    office: Path, sum_up: Callable[[str], None]
) -> None:
    lesson(office, names=False)
    told = commands(office)

    found, looked = search(office)

    assert found == {}
    assert found_in(told.encode()) == []
    assert looked > 12
    sum_up(f"no names: {looked} files and parts searched for {len(NAMES)} names, none found")


def test_the_same_search_finds_them_where_the_school_wants_them(office: Path) -> None:
    lesson(office, names=True)
    commands(office)

    found, _ = search(office)

    at = {Path(where.partition("!")[0]).relative_to(office).parts[0] for where in found}
    assert at == {"kiosk"}, "names leave the kiosk in a download or a report"
    assert {name for names in found.values() for name in names} == set(NAMES)


def test_the_screen_shows_numbers_alone(office: Path) -> None:
    lesson(office, names=False)
    shown = (office / "kiosk" / "shown.jsonl").read_text("utf-8")

    assert '"label": "1"' in shown
