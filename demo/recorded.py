"""An invented term at three drills, as downloads: `python -m demo.recorded FOLDER`.

`demo/term/` keeps each log packed, without what follows from the rest: numbers, and the hashes that
chain the lines. Unpacked it is one folder for each download, with the events and the manifest of
a real one. Nobody, no school and no drill in it is real; `python -m tests.recorded` made it.
"""

from __future__ import annotations

import json
import lzma
import sys
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from kiosk.core.events import Entry, kind_of
from kiosk.core.units import Moment
from kiosk.export import About, manifest
from kiosk.export.download import EVENTS
from kiosk.export.folder import Written
from kiosk.store.codec import BEFORE_FIRST, Line, body_of, encode, event_of

TERM = Path(__file__).parent / "term"
INVENTED = "invented for the demonstration: no such school, people or drills"
SOFTWARE, SCHEMA = "pillarside 0.1.0", "0004"


@dataclass(frozen=True)
class Branch:
    """One log as one card had it. `downloads` are the first and last line of each.

    `follows`: up to that line it is the same as the other branch called so.
    """

    name: str
    machine: str
    log: str
    entries: tuple[Entry, ...]
    downloads: tuple[tuple[int, int], ...]
    follows: tuple[str, int] = ("", 0)


# --- packing ------------------------------------------------------------------------------------


def pack(branches: Sequence[Branch], to: Path) -> None:
    """Write each branch into its own file; the same branches give the same bytes."""
    to.mkdir(exist_ok=True)
    for branch in branches:
        text = "\n".join(json.dumps(row, separators=(",", ":")) for row in _rows(branch)) + "\n"
        (to / f"{branch.name}.jsonl.xz").write_bytes(lzma.compress(text.encode(), preset=9))


def _rows(branch: Branch) -> Iterator[Any]:
    yield {
        "about": INVENTED,
        "machine": branch.machine,
        "log": branch.log,
        "downloads": branch.downloads,
        "follows": branch.follows,
    }
    boot, us, offset = "", 0, 0
    for entry in branch.entries[branch.follows[1] :]:
        at, event = entry.at, entry.event
        ahead = at.wall_us - at.us
        named = "" if at.boot == boot else at.boot
        yield [named, at.us - us, ahead - offset, at.quality, kind_of(event), body_of(event)]
        boot, us, offset = at.boot, at.us, ahead


# --- unpacking ----------------------------------------------------------------------------------


def unpacked(folder: Path = TERM) -> tuple[Branch, ...]:
    """All branches, by name."""
    found: dict[str, Branch] = {}
    paths = {path.name.removesuffix(".jsonl.xz"): path for path in folder.glob("*.jsonl.xz")}
    for name, path in sorted(paths.items()):
        found[name] = _branch(name, lzma.decompress(path.read_bytes()).decode(), found)
    return tuple(found.values())


def _branch(name: str, text: str, known: dict[str, Branch]) -> Branch:
    head, *rows = (json.loads(line) for line in text.splitlines())
    other, same = head["follows"]
    before = known[other].entries[:same] if other else ()
    entries = (*before, *_entries(rows, same))
    downloads = tuple((first, last) for first, last in head["downloads"])
    return Branch(name, head["machine"], head["log"], entries, downloads, (other, same))


def _entries(rows: list[Any], same: int) -> Iterator[Entry]:
    boot, us, offset = "", 0, 0
    for seq, (named, more, ahead, quality, kind, body) in enumerate(rows, same + 1):
        boot, us, offset = named or boot, us + more, offset + ahead
        yield Entry(seq, Moment(boot, us, us + offset, quality), event_of(kind, 1, body))


def lines_of(branch: Branch) -> list[Line]:
    """The branch's lines as a record stores them."""
    lines, prev = list[Line](), BEFORE_FIRST
    for entry in branch.entries:
        lines.append(encode(branch.log, prev, entry))
        prev = lines[-1].hash
    return lines


def write_downloads(to: Path, folder: Path = TERM) -> tuple[Path, ...]:
    """Each download of the term as a folder in `to`, with its events and its manifest."""
    made = []
    for branch in unpacked(folder):
        lines = lines_of(branch)
        for first, last in branch.downloads:
            made.append(_download(to, branch, lines[first - 1 : last]))
    return tuple(made)


def _download(to: Path, branch: Branch, lines: list[Line]) -> Path:
    first, last = lines[0], lines[-1]
    inner = to / f"{branch.name}-{first.seq}-{last.seq}"
    inner.mkdir(parents=True)
    data = b"".join(line.bytes + b"\n" for line in lines)
    (inner / EVENTS).write_bytes(data)
    at = branch.entries[last.seq - 1].at
    about = About(
        log=branch.log,
        span="all",
        first=first.seq,
        last=last.seq,
        prev=first.prev,
        head=last.hash,
        machine=branch.machine,
        software=SOFTWARE,
        schema=SCHEMA,
        made=at,
    )
    file = Written(EVENTS, len(data), sha256(data).hexdigest())
    (inner / manifest.NAME).write_bytes(manifest.to_bytes(about, (file,)))
    return inner


if __name__ == "__main__":
    for path in write_downloads(Path(sys.argv[1])):
        print(path)
