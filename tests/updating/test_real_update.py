"""The program itself, updated from a stick and rolled back, on a record of each older schema.

The next version is this one with a migration more. Its environment is a real one, of wheels with
all libraries, made with no network; both versions are started by the system's own line.
"""

from __future__ import annotations

import os
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable
from pathlib import Path

import pytest

from kiosk.core.units import Moment
from kiosk.store import Line, ReadOnlyRecord, Record
from kiosk.store.tables import SCHEMA, SCHEMAS
from kiosk.updating.package import Fits, write_update
from kiosk.updating.packing import PARTS, gathered, own_wheel
from kiosk.updating.steps import At, update
from kiosk.updating.versions import Versions
from tests.store.saving import OLD
from tests.updating.wheels import TREE, rebuilt

NEXT, LATER = "0.2.0", f"{int(SCHEMA) + 1:04d}"
NOW = Moment("boot1", 1, 1_777_800_000_000_000, 2)
PATIENCE_S = 60.0
MIGRATION = f'''"""One table more, for tests."""

from alembic import op

revision = "{LATER}"
down_revision = "{SCHEMA}"


def upgrade():
    """Make it."""
    op.execute("CREATE TABLE later (name TEXT NOT NULL PRIMARY KEY) STRICT")
'''


def next_tree(to: Path) -> Path:
    """The program's tree as the next version's: its number, and a migration more."""
    for part in (*PARTS, "requirements.lock"):
        if (TREE / part).is_dir():
            shutil.copytree(TREE / part, to / part, ignore=shutil.ignore_patterns("__pycache__"))
        else:
            to.mkdir(exist_ok=True)
            shutil.copy(TREE / part, to / part)
    _change(to / "pyproject.toml", 'version = "0.1.0"', f'version = "{NEXT}"')
    tables = to / "kiosk" / "store" / "tables.py"
    _change(tables, f'SCHEMA = "{SCHEMA}"', f'SCHEMA = "{LATER}"')
    _change(tables, f'"{SCHEMA}")', f'"{SCHEMA}", "{LATER}")')
    versions = to / "kiosk" / "store" / "migrations" / "versions"
    (versions / f"m{LATER}_later.py").write_text(MIGRATION)
    return to


def _change(path: Path, before: str, after: str) -> None:
    text = path.read_text("utf-8")
    assert text.count(before) == 1, f"{path}: {before}"
    path.write_text(text.replace(before, after), "utf-8")


def stick(to: Path) -> Path:
    """A stick with the next version, all libraries on it."""
    for name in ("wheels", "all", "stick"):
        (to / name).mkdir()
    rebuilt(to / "wheels")
    tree = next_tree(to / "tree")
    own = own_wheel(tree, to / "all")
    wheels = gathered(tree, own, Fits.here(), to / "wheels", to / "all")
    write_update(to / "stick", NEXT, Fits.here(), wheels, NOW)
    return to / "stick"


def shown(at: At, display: str) -> str:
    """Start by the system's own line in a window; the first screen that stands. Then stop."""
    log = at.record.with_suffix(".shown")
    log.unlink(missing_ok=True)
    words = [sys.executable, "-P", "-m", "kiosk.updating.starting", str(at.versions.folder)]
    process = subprocess.Popen(
        [*words, "run", "--record", str(at.record), "--shown", str(log)],
        cwd=at.record.parent,
        env={**os.environ, "DISPLAY": display},
        stdout=subprocess.DEVNULL,
        stderr=subprocess.PIPE,
    )
    until = time.monotonic() + PATIENCE_S
    while not (log.exists() and log.read_text("utf-8").endswith("\n")):
        assert process.poll() is None, (process.stderr or sys.stdin).read()
        assert time.monotonic() < until, "nothing was shown"
        time.sleep(0.05)
    process.send_signal(signal.SIGTERM)
    process.communicate(timeout=30)
    return log.read_text("utf-8").splitlines()[0]


def lines_of(path: Path) -> list[Line]:
    with ReadOnlyRecord(path) as record:
        record.look_through()
        return list(record.lines(1, record.head[0]))


def software(path: Path) -> list[str]:
    """Which version each start since the saved record was of."""
    with ReadOnlyRecord(path) as record:
        return [e.event.software for e in record.of_kinds("kiosk_started")]  # type: ignore[attr-defined]


@pytest.mark.update
@pytest.mark.timeout(1800)
def test_a_record_of_each_older_schema_is_updated_from_a_stick_and_rolled_back(
    tmp_path: Path,
    full: bool,
    displays: Callable[[int, int], str],
    sum_up: Callable[[str], None],
) -> None:
    if not full:
        pytest.skip("environments with all libraries take minutes: -m update --full")
    made, display = stick(tmp_path), displays(800, 480)
    versions = Versions(tmp_path / "versions", Path(sys.prefix))
    for schema in SCHEMAS:
        record = tmp_path / schema / "record.sqlite"
        record.parent.mkdir()
        saved = OLD / f"schema-{schema}.db"
        shutil.copy(saved, record) if saved.exists() else Record.open(record).close()
        at = At(versions, record, None, "0.1.0", Fits.here())
        before = lines_of(record)

        told = list(update(made, at))
        first = shown(at, display)
        with ReadOnlyRecord(record) as read:
            stood = read.schema
        newer = lines_of(record)
        back = versions.back()
        second = shown(at, display)
        after = lines_of(record)

        assert told[-1] == f"version {NEXT} is started from now on"
        assert stood == LATER
        assert "_fault" not in first + second
        assert software(record)[-2:] == [NEXT, "0.1.0"]
        assert newer[: len(before)] == before
        assert after[: len(newer)] == newer, "an older record was put back"
        assert lines_of(record.parent / "backups" / f"record-before-{NEXT}.sqlite") == before
        assert back.version == ""
    sum_up(
        f"update: records of {len(SCHEMAS)} schemas ({', '.join(SCHEMAS)}) updated to {NEXT} with "
        f"schema {LATER} from a stick, started, rolled back to 0.1.0, started: no line lost"
    )
