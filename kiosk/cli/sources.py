"""What a report is made from: a kiosk's record, or downloads, each as logs to go through once."""

from __future__ import annotations

from array import array
from collections import defaultdict
from collections.abc import Callable, Container, Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import islice
from pathlib import Path
from typing import TYPE_CHECKING, Any

from kiosk.core.report import Log
from kiosk.export import manifest
from kiosk.export.download import EVENTS
from kiosk.store import ReadOnlyRecord
from kiosk.store.following import Following
from kiosk.store.reading import SPANS as SPAN_US
from kiosk.store.reading import first_within

if TYPE_CHECKING:
    from kiosk.store.collected import Collected, CollectedLog

Progress = Callable[[int, int], None]
BLOCK = 1 << 20  # bytes of events that are read at once
PAGE = 4000  # lines of a collected log that are looked at at once


class NoSource(Exception):
    """There is nothing to report on; the text says why in one line."""


@dataclass(frozen=True)
class Taken:
    """One download: its folder and what its manifest says."""

    folder: Path
    said: dict[str, Any]

    def blocks(self) -> Iterator[bytes]:
        """Its events, many whole lines at a time."""
        with (self.folder / EVENTS).open("rb") as file:
            while lines := file.readlines(BLOCK):
                yield b"".join(lines)


def of_record(record: ReadOnlyRecord, span: str, progress: Progress) -> tuple[Log, ...]:
    """A span of a kiosk's own record as one log."""
    asked = record.span(span, sized=False)
    if asked.last < asked.first:
        raise NoSource(f"{record.path}: nothing is recorded in this span")
    return (of_stretch(record, asked.first, asked.last, progress),)


def of_stretch(record: ReadOnlyRecord, first: int, last: int, progress: Progress) -> Log:
    """Some lines of a kiosk's own record as a log."""
    following = Following(record.plan_of, overlaps=False)
    moved = Moved(progress, last - first + 1)
    blocks = moved.through(record.blocks(first, last))
    return Log(following.entries(blocks), record.log, record.machine(), following.faults)


def of_downloads(folders: Sequence[Path], span: str, progress: Progress) -> tuple[Log, ...]:
    """Downloads as one log for each record they are of, overlapping ones counted once."""
    by_log: defaultdict[str, list[Taken]] = defaultdict(list)
    for folder in folders:
        for taken in found_in(folder):
            by_log[taken.said["log"]].append(taken)
    if not by_log:
        raise NoSource(
            f"{places(folders)}: no download in there; name a folder with {manifest.NAME}"
        )
    whole = sum(_size(taken) for each in by_log.values() for taken in each)
    moved = Moved(progress, whole)
    return tuple(_log(id, taken, span, moved) for id, taken in sorted(by_log.items(), key=_drill))


def of_collected(collected: Collected, span: str, site: str, progress: Progress) -> tuple[Log, ...]:
    """Every log of a collected database, or of one school in it."""
    found = [log for log in collected.logs() if site in ("", log.site)]
    if not found:
        raise NoSource(f"nothing was collected{f' of {site}' if site else ' yet'}")
    moved = Moved(progress, sum(log.count for log in found))
    return tuple(_collected(collected, log, SPAN_US.get(span, 0), moved) for log in found)


def _collected(collected: Collected, log: CollectedLog, span_us: int, moved: Moved) -> Log:
    following = Following()
    blocks = moved.through(in_blocks(collected.lines(log, span_us)))
    entries = following.entries(blocks)
    return Log(entries, log.log, log.machine, following.faults)


def _drill(found: tuple[str, list[Taken]]) -> tuple[str, str]:
    """Drills by name, then by record."""
    id, taken = found
    return str(taken[0].said["machine"]), id


def found_in(folder: Path) -> tuple[Taken, ...]:
    """The download in a folder, or all those in its folders. Raises NoSource."""
    inner = [folder] if (folder / manifest.NAME).is_file() else sorted(folder.glob("*/"))
    found = [each for each in inner if (each / manifest.NAME).is_file()]
    try:
        return tuple(Taken(each, manifest.read(each)) for each in found)
    except (OSError, manifest.NotAManifest) as error:
        raise NoSource(f"{folder}: {error}; take the download again") from error


def places(folders: Iterable[Path]) -> str:
    """The folders that were named."""
    return ", ".join(map(str, folders))


def only(logs: tuple[Log, ...], drill: str, where: str) -> tuple[Log, ...]:
    """The logs of one drill, or all if none is named. Raises NoSource."""
    kept = tuple(log for log in logs if drill in ("", log.about))
    if not kept:
        there = ", ".join(sorted({log.about for log in logs} - {""})) or "none"
        raise NoSource(f"--drill {drill}: nothing of it in {where}; drills in there: {there}")
    return kept


def taken_of(folders: Iterable[Path], logs: Container[str]) -> tuple[Taken, ...]:
    """The downloads in folders that are of some logs."""
    found = (taken for folder in folders for taken in found_in(folder))
    return tuple(taken for taken in found if taken.said["log"] in logs)


def _size(taken: Taken) -> int:
    return int(taken.said["last"]) - int(taken.said["first"]) + 1


def _log(id: str, taken: list[Taken], span: str, moved: Moved) -> Log:
    """One record's downloads in the order they were made."""
    in_order = sorted(taken, key=lambda one: (one.said["made"]["wall_us"], one.said["last"]))
    following = Following()
    skip = _before(in_order, span) if span in SPAN_US else 0
    blocks = moved.through(_blocks(in_order, following))
    entries = islice(following.entries(blocks), skip, None)
    return Log(entries, id, str(in_order[-1].said["machine"]), following.faults)


def _blocks(taken: list[Taken], following: Following) -> Iterator[bytes]:
    """The blocks of downloads one after the other, with what the manifest says of their ends."""
    for one in taken:
        following.begins(int(one.said["first"]))
        yield from one.blocks()
        following.ends(int(one.said["last"]), str(one.said["head"]))


def _before(taken: list[Taken], span: str) -> int:
    """How many entries lie before the span."""
    walls, qualities = array("q"), array("b")
    following = Following()
    for entry in following.entries(_blocks(taken, following)):
        walls.append(entry.at.wall_us)
        qualities.append(entry.at.quality)
    backwards = range(len(walls) - 1, -1, -1)
    return first_within(((at, walls[at], qualities[at]) for at in backwards), SPAN_US[span])


@dataclass
class Moved:
    """Counts lines of several files for one progress bar."""

    progress: Progress
    whole: int
    done: int = 0

    def through(self, blocks: Iterable[bytes]) -> Iterator[bytes]:
        """The blocks, with progress told after each."""
        for block in blocks:
            yield block
            self.done += block.count(b"\n")
            self.progress(self.done, self.whole)


def in_blocks(lines: Iterable[bytes]) -> Iterator[bytes]:
    """Lines without line ends as blocks of many whole lines."""
    left = iter(lines)
    while block := list(islice(left, PAGE)):
        yield b"\n".join((*block, b""))


def groups_of(record: ReadOnlyRecord | None) -> dict[str, str]:
    """The names of groups as the record keeps them; downloads hold none."""
    return {group.id: group.name for group in record.groups()} if record else {}
