"""A real update with tiny programs: real environments, a real record, and cuts at every step."""

from __future__ import annotations

import os
import signal
import sqlite3
import subprocess
import sys
from collections.abc import Callable
from itertools import islice
from pathlib import Path

import pytest

from kiosk.core.units import Moment
from kiosk.store import ReadOnlyRecord
from kiosk.updating.package import Fits, NoUpdate, write_update
from kiosk.updating.starting import STARTED_BY
from kiosk.updating.steps import At, update
from kiosk.updating.versions import TRIES, Versions
from tests.recording import lesson_at
from tests.updating.wheels import TREE, tiny

NOW = Moment("boot1", 1, 1_777_800_000_000_000, 2)
OLD, NEW = "0.1.0", "0.2.0"
STEPS = 6


@pytest.fixture
def at(tmp_path: Path) -> At:
    """A kiosk with a lesson in its record."""
    with lesson_at(tmp_path / "record.sqlite"):
        pass
    versions = Versions(tmp_path / "versions", Path(sys.prefix))
    return At(versions, tmp_path / "record.sqlite", None, "0.1.0", Fits.here())


@pytest.fixture
def several(full: bool) -> None:
    """For tests that make several environments."""
    if not full:
        pytest.skip("several environments take their time: -m update --full")


def stick(tmp_path: Path, version: str = NEW, **does: str) -> Path:
    """A stick with an update of a tiny program."""
    to = tmp_path / f"stick-{version}"
    to.mkdir(exist_ok=True)
    wheel = tiny(tmp_path, version, **does)
    write_update(to, version, Fits.here(), {wheel.name: wheel}, NOW)
    return to


def started(at: At) -> str:
    """The last word of what the system's own line starts: its version."""
    words = [sys.executable, "-m", "kiosk.updating.starting", str(at.versions.folder), "--version"]
    done = subprocess.run(words, cwd=TREE, capture_output=True, text=True, check=False)
    return (done.stdout or done.stderr).split()[-1]


def head(path: Path) -> tuple[int, str]:
    with ReadOnlyRecord(path) as record:
        return record.head


def test_an_update_is_tried_chosen_and_started(at: At, tmp_path: Path) -> None:
    told = list(update(stick(tmp_path), at))

    assert len(told) == STEPS
    assert told[-1] == "version 0.2.0 is started from now on"
    assert started(at) == NEW
    assert at.runs == NEW


def test_the_record_is_backed_up_whole_before_anything_is_installed(at: At, tmp_path: Path) -> None:
    told = list(islice(update(stick(tmp_path), at), 3))
    kept = tmp_path / "backups" / "record-before-0.2.0.sqlite"

    assert str(kept) in told[-1]
    assert head(kept) == head(at.record)
    assert kept.stat().st_mode & 0o077 == 0
    with sqlite3.connect(kept) as connection:
        assert connection.execute("PRAGMA integrity_check").fetchone() == ("ok",)
    connection.close()
    assert [p for p in at.versions.names() if p.startswith("0.")] == []


def test_the_backup_of_a_kiosk_that_writes_is_as_of_one_moment(at: At, tmp_path: Path) -> None:
    with lesson_at(at.record) as playing:
        list(islice(update(stick(tmp_path), at), 3))

        assert head(tmp_path / "backups" / "record-before-0.2.0.sqlite") == playing.record.head


@pytest.mark.parametrize("steps", range(1, STEPS + 1))
def test_a_cut_after_any_step_leaves_a_version_that_starts_and_the_next_try_ends_well(
    at: At, tmp_path: Path, steps: int
) -> None:
    before, made = head(at.record), stick(tmp_path)

    list(islice(update(made, at), steps))
    after_the_cut = started(at)

    assert after_the_cut == (NEW if steps == STEPS else OLD)
    assert head(at.record) == before
    if steps in (4, 5):  # the longest work, half done or done
        list(update(made, at))
        assert started(at) == NEW


@pytest.mark.update
def test_an_update_that_is_killed_anywhere_leaves_a_version_that_starts(
    at: At, tmp_path: Path, several: None
) -> None:
    made = stick(tmp_path)
    for tenths in range(1, 60):
        words = [sys.executable, "-m", "kiosk.main", "update", "--from", str(made)]
        one = subprocess.Popen(
            [*words, "--record", str(at.record)],
            cwd=TREE,
            stdout=subprocess.DEVNULL,
            stderr=subprocess.DEVNULL,
            start_new_session=True,
        )
        try:
            one.wait(tenths * 0.1)
        except subprocess.TimeoutExpired:
            os.killpg(one.pid, signal.SIGKILL)
            one.wait()
        assert started(at) in (NEW, OLD)


def test_a_version_that_does_not_start_on_the_record_is_not_put_in(at: At, tmp_path: Path) -> None:
    fails = "import sys; sys.stderr.write('it knows no machine drill-1\\n'); sys.exit(1)"

    with pytest.raises(NoUpdate, match=r"0\.2\.0 does not start here .*it knows no machine"):
        list(update(stick(tmp_path, trying=fails), at))

    assert started(at) == OLD


def test_a_version_that_only_fails_on_the_wall_makes_way_for_the_former_one(
    at: At, tmp_path: Path
) -> None:
    list(update(stick(tmp_path), at))
    at.versions.confirm(at.versions.chosen().version)
    list(update(stick(tmp_path, "0.3.0", main="raise SystemExit('no window')"), at))

    said = [started(at) for _ in range(TRIES + 1)]

    assert said == ["window"] * TRIES + [NEW]


def test_what_is_tried_is_a_copy_of_the_record(at: At, tmp_path: Path) -> None:
    spoils = "import pathlib, sys; pathlib.Path(sys.argv[1]).write_bytes(b'spoilt')"
    before = head(at.record)

    list(update(stick(tmp_path, trying=spoils), at))

    assert head(at.record) == before
    assert not (at.versions.folder / "trying").exists()


def spoil(made: Path) -> None:
    wheel = next(made.rglob("*.whl"))
    data = bytearray(wheel.read_bytes())
    data[100] ^= 1
    wheel.write_bytes(data)


def lengthen(made: Path) -> None:
    wheel = next(made.rglob("*.whl"))
    wheel.write_bytes(wheel.read_bytes() + b"more")


def take_away(made: Path) -> None:
    next(made.rglob("*.whl")).unlink()


def lead_away(made: Path) -> None:
    wheel = next(made.rglob("*.whl"))
    wheel.rename(made / "elsewhere.whl")
    wheel.symlink_to(made / "elsewhere.whl")


@pytest.mark.parametrize("harm", [spoil, lengthen, take_away, lead_away])
def test_a_file_that_is_not_as_the_list_says_stops_the_update(
    at: At, tmp_path: Path, harm: Callable[[Path], None]
) -> None:
    made = stick(tmp_path)
    harm(made)

    with pytest.raises(NoUpdate, match=r"pillarside-0\.2\.0"):
        list(update(made, at))

    assert started(at) == OLD
    assert not (tmp_path / "backups").exists()


def test_an_older_version_is_refused_and_said_how_to_go_back(at: At, tmp_path: Path) -> None:
    list(update(stick(tmp_path), at))

    with pytest.raises(NoUpdate, match=r"0\.1\.9 is older than 0\.2\.0.*update --back"):
        list(update(stick(tmp_path, "0.1.9"), at))


def test_a_restart_asked_for_goes_by_the_choice_too(at: At, tmp_path: Path) -> None:
    list(update(stick(tmp_path), at))
    anew = "from kiosk.updating.starting import start_anew; start_anew(['--version'])"

    done = subprocess.run(
        [sys.executable, "-c", anew],
        env={**os.environ, STARTED_BY: f"{sys.executable}\n{at.versions.folder}"},
        capture_output=True,
        text=True,
        check=True,
    )

    assert done.stdout.strip() == NEW


@pytest.mark.update
def test_versions_that_are_neither_in_use_nor_the_way_back_are_taken_away(
    at: At, tmp_path: Path, several: None
) -> None:
    for version in ("0.2.0", "0.3.0", "0.4.0"):
        list(update(stick(tmp_path, version), at))
        at.versions.confirm(at.versions.chosen().version)

    kept = [name.partition("-")[0] for name in at.versions.names()]

    assert kept == ["0.3.0", "0.4.0"]
    assert len(list((tmp_path / "backups").iterdir())) == 1
