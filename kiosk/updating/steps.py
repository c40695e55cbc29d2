"""An update, step by step: each leaves a version that starts, wherever the power goes.

Nothing of what runs is changed. The new version is made beside it, tried on a copy of the record,
and chosen by the one file that `versions` replaces whole. Work that a cut has left half done is
made anew by the next try.
"""

from __future__ import annotations

import os
import shutil
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from kiosk.core.units import day_named, day_of
from kiosk.export.faults import DownloadFault
from kiosk.export.folder import Folder, NotAsListed, Written
from kiosk.store import RecordFault, copies
from kiosk.store.backing_up import back_up
from kiosk.updating.package import (
    LIST,
    LONGEST_LIST,
    PREFIX,
    Fits,
    NoUpdate,
    Update,
    from_bytes,
    newest,
)
from kiosk.updating.versions import WHOLE, Versions, sync_folder

INCOMING, TRYING, BACKUPS = "incoming", "trying", "backups"
INSTALL_S, TRY_S = 1200.0, 120.0
UNPACKED = 4  # an environment takes about so many times the room of its wheels


@dataclass(frozen=True)
class At:
    """The kiosk that is updated: its versions, record and settings, and the version installed."""

    versions: Versions
    record: Path
    settings: Path | None
    installed: str
    here: Fits

    @property
    def runs(self) -> str:
        """The number of the version that is started now."""
        name = self.versions.chosen().version
        return name.partition("-")[0] if self.versions.may_start(name) and name else self.installed


def update(stick: Path, at: At, mounted: bool = False) -> Iterator[str]:
    """Update from a stick; a line after each step. Raises NoUpdate, and then nothing has changed.

    With `mounted`, `stick` must be the root of one. After the second line it may be taken out.
    """
    with _reading(stick), Folder.open(stick, mounted) as root:
        found = newest(list(_updates(root)), at.runs, at.here, f"in {stick}")
        yield f"version {found.version}, put together on {day_named(day_of(found.made_us))}"
        _see_room(found, at)
        wheels = _brought(root, found, at.versions.folder)
    yield f"every file is as the list says: {len(wheels)} files, {found.size / 1e6:.0f} MB"
    kept = _backed_up(at, found)
    yield f"the record is backed up: {kept}" if kept else "there is no record to back up yet"
    _install(at.versions, found, wheels)
    yield f"installed beside version {at.runs}, which is left as it is"
    _try(at, found, kept)
    yield "it starts on a copy of the record"
    at.versions.try_out(found.name)
    _clear(at.versions)
    yield f"version {found.version} is started from now on"


# --- from the stick ------------------------------------------------------------------------------


@contextmanager
def _reading(stick: Path) -> Iterator[None]:
    """Whatever a stick does as NoUpdate."""
    try:
        yield
    except NotAsListed as found:
        raise NoUpdate(f"{found}; pack the update again") from found
    except DownloadFault as fault:
        raise NoUpdate(fault.text) from fault
    except OSError as error:
        raise NoUpdate(f"{error.filename or stick}: {error.strerror}; try again") from error


def _updates(root: Folder) -> Iterator[Update]:
    """Every update on the stick whose list can be read; a torn one is told, not passed over."""
    for name in sorted(root.names()):
        if name.startswith(PREFIX) and root.has_folder(name):
            with root.inside(name) as folder:
                update = from_bytes(b"".join(folder.plain(LIST, LONGEST_LIST)))
            if update.folder != name:
                raise NoUpdate(f"{name} holds another update, {update.folder}; pack it again")
            yield update


def _see_room(found: Update, at: At) -> None:
    at.versions.folder.mkdir(parents=True, exist_ok=True)
    record = at.record.stat().st_size if at.record.is_file() else 0
    needed = found.size * (1 + UNPACKED) + 2 * record
    free = shutil.disk_usage(at.versions.folder).free
    if free < needed:
        said = f"{needed / 1e6:.0f} MB are needed and {free / 1e6:.0f} MB are free"
        raise NoUpdate(f"{at.versions.folder}: {said}; make room on the card")


def _brought(root: Folder, found: Update, versions: Path) -> tuple[Path, ...]:
    """Every wheel copied to the card, each held against the list while it is copied."""
    to = versions / INCOMING
    shutil.rmtree(to, ignore_errors=True)
    to.mkdir()
    with root.inside(found.folder) as folder:
        return tuple(_copied(folder, file, to / file.name) for file in found.files)


def _copied(folder: Folder, file: Written, to: Path) -> Path:
    seen, size = sha256(), 0
    with to.open("wb") as out:
        for data in folder.plain(file.name, file.size):
            seen.update(data)
            size += out.write(data)
    if (size, seen.hexdigest()) != (file.size, file.sha256):
        raise NoUpdate(f"{file.name} is not as the list says; pack the update again")
    return to


# --- on the card ---------------------------------------------------------------------------------


def _backed_up(at: At, found: Update) -> Path | None:
    """A copy of the record, the one of the update before taken away; None without a record."""
    if not at.record.is_file():
        return None
    folder = at.record.parent / BACKUPS
    folder.mkdir(mode=0o700, exist_ok=True)
    to = folder / f"{at.record.stem}-before-{found.version}.sqlite"
    try:
        back_up(at.record, to)
    except RecordFault as fault:
        raise NoUpdate(str(fault)) from fault
    for older in folder.glob(f"{at.record.stem}-before-*.sqlite"):
        if older != to:
            older.unlink()
    return to


def _install(versions: Versions, found: Update, wheels: tuple[Path, ...]) -> None:
    """An environment of its own, whole and on the card before it is marked so."""
    if versions.may_start(found.name):
        return
    place, python = versions.folder / found.name, str(versions.python(found.name))
    shutil.rmtree(place, ignore_errors=True)
    base, limit = str(versions.python("")), INSTALL_S
    pip = [base, "-m", "pip", "--disable-pip-version-check", "-q", "--python", python]
    _run([base, "-m", "venv", "--without-pip", str(place)], limit)
    _run([*pip, "install", "--no-index", "--no-deps", "--no-input", *map(str, wheels)], limit)
    _run([*pip, "check"], limit)
    os.sync()
    (place / WHOLE).touch()
    sync_folder(place)
    sync_folder(versions.folder)


def _try(at: At, found: Update, kept: Path | None) -> None:
    """Start the new version without a window on a copy of the record, within a time."""
    folder = at.versions.folder / TRYING
    shutil.rmtree(folder, ignore_errors=True)
    folder.mkdir(mode=0o700)
    copy = folder / at.record.name
    if kept is not None:
        shutil.copy(kept, copy)
        copies(copy).symlink_to(copies(at.record).absolute())
    words = [str(at.versions.python(found.name)), "-P", "-m", "kiosk.runtime.trying", str(copy)]
    try:
        _run([*words, *([str(at.settings)] if at.settings else [])], TRY_S)
    except NoUpdate as error:
        more = f"version {found.version} does not start here and was not put in"
        raise NoUpdate(f"{more}: {error}") from error
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _clear(versions: Versions) -> None:
    """Take away versions that are neither chosen nor the way back, and what was copied."""
    now = versions.chosen()
    for name in versions.names():
        if name not in (now.version, now.former):
            shutil.rmtree(versions.folder / name, ignore_errors=True)


def _run(words: list[str], limit: float) -> None:
    """Run one command; raises NoUpdate with the last that it said."""
    environment = {k: v for k, v in os.environ.items() if not k.startswith(("PYTHON", "PIP_"))}
    try:
        done = subprocess.run(
            words,
            capture_output=True,
            text=True,
            check=False,
            timeout=limit,
            env=environment,
            stdin=subprocess.DEVNULL,
            cwd="/",
        )
    except subprocess.TimeoutExpired:
        raise NoUpdate(f"{words[2]}: not done within {limit:g} s") from None
    except OSError as error:
        raise NoUpdate(f"{words[0]}: {error.strerror}") from None
    if done.returncode:
        said = (done.stderr.strip() or done.stdout.strip() or "it said nothing").splitlines()[-1]
        raise NoUpdate(said)
