"""A package: what a stick brings in, as a folder with a list of its files and their hashes.

It is written as a download is, its list last; so a folder with no list, or with a file that is
not as the list says, is a torn one. Each has a name of its own, `PILLARSIDE-IN-1` and so on: the
one with the highest number counts, and nothing is ever overwritten.
"""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from kiosk.core.units import Moment
from kiosk.export.faults import DownloadFault, fault_of
from kiosk.export.folder import Folder, Written
from kiosk.export.manifest import NewerFormat, NotAManifest, sealed, unsealed, when, written

PREFIX = "PILLARSIDE-IN-"
LIST = "package.json"
FORMAT = 1
ROSTERS = ("roster.csv", "roster.xlsx")
REVOKED = "revoked.txt"
SCHOOL = "school"
MOST_FILES, MOST_BYTES = 500, 32_000_000

_SCHOOL_FILE = re.compile(rf"{SCHOOL}/(?:[a-z]+/)?[A-Za-z0-9_-]+\.yaml")
_FOLDER = re.compile(rf"{PREFIX}(\d{{1,6}})")


class NotAPackage(Exception):
    """What lies there is no package that can be taken in.

    `why` is `torn` or `newer`; the text says what was found.
    """

    def __init__(self, why: str, text: str) -> None:
        self.why = why
        super().__init__(text)


@dataclass(frozen=True)
class Package:
    """What a list says: its digest, when it was put together, and the files.

    `made_us` is the wall clock, in microseconds of UTC, of the machine that did.
    """

    digest: str
    made_us: int
    files: tuple[Written, ...]

    @property
    def roster(self) -> str:
        """The name of the roster's file; empty without one."""
        return next((f.name for f in self.files if f.name in ROSTERS), "")

    @property
    def parts(self) -> tuple[str, ...]:
        """What it has of `roster`, `revoked` and `school`."""
        names = [file.name for file in self.files]
        school = any(map(is_schools, names))
        has = (("roster", bool(self.roster)), ("revoked", REVOKED in names), ("school", school))
        return tuple(part for part, there in has if there)


def may_be_in(name: str) -> bool:
    """Whether a package may have a file of this name."""
    return name in (*ROSTERS, REVOKED) or bool(_SCHOOL_FILE.fullmatch(name))


def is_schools(name: str) -> bool:
    """Whether a file is of the school's own folder."""
    return name.startswith(f"{SCHOOL}/")


def number_of(name: str) -> int:
    """The number in the name of a package's folder; 0 for any other name."""
    found = _FOLDER.fullmatch(name)
    return int(found[1]) if found else 0


def list_to_bytes(files: tuple[Written, ...], made: Moment, software: str) -> bytes:
    """The list of these files, for people to read too."""
    said: dict[str, Any] = {
        "format": FORMAT,
        "made": when(made),
        "software": software,
        "files": [file._asdict() for file in files],
    }
    return sealed(said)


def list_from_bytes(data: bytes) -> Package:
    """The package that a list tells of; raises NotAPackage."""
    try:
        said = unsealed(data, LIST, FORMAT)
        package = Package(said["digest"], int(said["made"]["wall_us"]), written(said))
    except NewerFormat as error:
        raise NotAPackage("newer", str(error)) from None
    except NotAManifest as error:
        raise NotAPackage("torn", str(error)) from None
    except (KeyError, TypeError, ValueError) as error:
        raise NotAPackage("torn", f"{LIST}: {error}") from None
    _see_names(package)
    return package


def _see_names(package: Package) -> None:
    names = [file.name for file in package.files]
    strange = [name for name in names if not may_be_in(name)]
    if strange:
        raise NotAPackage("torn", f"{LIST} names {strange[0]!r}, which no package has")
    if not names or len(set(names)) != len(names) or sum(n in ROSTERS for n in names) > 1:
        raise NotAPackage("torn", f"{LIST} names nothing, or a file twice")
    if len(names) > MOST_FILES or sum(file.size for file in package.files) > MOST_BYTES:
        raise NotAPackage("torn", f"more than {MOST_FILES} files or {MOST_BYTES} bytes")


# --- writing -------------------------------------------------------------------------------------


def write_package(
    to: Path, files: Mapping[str, bytes], made: Moment, software: str, mounted: bool = False
) -> Path:
    """Write a package into the folder `to`, which must be there; the new folder's path.

    With `mounted`, `to` must be the root of a stick. Raises DownloadFault, and leaves nothing
    behind then.
    """
    with Folder.open(to, mounted) as root:
        try:
            name = f"{PREFIX}{1 + max(map(number_of, root.names()), default=0)}"
            with root.make(name) as inner:
                try:
                    _fill(inner, files, made, software)
                    root.sync()
                    inner.still_there()
                except BaseException:
                    root.remove(inner)
                    raise
        except (DownloadFault, OSError) as error:
            raise fault_of(error, to) from error
    return to / name


def _fill(inner: Folder, files: Mapping[str, bytes], made: Moment, software: str) -> None:
    whole = tuple(inner.put(name, data) for name, data in sorted(files.items()))
    listed = inner.put(LIST, list_to_bytes(whole, made, software))
    for file in (*whole, listed):
        inner.read_back(file)
