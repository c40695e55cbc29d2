"""Files and folders below a real root: made, found standing, taken back, whatever came between."""

from __future__ import annotations

import os
import subprocess
from itertools import islice
from pathlib import Path

import pytest

from kiosk.content.settings import SettingsForm, read_settings
from kiosk.content.structure import keys_of
from kiosk.installing import (
    CannotInstall,
    Computer,
    File,
    Folder,
    Journal,
    Wanted,
    all_changes,
    refusals,
)
from kiosk.installing.computer import run
from kiosk.installing.wanted import FILES, SETTINGS

BOOK = "/var/lib/book.json"
CHANGES = (
    Folder("/etc/kiosk"),
    File("/etc/kiosk/settings.yaml", "machine: drill-1\n", keep=True),
    File("/etc/other.conf", "ours\n"),
)


@pytest.fixture
def computer(tmp_path: Path) -> Computer:
    """A root with a file of somebody else's in it."""
    (tmp_path / "etc").mkdir()
    (tmp_path / "etc" / "other.conf").write_text("theirs\n")
    return Computer(tmp_path)


def tree(computer: Computer) -> dict[str, str]:
    """Every file below the root, with its text."""
    files = (path for path in computer.root.rglob("*") if path.is_file())
    return {str(path.relative_to(computer.root)): path.read_text() for path in files}


def test_what_was_made_is_taken_back_to_the_letter(computer: Computer) -> None:
    before = tree(computer)
    journal = Journal(computer, BOOK)

    made = list(journal.make(CHANGES))
    between = tree(computer)
    left = [line for _, line in journal.undo() if line]

    assert made == list(CHANGES)
    assert between["etc/other.conf"] == "ours\n"
    assert tree(computer) == before
    assert not computer.at("/etc/kiosk").exists()
    assert left == []


def test_made_a_second_time_nothing_is_changed(computer: Computer) -> None:
    journal = Journal(computer, BOOK)
    list(journal.make(CHANGES))

    assert list(journal.make(CHANGES)) == []


def test_a_cut_in_the_middle_can_be_undone_and_gone_on_with(computer: Computer) -> None:
    before = tree(computer)
    list(islice(Journal(computer, BOOK).make(CHANGES), 2))

    after_the_cut = list(Journal(computer, BOOK).make(CHANGES))
    list(Journal(computer, BOOK).undo())

    assert after_the_cut == [CHANGES[2]]
    assert tree(computer) == before


def test_settings_changed_by_hand_are_neither_written_over_nor_taken_away(
    computer: Computer,
) -> None:
    list(Journal(computer, BOOK).make(CHANGES))
    computer.at("/etc/kiosk/settings.yaml").write_text("machine: drill-2\n")

    again = list(Journal(computer, BOOK).make(CHANGES))
    left = [line for _, line in Journal(computer, BOOK).undo() if line]

    assert again == []
    assert computer.at("/etc/kiosk/settings.yaml").read_text() == "machine: drill-2\n"
    assert left == [
        "/etc/kiosk/settings.yaml is left: it was changed by hand",
        "/etc/kiosk is left: there is something in it",
    ]


def test_a_journal_changed_by_hand_is_not_guessed_at(computer: Computer) -> None:
    list(Journal(computer, BOOK).make(CHANGES))
    computer.at(BOOK).write_text('[{"kind": "shrub"}]')

    with pytest.raises(CannotInstall, match="changed by hand"):
        list(Journal(computer, BOOK).undo())


def test_a_command_that_fails_is_named_with_its_last_line() -> None:
    with pytest.raises(CannotInstall, match=r"ls /no/such/place: .*No such file"):
        run(["ls", "/no/such/place"])
    with pytest.raises(CannotInstall, match="no-such-command: No such file"):
        run(["no-such-command"])


def test_a_tree_that_others_cannot_enter_is_refused_with_what_to_do(tmp_path: Path) -> None:
    closed = tmp_path / "closed" / "pillarside"
    closed.mkdir(parents=True)
    closed.parent.chmod(0o700)

    said = list(refusals(Computer(tmp_path), Wanted(closed)))

    assert any("neither Debian nor Raspberry Pi OS" in line for line in said)
    assert any("no .venv" in line for line in said)
    assert any("move the program to /opt/pillarside" in line for line in said)


def test_every_setting_is_explained_in_the_file_that_is_installed() -> None:
    written = (FILES / "settings.yaml").read_text()

    for key in keys_of(SettingsForm):
        assert f"\n{key}: " in written or f"\n# {key}: " in written or f"${{{key}}}" in written


def test_the_settings_installed_are_read_without_a_mistake(tmp_path: Path) -> None:
    text = next(c.text for c in all_changes(Wanted(tmp_path, port="/dev/x")) if at_settings(c))
    (tmp_path / "settings.yaml").write_text(text.replace("/var/lib/pillarside", str(tmp_path)))

    settled, problems = read_settings(tmp_path / "settings.yaml")

    assert problems == ()
    assert settled == {
        "machine": "drill-1",
        "record": tmp_path / "record.sqlite",
        "port": "/dev/x",
        "panel": "7inch",
        "full_screen": True,
    }


def at_settings(change: object) -> bool:
    return isinstance(change, File) and change.path == SETTINGS


def test_a_mistake_in_the_settings_has_its_line_and_the_nearest_word(tmp_path: Path) -> None:
    (tmp_path / "settings.yaml").write_text("machine: drill-1\npanle: 7inch\nleft_hand: maybe\n")

    settled, problems = read_settings(tmp_path / "settings.yaml")

    assert settled == {"machine": "drill-1"}
    assert [str(p) for p in problems] == [
        f"{tmp_path}/settings.yaml:2: unknown key 'panle'; allowed: machine, school, record, "
        "roster, port, panel, full_screen, language, large_text, left_hand, download_to, feed, "
        "feed_names, feed_notes; did you mean 'panel'?",
        f"{tmp_path}/settings.yaml:3: left_hand: 'maybe'; allowed: yes, no",
    ]


def test_a_path_in_the_settings_is_counted_from_their_own_folder(tmp_path: Path) -> None:
    (tmp_path / "settings.yaml").write_text("school: ours\n")
    (tmp_path / "ours").mkdir()

    settled, _ = read_settings(tmp_path / "settings.yaml")

    assert settled == {"school": tmp_path / "ours"}


def text_of(path: str, tmp_path: Path) -> str:
    """What is written to a place; with a partition of its own for the record."""
    changes = all_changes(Wanted(tmp_path, partition="drill"))
    return next(c.text for c in changes if isinstance(c, File) and c.path == path)


def test_a_partition_of_its_own_is_mounted_before_anything_is_written_to_its_place(
    tmp_path: Path,
) -> None:
    changes = [change.line() for change in all_changes(Wanted(tmp_path, partition="drill"))]
    plain = [change.line() for change in all_changes(Wanted(tmp_path))]

    mounted = changes.index(
        "mount /var/lib/pillarside by var-lib-pillarside.mount, for pillarside alone"
    )
    assert changes.index("make the folder /var/lib/pillarside, for pillarside alone") < mounted
    assert mounted < changes.index("have pillarside.service start with the computer")
    assert "What=/dev/disk/by-label/drill" in text_of(
        "/etc/systemd/system/var-lib-pillarside.mount", tmp_path
    )
    assert not [line for line in plain if "mount /var" in line]


def test_a_partition_that_is_not_there_is_refused_with_how_to_make_it(tmp_path: Path) -> None:
    said = list(refusals(Computer(tmp_path), Wanted(tmp_path, partition="drill")))

    assert any("no partition with the label drill" in line for line in said)


@pytest.mark.parametrize(("recorded_s", "now_s", "set_to"), [(2000, 1000, "@2000"), (1, 2, "")])
def test_the_clock_is_put_forward_to_the_record_and_never_back(
    tmp_path: Path, recorded_s: int, now_s: int, set_to: str
) -> None:
    """The unit's own line, with a `date` that tells an invented time and writes what it is told."""
    head, told = tmp_path / "record.sqlite.head", tmp_path / "told"
    head.touch()
    os.utime(head, (recorded_s, recorded_s))
    clock = tmp_path / "date"
    clock.write_text(f'#!/bin/sh\n[ "$1" = -s ] && echo "$2" > {told} || echo {now_s}\n')
    clock.chmod(0o755)
    unit = text_of("/etc/systemd/system/pillarside-clock.service", tmp_path)
    line = next(x for x in unit.splitlines() if x.startswith("ExecStart="))
    script = line.partition("-c '")[2].rstrip("'").replace("$$", "$").replace("%%", "%")

    subprocess.run(
        ["/bin/sh", "-c", script.replace("/var/lib/pillarside", str(tmp_path))],
        check=True,
        env={**os.environ, "PATH": f"{tmp_path}:{os.environ['PATH']}"},
    )

    assert (told.read_text().strip() if told.exists() else "") == set_to


def test_the_service_starts_it_again_whatever_its_exit_code_says() -> None:
    unit = (FILES / "pillarside.service").read_text("utf-8").splitlines()

    assert "Restart=always" in unit  # a compositor may end with 0 where what it shows has crashed
