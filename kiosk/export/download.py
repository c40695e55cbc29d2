"""A download: a new folder with the events as evidence, views of them, and a manifest last.

Success is told only after every file was synced, renamed, its folder synced, and all was read
back and found equal. Whatever goes wrong before, the unfinished folder is taken away again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from contextlib import ExitStack
from hashlib import sha256
from pathlib import Path

from kiosk.core.report import Week
from kiosk.export import manifest, page
from kiosk.export.faults import DownloadFault, fault_of
from kiosk.export.folder import Folder, Part, Written
from kiosk.export.manifest import About
from kiosk.export.rows import StoredLine, row_of
from kiosk.export.table import Table
from kiosk.export.workbook import Workbook, WorkbookFault

EVENTS, TABLE, WORKBOOK, PAGE = "events.jsonl", "events.csv", "week.xlsx", "report.html"
MARGIN = 512 * 1024
PROGRESS_STEPS = 100

Progress = Callable[[int, int], None]


def make_download(
    to: Path,
    about: About,
    lines: Iterable[StoredLine],
    week: Week,
    size: int = 0,
    progress: Progress = lambda done, whole: None,
) -> Path:
    """Write a download into the folder `to`, which must be there; the new folder's path.

    `lines` are those that `about` names, in order; `size` is their bytes together, for asking
    whether there is room; `progress` hears how many lines of how many are written. Raises
    DownloadFault, and leaves nothing behind then.
    """
    with Folder.open(to) as root:
        try:
            _ask_for_room(root, size)
            name = free_name(root, about)
            with root.make(name) as inner:
                try:
                    _fill(inner, about, lines, week, progress)
                    root.sync()
                    inner.still_there()
                except BaseException:
                    root.remove(inner)
                    raise
        except (DownloadFault, OSError, WorkbookFault) as error:
            raise fault_of(error, to) from error
    return to / name


def free_name(root: Folder, about: About) -> str:
    """`PILLARSIDE-LOG-FIRST-LAST`, with a counter if it is taken: nothing is ever overwritten."""
    base = f"PILLARSIDE-{about.log[:8].upper()}-{about.first}-{about.last}"
    name, number = base, 1
    while root.has(name):
        number += 1
        name = f"{base}-{number}"
    return name


def _ask_for_room(root: Folder, size: int) -> None:
    """The lines come three times: as they are, as a table, and in the workbook and its page."""
    needed, room = 3 * size + MARGIN, root.room()
    if room < needed:
        more = f"needs {needed / 1e6:.1f} MB, {room / 1e6:.1f} MB are free"
        raise DownloadFault("full", root.path, more)


def _fill(
    inner: Folder, about: About, lines: Iterable[StoredLine], week: Week, progress: Progress
) -> None:
    files = (
        *_write_lines(inner, about, lines, week, progress),
        _write(inner, PAGE, page.page(about, week)),
    )
    inner.sync()
    whole = (*files, _write(inner, manifest.NAME, manifest.to_bytes(about, files)))
    inner.sync()
    for file in whole:
        inner.read_back(file)


def _write_lines(
    inner: Folder, about: About, lines: Iterable[StoredLine], week: Week, progress: Progress
) -> tuple[Written, ...]:
    """The evidence and its two views, in one pass over the lines."""
    with ExitStack() as stack:
        parts = [stack.enter_context(inner.writing(n)) for n in (EVENTS, TABLE, WORKBOOK)]
        evidence, table = parts[0], Table(parts[1])
        book = stack.enter_context(Workbook(parts[2], week))
        offsets = dict(week.offsets)
        for line in _followed(about, lines, progress):
            evidence.write(line.bytes + b"\n")
            row = row_of(line, offsets)
            table.add(row)
            book.add(row)
        book.finish()
        return tuple(_finished(inner, part) for part in parts)


def _followed(
    about: About, lines: Iterable[StoredLine], progress: Progress
) -> Iterator[StoredLine]:
    """The lines, each held against its hash and the one before, to the very head."""
    seq, prev = about.first, about.prev
    often = max(1, about.lines // PROGRESS_STEPS)
    for line in lines:
        found = (line.seq, line.prev, sha256(line.bytes).hexdigest())
        if found != (seq, prev, line.hash):
            raise DownloadFault("damaged", f"line {line.seq}")
        yield line
        if (seq - about.first + 1) % often == 0:
            progress(seq - about.first + 1, about.lines)
        seq, prev = seq + 1, line.hash
    if (seq - 1, prev) != (about.last, about.head):
        raise DownloadFault("damaged", f"line {seq - 1}", f"line {about.last} was to be the last")
    progress(about.lines, about.lines)


def _write(inner: Folder, name: str, data: bytes) -> Written:
    with inner.writing(name) as part:
        part.write(data)
        return _finished(inner, part)


def _finished(inner: Folder, part: Part) -> Written:
    written = part.finish()
    inner.name_whole(part.name)
    return written
