"""A sheet's files on a stick, each whole or not at all; an older one of its name gives way."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from pathlib import Path

from kiosk.export.faults import DownloadFault, fault_of
from kiosk.export.folder import Folder

FOLDER = "PILLARSIDE-SHEETS"
MARGIN = 64 * 1024

Progress = Callable[[], None]


def put_on_stick(
    to: Path, files: Mapping[str, bytes], moved: Progress, mounted: bool = False
) -> Path:
    """Write files into a folder of sheets in `to`; the path of that folder.

    Each is synced, read back and compared; `moved` is told after each. With `mounted`, `to` must
    be the root of a stick. Raises DownloadFault; files that were whole before then stay.
    """
    with Folder.open(to, mounted) as root:
        try:
            _ask_for_room(root, files)
            with root.at(FOLDER) as folder:
                for name, data in files.items():
                    _put(folder, name, data)
                    moved()
                root.sync()
                folder.still_there()
        except (DownloadFault, OSError) as error:
            raise fault_of(error, to) from error
    return to / FOLDER


def _ask_for_room(root: Folder, files: Mapping[str, bytes]) -> None:
    needed, room = sum(map(len, files.values())) + MARGIN, root.room()
    if room < needed:
        more = f"needs {needed / 1e6:.1f} MB, {room / 1e6:.1f} MB are free"
        raise DownloadFault("full", root.path, more)


def _put(folder: Folder, name: str, data: bytes) -> None:
    """One file; what a stick pulled out earlier has left of it is taken away first."""
    folder.take_away(f"{name}.part")
    try:
        folder.read_back(folder.put(name, data))
    except OSError:
        folder.take_away(f"{name}.part")
        raise
