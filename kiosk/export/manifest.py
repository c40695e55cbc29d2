"""manifest.json: what a download holds, written last; a folder without one is not a download."""

from __future__ import annotations

import json
from dataclasses import dataclass
from hashlib import sha256
from pathlib import Path
from typing import Any

from kiosk.core.plan.shape import canonical
from kiosk.core.units import Moment
from kiosk.export.folder import Written
from kiosk.export.rows import CLOCKS, utc

NAME = "manifest.json"
FORMAT = 1
FIELDS = {
    "format": int,
    "log": str,
    "span": str,
    "first": int,
    "last": int,
    "prev": str,
    "head": str,
    "machine": str,
    "software": str,
    "schema": str,
    "made": dict,
    "files": list,
    "digest": str,
}


@dataclass(frozen=True)
class About:
    """What a download is: a stretch of one log, and what made it when.

    Lines `first` to `last` of `log`; `prev` is the hash before the first, `head` that of the last.
    """

    log: str
    span: str
    first: int
    last: int
    prev: str
    head: str
    machine: str
    software: str
    schema: str
    made: Moment

    @property
    def lines(self) -> int:
        """How many lines there are."""
        return self.last - self.first + 1


class NotAManifest(ValueError):
    """A manifest that can't be read or was changed; the text says why."""


class NewerFormat(NotAManifest):
    """A list of a later format than is known here."""


def to_bytes(about: About, files: tuple[Written, ...]) -> bytes:
    """The manifest of these files, for people to read too."""
    said: dict[str, Any] = {
        "format": FORMAT,
        "log": about.log,
        "span": about.span,
        "first": about.first,
        "last": about.last,
        "prev": about.prev,
        "head": about.head,
        "machine": about.machine,
        "software": about.software,
        "schema": about.schema,
        "made": when(about.made),
        "files": [file._asdict() for file in files],
    }
    return sealed(said)


def read(folder: Path) -> dict[str, Any]:
    """The manifest in a folder; raises NotAManifest, FileNotFoundError if there is none."""
    try:
        said = json.loads((folder / NAME).read_bytes())
    except ValueError as error:
        raise NotAManifest(f"not JSON ({error})") from None
    if not isinstance(said, dict) or said.get("format") != FORMAT:
        raise NotAManifest(f"not a manifest of format {FORMAT}")
    for name, kind in FIELDS.items():
        if type(said.get(name)) is not kind:
            raise NotAManifest(f"{name} is {said.get(name)!r}; allowed: {kind.__name__}")
    if said["digest"] != digest_of({k: v for k, v in said.items() if k != "digest"}):
        raise NotAManifest("changed since it was written: its digest is another")
    return said


def when(made: Moment) -> dict[str, Any]:
    """A moment as a list has it, for people to read too."""
    clock = CLOCKS[made.quality]
    return {"utc": utc(made.wall_us), "wall_us": made.wall_us, "clock": clock}


def sealed(said: dict[str, Any]) -> bytes:
    """A list as it is written, with its own digest in it."""
    said = {**said, "digest": digest_of(said)}
    return json.dumps(said, indent=2, ensure_ascii=False).encode() + b"\n"


def unsealed(data: bytes, name: str, newest: int) -> dict[str, Any]:
    """What a sealed list says; raises NotAManifest, NewerFormat above the format `newest`."""
    try:
        said = json.loads(data)
        found = said["format"]
    except (ValueError, KeyError, TypeError):
        raise NotAManifest(f"{name} is cut or changed") from None
    if type(found) is not int or found > newest:
        raise NewerFormat(f"{name} is of format {found}; known here: {newest}")
    if said.get("digest") != digest_of({k: v for k, v in said.items() if k != "digest"}):
        raise NotAManifest(f"{name} was changed since it was written")
    return dict(said)


def written(said: dict[str, Any]) -> tuple[Written, ...]:
    """The files a manifest names; raises NotAManifest."""
    try:
        return tuple(Written(**file) for file in said["files"])
    except TypeError as error:
        raise NotAManifest(f"files: {error}") from None


def digest_of(said: dict[str, Any]) -> str:
    """SHA-256 of what a list says, in canonical form and without its own digest."""
    return sha256(canonical(said)).hexdigest()
