"""An update on a stick: wheels for one Python and one processor, and a list with their hashes.

It lies in a folder `PILLARSIDE-UPDATE-VERSION-PROCESSOR-PYTHON`, its list written last, so a folder
without a list, or with a file that is not as the list says, is a torn one. The hashes prove that it
is whole, not who made it: that is up to whoever lets a stick in.
"""

from __future__ import annotations

import platform
import re
import sys
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kiosk.core.units import Moment
from kiosk.export.faults import DownloadFault, fault_of
from kiosk.export.folder import Folder, Written
from kiosk.export.manifest import NotAManifest, sealed, unsealed, when, written

PREFIX, LIST, FORMAT = "PILLARSIDE-UPDATE-", "update.json", 1
MOST_FILES, MOST_BYTES, LONGEST_LIST = 200, 1_000_000_000, 1 << 20

_WHEEL = re.compile(r"[A-Za-z0-9_.]+-[A-Za-z0-9_.!+]+(?:-[A-Za-z0-9_.]+){3,4}\.whl")
_VERSION = re.compile(r"\d{1,6}(?:\.\d{1,6}){0,3}")


class NoUpdate(Exception):
    """Nothing was updated, and why: one line with what was found and what to do."""


@dataclass(frozen=True)
class Fits:
    """What an update is for: the version of Python as `3.11`, and the processor's name."""

    python: str
    processor: str

    @classmethod
    def here(cls) -> Fits:
        """This computer."""
        return cls(f"{sys.version_info[0]}.{sys.version_info[1]}", platform.machine())


@dataclass(frozen=True)
class Update:
    """What a list says. `made_us` is the wall clock of the computer that put it together."""

    version: str
    fits: Fits
    made_us: int
    digest: str
    files: tuple[Written, ...]

    @property
    def folder(self) -> str:
        """The name of its folder on a stick."""
        return f"{PREFIX}{self.version}-{self.fits.processor}-{self.fits.python}"

    @property
    def name(self) -> str:
        """The name of its environment on the kiosk: another one for each list."""
        return f"{self.version}-{self.digest[:12]}"

    @property
    def size(self) -> int:
        """Bytes of all its files."""
        return sum(file.size for file in self.files)


def numbers(version: str) -> tuple[int, ...]:
    """A version as numbers to compare; raises ValueError for anything but numbers and dots."""
    if not _VERSION.fullmatch(version):
        raise ValueError(f"version {version!r}; allowed: numbers with dots, such as 0.2.0")
    return tuple(map(int, version.split(".")))


def refusal(update: Update, version: str, here: Fits) -> str:
    """Why this update can't go on this computer, on which `version` runs; empty if it can."""
    found = f"the update is for Python {update.fits.python} on {update.fits.processor}"
    if update.fits != here:
        return f"{found}; this computer has Python {here.python} on {here.processor}"
    if numbers(update.version) < numbers(version):
        return (
            f"the update's version {update.version} is older than {version}, which runs here; "
            "no older version is put in (update --back goes back to the former one)"
        )
    if numbers(update.version) == numbers(version):
        return f"version {version} runs here already"
    return ""


# --- reading -------------------------------------------------------------------------------------


def from_bytes(data: bytes) -> Update:
    """What a list tells; raises NoUpdate."""
    try:
        said = unsealed(data, LIST, FORMAT)
        fits = Fits(str(said["python"]), str(said["processor"]))
        numbers(said["version"])
        made = int(said["made"]["wall_us"])
        update = Update(said["version"], fits, made, said["digest"], written(said))
    except NotAManifest as error:
        raise NoUpdate(f"{error}; pack the update again") from None
    except (KeyError, TypeError, ValueError) as error:
        raise NoUpdate(f"{LIST}: {error}") from None
    _see_names(update)
    return update


def _see_names(update: Update) -> None:
    names = [file.name for file in update.files]
    strange = [name for name in names if not _WHEEL.fullmatch(name)]
    if strange or len(set(names)) != len(names):
        raise NoUpdate(f"{LIST} names {strange[0] if strange else 'a file twice'!r}")
    if not any(name.startswith("pillarside-") for name in names):
        raise NoUpdate(f"{LIST} names no wheel of pillarside itself")
    if len(names) > MOST_FILES or update.size > MOST_BYTES:
        raise NoUpdate(f"more than {MOST_FILES} files or {MOST_BYTES} bytes")


def newest(
    found: Iterator[Update] | list[Update], version: str, here: Fits, where: str = "on the stick"
) -> Update:
    """The newest update that can go on this computer; raises NoUpdate with why there is none."""
    every = sorted(found, key=lambda update: numbers(update.version), reverse=True)
    fitting = [update for update in every if not refusal(update, version, here)]
    if fitting:
        return fitting[0]
    if not every:
        raise NoUpdate(f"there is no update {where}; make one with pack-update")
    near = [update for update in every if update.fits == here]
    raise NoUpdate(refusal((near or every)[0], version, here))


# --- writing -------------------------------------------------------------------------------------


def write_update(
    to: Path, version: str, fits: Fits, wheels: Mapping[str, Path], made: Moment
) -> Path:
    """Write an update into the folder `to`, which must be there; the new folder's path.

    Raises DownloadFault, and leaves nothing behind then.
    """
    name = Update(version, fits, 0, "", ()).folder
    with Folder.open(to) as root:
        try:
            with root.make(name) as inner:
                try:
                    _fill(inner, version, fits, wheels, made)
                    root.sync()
                except BaseException:
                    root.remove(inner)
                    raise
        except (DownloadFault, OSError) as error:
            raise fault_of(error, to / name) from error
    return to / name


def _fill(
    inner: Folder, version: str, fits: Fits, wheels: Mapping[str, Path], made: Moment
) -> None:
    whole = [inner.put(name, path.read_bytes()) for name, path in sorted(wheels.items())]
    said: dict[str, Any] = {
        "format": FORMAT,
        "version": version,
        "python": fits.python,
        "processor": fits.processor,
        "made": when(made),
        "files": [file._asdict() for file in whole],
    }
    listed = inner.put(LIST, sealed(said))
    for file in (*whole, listed):
        inner.read_back(file)
