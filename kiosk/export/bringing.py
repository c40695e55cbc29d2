"""Copies a package from a stick, which may be torn, pulled out or hostile, and checks it whole.

What is looked at afterwards is what was read alone: so what is taken in is what was shown,
whatever becomes of the stick. The school's folder is copied to the card; lists of people are not,
since names may be in them. Everything on the stick goes by open folders, no link is followed, and
nothing but plain files of the size that the list says is read.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator, Mapping, Set
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path

from kiosk.export.faults import DownloadFault
from kiosk.export.folder import Folder, NotAsListed, Written
from kiosk.export.package import (
    LIST,
    SCHOOL,
    NotAPackage,
    Package,
    is_schools,
    list_from_bytes,
    number_of,
)

LONGEST_LIST = 1 << 20
NOT_AS_LISTED = (errno.ENOENT, errno.ELOOP, errno.ENOTDIR)
"""Missing, a link, or a file where a folder should be."""

DROPPINGS = ("thumbs.db", "desktop.ini")
"""What other systems leave in a folder that was only looked at; and names with a dot before."""

TEXTS = {
    "no_package": "no package on the stick; make one with `pillarside pack`",
    "gone": "the stick was taken out; put it in and try again",
    "failing": "the stick does not answer as it should; take another one",
    "torn": "the package is not whole; pack it again",
    "newer": "the package was made by a newer version; update the kiosk first",
    "card": "the kiosk's own card could not take it; nothing was changed",
}


class PackageFault(Exception):
    """Nothing can be taken in, and nothing was changed.

    `why` is one of the words of `TEXTS`; the text is one line.
    """

    def __init__(self, why: str, where: object, more: str = "") -> None:
        self.why = why
        super().__init__(f"{where}: {TEXTS[why]}" + (f" ({more})" if more else ""))


@dataclass(frozen=True)
class Brought:
    """A package that is whole: its lists of people by file name, and the school's folder if any."""

    package: Package
    lists: Mapping[str, bytes]
    school: Path | None


def bring(stick: Path, to: Path, mounted: bool = False) -> Brought:
    """The newest package of a stick, checked whole; its school's folder copied into `to`.

    The copy lies under the package's digest; one that is there already is not made again. With
    `mounted`, `stick` must be the root of one. Raises PackageFault, and leaves no half copy that
    anything would take for a whole one.
    """
    with _reading(stick), Folder.open(stick, mounted) as root:
        name = max(root.names(), key=number_of, default="")
        if not number_of(name):
            raise PackageFault("no_package", stick)
        with root.inside(name) as folder:
            package = list_from_bytes(b"".join(_plain_file(folder, LIST, LONGEST_LIST)))
            _see_nothing_else(folder, package)
            data = {file.name: _checked(folder, file) for file in package.files}
            listed = b"".join(_plain_file(folder, LIST, LONGEST_LIST))
    lists = {name: found for name, found in data.items() if not is_schools(name)}
    schools = {name: found for name, found in data.items() if is_schools(name)}
    copy = to / package.digest
    if schools and amiss(copy):
        _copy(to, package.digest, {**schools, LIST: listed})
    return Brought(package, lists, copy / SCHOOL if schools else None)


@contextmanager
def _reading(stick: Path) -> Iterator[None]:
    """Whatever goes wrong as a PackageFault."""
    try:
        yield
    except NotAPackage as found:
        raise PackageFault(found.why, stick, str(found)) from found
    except DownloadFault as fault:
        raise PackageFault("gone", stick) from fault
    except OSError as error:
        if error.errno in NOT_AS_LISTED:
            raise PackageFault("torn", stick, f"{error.filename}: {error.strerror}") from error
        gone = not os.path.exists(stick)
        raise PackageFault("gone" if gone else "failing", stick, error.strerror or "") from error


def _plain_file(folder: Folder, name: str, most: int) -> Iterator[bytes]:
    """The bytes of a plain file of at most so many; raises NotAPackage for anything else."""
    above, _, rest = name.partition("/")
    if rest:
        with folder.inside(above) as deeper:
            yield from _plain_file(deeper, rest, most)
        return
    try:
        yield from folder.plain(name, most)
    except NotAsListed as error:
        raise NotAPackage("torn", str(error)) from error


def _see_nothing_else(folder: Folder, package: Package) -> None:
    """A file that was put in by hand would be left out without a word: it is told instead."""
    listed = {LIST, *(file.name for file in package.files)}
    for name in _all_names(folder):
        last = name.rpartition("/")[2].lower()
        if name not in listed and not last.startswith(".") and last not in DROPPINGS:
            raise NotAPackage("torn", f"{name!r} is not in the list; pack it in")


def _all_names(folder: Folder, deep: int = 2) -> Iterator[str]:
    """The names of all files, with those of the folders they lie in, so many folders deep."""
    for name in folder.names():
        inner = folder.inside(name) if deep and folder.has_folder(name) else None
        if inner is None:
            yield name
        else:
            with inner:
                yield from (f"{name}/{one}" for one in _all_names(inner, deep - 1))


# --- the copy on the card ------------------------------------------------------------------------


def _copy(to: Path, name: str, files: Mapping[str, bytes]) -> None:
    try:
        with Folder.open(to.parent) as above, above.at(to.name) as kept:
            above.sync()  # or a cut would take the copies' own folder away
            _write_copy(kept, name, files)
    except (OSError, DownloadFault) as error:
        raise PackageFault("card", to, str(error)) from error


def _checked(folder: Folder, file: Written) -> bytes:
    data = b"".join(_plain_file(folder, file.name, file.size))
    if len(data) != file.size or sha256(data).hexdigest() != file.sha256:
        raise NotAPackage("torn", f"{file.name} is not as the list says")
    return data


def _write_copy(kept: Folder, name: str, files: Mapping[str, bytes]) -> None:
    """Whole under its own name, or not at all; what an earlier cut left is taken away first."""
    for left in (name, f"{name}.part"):
        if kept.has(left):
            with kept.inside(left) as old:
                kept.remove(old)
    with kept.make(f"{name}.part") as part:
        for file, data in files.items():
            part.put(file, data)
    kept.name_whole(name)
    kept.sync()


def amiss(copy: Path) -> str:
    """What is wrong with a copy on the card; empty if it is whole."""
    try:
        with Folder.open(copy) as folder:
            package = list_from_bytes(b"".join(_plain_file(folder, LIST, LONGEST_LIST)))
            for file in package.files:
                if is_schools(file.name):
                    _checked(folder, file)
    except (NotAPackage, DownloadFault, OSError) as error:
        return str(error)
    return "" if package.digest == copy.name else f"{LIST} is another package's"


def clear_copies(of: Path, but: Set[str]) -> None:
    """Take away the copies that nothing goes by any more."""
    with suppress(OSError, DownloadFault), Folder.open(of) as kept:
        for name in kept.names():
            if name not in but:
                with kept.inside(name) as old:
                    kept.remove(old)
