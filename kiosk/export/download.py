"""A download: a new folder with the events as evidence, views of them, and a manifest last.

Success is told only after every file was synced, renamed, its folder synced, and all was read
back and found equal. Whatever goes wrong before, the unfinished folder is taken away again.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack
from hashlib import sha256
from pathlib import Path

from kiosk.core.report import Report
from kiosk.export import manifest
from kiosk.export.faults import DownloadFault, fault_of
from kiosk.export.folder import Folder, Part, Written
from kiosk.export.manifest import About
from kiosk.export.report import Made, Told, report_page
from kiosk.export.rows import StoredLine, StoredLines, row_of
from kiosk.export.table import Table
from kiosk.export.workbook import Workbook, WorkbookFault

EVENTS, TABLE, WORKBOOK, PAGE = "events.jsonl", "events.csv", "week.xlsx", "report.html"
MARGIN = 512 * 1024
PROGRESS_STEPS = 100

Progress = Callable[[int, int], None]


def make_download(
    to: Path,
    about: About,
    lines: StoredLines,
    report: Report,
    size: int = 0,
    progress: Progress = lambda done, whole: None,
    mounted: bool = False,
) -> Path:
    """Write a download into the folder `to`, which must be there; the new folder's path.

    `lines` are those that `about` names, in order, and are gone through twice; `size` is their
    bytes together, for asking whether there is room; `progress` hears how many lines of how many
    are in the views; with `mounted`, `to` must be the root of a stick. Raises DownloadFault, and
    leaves nothing behind then.
    """
    with Folder.open(to, mounted) as root:
        try:
            _ask_for_room(root, size)
            name = free_name(root, about)
            with root.make(name) as inner:
                try:
                    _fill(inner, about, lines, report, progress)
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
    inner: Folder, about: About, lines: StoredLines, report: Report, progress: Progress
) -> None:
    files = (
        *_write_lines(inner, about, lines, report, progress),
        inner.put(PAGE, _page(about, report)),
    )
    inner.sync()
    whole = (*files, inner.put(manifest.NAME, manifest.to_bytes(about, files)))
    inner.sync()
    for file in whole:
        inner.read_back(file)


def _page(about: About, report: Report) -> bytes:
    made = Made(about.span, about.software, about.made)
    return report_page(report, Told(), made, about).encode() + b"\n"


def _write_lines(
    inner: Folder, about: About, lines: StoredLines, report: Report, progress: Progress
) -> tuple[Written, ...]:
    """The evidence; then its two views, in a second pass over the lines."""
    with ExitStack() as stack:
        parts = [stack.enter_context(inner.writing(n)) for n in (EVENTS, TABLE, WORKBOOK)]
        evidence = write_evidence(parts[0], lines)
        table, book = Table(parts[1]), stack.enter_context(Workbook(parts[2], report))
        offsets = dict(report.offsets)
        for line in _followed(about, lines, evidence, progress):
            row = row_of(line, offsets)
            table.add(row)
            book.add(row)
        book.finish()
        inner.name_whole(EVENTS)
        return (evidence, *(_finished(inner, part) for part in parts[1:]))


def write_evidence(part: Part, lines: StoredLines) -> Written:
    """Write the stored bytes as they are; what was written."""
    for block in lines.blocks():
        part.write(block)
    return part.finish()


def _followed(
    about: About, lines: StoredLines, evidence: Written, progress: Progress
) -> Iterator[StoredLine]:
    """The lines, each held against its hash and the one before, to the head; then all of them
    against what was written as evidence.
    """
    seq, prev, found = about.first, about.prev, sha256()
    often = max(1, about.lines // PROGRESS_STEPS)
    for line in lines:
        if (line.seq, line.prev, line.hash) != (seq, prev, sha256(line.bytes).hexdigest()):
            raise DownloadFault("damaged", f"line {line.seq}")
        found.update(line.bytes + b"\n")
        yield line
        if (seq - about.first + 1) % often == 0:
            progress(seq - about.first + 1, about.lines)
        seq, prev = seq + 1, line.hash
    if (seq - 1, prev) != (about.last, about.head):
        raise DownloadFault("damaged", f"line {seq - 1}", f"line {about.last} was to be the last")
    if found.hexdigest() != evidence.sha256:
        raise DownloadFault("changed", EVENTS)
    progress(about.lines, about.lines)


def _finished(inner: Folder, part: Part) -> Written:
    written = part.finish()
    inner.name_whole(part.name)
    return written
