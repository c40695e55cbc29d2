"""Proves a download: whole, unchanged, each line linked to the one before, extending the last.

It shares no code with what wrote the record: it goes by the bytes in the folder alone.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from kiosk.core.plan.shape import canonical
from kiosk.core.problems import Place, Problem
from kiosk.export import manifest
from kiosk.export.download import EVENTS
from kiosk.export.folder import CHUNK, Written
from kiosk.export.manifest import NotAManifest

ENVELOPE = {
    "log": str,
    "seq": int,
    "prev": str,
    "boot": str,
    "us": int,
    "wall_us": int,
    "quality": int,
    "kind": str,
    "v": int,
    "body": dict,
}


@dataclass(frozen=True)
class Verdict:
    """What came of it: every problem found, and what the download says it is."""

    problems: tuple[Problem, ...]
    said: dict[str, Any]
    begins: int = 1

    def __str__(self) -> str:
        said = self.said
        first, last = said["first"], said["last"]
        several = f"{last - first + 1} events, {first} to {last}"
        return (
            f"whole and unchanged: {f'1 event, {first},' if first == last else several} "
            f"of record {said['log'][:8]}, head {said['head'][:16]}{self._beginning}"
        )

    @property
    def _beginning(self) -> str:
        """Where the record begins, if retention has taken away what was before."""
        taken = f"events 1 to {self.begins - 1} were kept long enough and are gone"
        return f"; the record begins at event {self.begins}: {taken}" if self.begins > 1 else ""


@dataclass(frozen=True)
class _Seen:
    """One line as found in the file; `kind` as far as it can be told."""

    number: int
    seq: int
    kind: str
    prev: str
    hash: str
    body: dict[str, Any]


def verify(folder: Path, previous: Path | None = None) -> Verdict:
    """Look at every file of a download, and whether it extends the `previous` one."""
    try:
        said = manifest.read(folder)
        files = manifest.written(said)
    except OSError as error:
        return Verdict((_unreadable(folder, error),), {})
    except NotAManifest as error:
        return Verdict((Problem(Place(str(folder / manifest.NAME)), str(error)),), {})
    chain = tuple(_chain(folder / EVENTS, said)) if (folder / EVENTS).is_file() else ()
    problems = (*chain, *_files(folder, files), *_strangers(folder, files))
    purged = None if problems else _last_purged(folder / EVENTS, said)
    problems = problems or tuple(_beginning(folder / EVENTS, said, purged))
    if previous is not None and not problems:
        problems = tuple(_extends(folder, said, previous, purged))
    return Verdict(problems, said, purged.body["last"] + 1 if purged else 1)


def _unreadable(folder: Path, error: OSError) -> Problem:
    place = Place(str(folder / manifest.NAME))
    inner = sorted(p.parent.name for p in folder.glob(f"*/{manifest.NAME}"))
    advice = f"name one of the downloads in it: {', '.join(inner)}" if inner else ""
    return Problem(place, error.strerror or str(error), "a finished download", advice)


# --- where the record begins -------------------------------------------------------------------


def _last_purged(path: Path, said: dict[str, Any]) -> _Seen | None:
    """The last event of the download that says what was taken away; None if there is none."""
    fields = {"first", "last", "head"}
    found = (s for s in _lines(path, said) if s.kind == "purged" and s.body.keys() == fields)
    return max(found, key=lambda seen: seen.number, default=None)


def _beginning(path: Path, said: dict[str, Any], purged: _Seen | None) -> Iterator[Problem]:
    """Whether what the download holds agrees with what it says was taken away."""
    if purged is None:
        return
    last, place = purged.body["last"], Place(str(path), purged.number)
    if said["first"] <= last:
        found = f"event {purged.seq} says that events up to {last} are gone"
        yield Problem(place, found, f"events from {said['first']} on, which are here")
    elif said["first"] == last + 1 and said["prev"] != purged.body["head"]:
        yield Problem(place, f"event {said['first']} does not follow the last one taken away")


# --- files --------------------------------------------------------------------------------------


def _files(folder: Path, files: tuple[Written, ...]) -> Iterator[Problem]:
    """Files that are missing or not as the manifest says."""
    for file in files:
        path = folder / file.name
        if Path(file.name).name != file.name or not path.is_file():
            yield Problem(Place(str(path)), "missing", f"{file.size} bytes")
        elif path.stat().st_size != file.size:
            yield Problem(Place(str(path)), f"{path.stat().st_size} bytes", f"{file.size} bytes")
        elif _hash(path) != file.sha256:
            yield Problem(Place(str(path)), "changed since it was written")
    if EVENTS not in {file.name for file in files}:
        yield Problem(Place(str(folder / manifest.NAME)), f"does not name {EVENTS}")


def _hash(path: Path) -> str:
    found = sha256()
    with path.open("rb") as file:
        while data := file.read(CHUNK):
            found.update(data)
    return found.hexdigest()


def _strangers(folder: Path, files: tuple[Written, ...]) -> Iterator[Problem]:
    """Files that the manifest does not name; hidden ones of other systems are passed over."""
    known = {manifest.NAME, *(file.name for file in files)}
    for path in sorted(folder.iterdir()):
        if path.name not in known and not path.name.startswith("."):
            yield Problem(Place(str(path)), "not part of the download", "only what it names")


# --- the chain ----------------------------------------------------------------------------------


def _chain(path: Path, said: dict[str, Any]) -> Iterator[Problem]:
    """The first thing wrong in the events, named by its number and kind."""
    before: _Seen | None = None
    try:
        for seen in _lines(path, said):
            expected = before.hash if before else said["prev"]
            if seen.prev != expected:
                yield _broken_link(path, said, before, seen)
                return
            before = seen
    except NotALine as error:
        yield error.problem
        return
    last, head = (before.seq, before.hash) if before else (said["first"] - 1, said["prev"])
    if last != said["last"]:
        yield Problem(Place(str(path)), f"ends with event {last}", f"up to event {said['last']}")
    elif head != said["head"]:
        kind = before.kind if before else ""
        yield _changed(path, last - said["first"] + 1, last, kind)


def _broken_link(path: Path, said: dict[str, Any], before: _Seen | None, seen: _Seen) -> Problem:
    """Two lines don't fit: the later one is to blame if the one after it doesn't fit it either."""
    follower = next((s for s in _lines(path, said) if s.number == seen.number + 1), None)
    follows = follower.prev if follower else said["head"]
    if before is None or follows != seen.hash:
        return _changed(path, seen.number, seen.seq, seen.kind)
    return _changed(path, before.number, before.seq, before.kind)


def _changed(path: Path, number: int, seq: int, kind: str) -> Problem:
    found = f"event {seq} ({kind}) is not what was recorded"
    return Problem(Place(str(path), number), found)


class NotALine(Exception):
    """A line of events.jsonl that can't be one."""

    def __init__(self, problem: Problem) -> None:
        super().__init__(str(problem))
        self.problem = problem


def _lines(path: Path, said: dict[str, Any]) -> Iterator[_Seen]:
    """The lines of the file in order; raises NotALine at the first that can't be one."""
    with path.open("rb") as file:
        for number, line in enumerate(file, 1):
            yield _line(path, said, number, line)


def _line(path: Path, said: dict[str, Any], number: int, line: bytes) -> _Seen:
    seq = said["first"] + number - 1
    why = _wrong(line, said["log"], seq)
    if why:
        found = f"event {seq} ({_kind(line)}) is not what was recorded: {why}"
        raise NotALine(Problem(Place(str(path), number), found))
    event, data = json.loads(line), line[:-1]
    kind, prev, body = event["kind"], event["prev"], event["body"]
    return _Seen(number, seq, kind, prev, sha256(data).hexdigest(), body)


def _wrong(line: bytes, log: str, seq: int) -> str:
    """Why a line can't be event `seq` of the log; empty if it can."""
    if not line.endswith(b"\n"):
        return "its line has no end"
    try:
        event = json.loads(line)
        is_canonical = canonical(event) == line[:-1]
    except (ValueError, RecursionError):
        return "not JSON"
    if not isinstance(event, dict) or event.keys() != ENVELOPE.keys():
        return "not the fields of an event"
    if any(type(event[name]) is not kind for name, kind in ENVELOPE.items()):
        return "a field of another type"
    if not is_canonical:
        return "not in canonical form (RFC 8785)"
    if event["log"] != log:
        return "from another record"
    return "" if event["seq"] == seq else f"numbered {event['seq']}"


def _kind(line: bytes) -> str:
    found = re.search(rb'"kind":"([a-z_]{1,60})"', line)
    return found[1].decode() if found else "kind unreadable"


# --- extending the last one ---------------------------------------------------------------------


def _extends(
    folder: Path, said: dict[str, Any], previous: Path, purged: _Seen | None
) -> Iterator[Problem]:
    """Why the download does not carry on from the previous one, if it doesn't."""
    place = Place(str(folder))
    try:
        before = manifest.read(previous)
    except OSError as error:
        yield _unreadable(previous, error)
        return
    except NotAManifest as error:
        yield Problem(Place(str(previous / manifest.NAME)), str(error))
        return
    if said["log"] != before["log"]:
        yield from _renewed(folder, said, before)
    elif said["last"] < before["last"]:
        found = f"ends at event {said['last']}"
        yield Problem(place, found, f"at least event {before['last']}, as the previous one has")
    elif said["first"] > before["last"] + 1:
        since, until = before["last"] + 1, said["first"] - 1
        gap = f"event {since} is" if since == until else f"events {since} to {until} are"
        gone = purged is not None and purged.body["last"] == said["first"] - 1
        advice = "they were kept long enough and are gone" if gone else "download a longer span"
        yield Problem(place, f"{gap} in neither", "no gap", advice)
    elif _hash_at(folder, said, before["last"]) != before["head"]:
        found = f"event {before['last']} is not the one in the previous download"
        yield Problem(place, found, "the same record carried on")


def _hash_at(folder: Path, said: dict[str, Any], seq: int) -> str:
    if seq == said["first"] - 1:
        return str(said["prev"])
    return next(s.hash for s in _lines(folder / EVENTS, said) if s.seq == seq)


def _renewed(folder: Path, said: dict[str, Any], before: dict[str, Any]) -> Iterator[Problem]:
    """Another log carries on only if it begins with a pointer to the previous one's very end."""
    with (folder / EVENTS).open("rb") as file:
        line = file.readline()
    event = json.loads(line) if said["first"] == 1 and line else {"kind": "", "body": {}}
    pointer = {"log": before["log"], "last": before["last"], "head": before["head"]}
    if event["kind"] != "record_renewed" or event["body"] != pointer:
        found = f"from record {said['log'][:8]}"
        yield Problem(Place(str(folder)), found, f"record {before['log'][:8]}, carried on")
