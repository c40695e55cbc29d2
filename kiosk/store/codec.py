"""Events to the bytes that the chain is made of, and back.

One line is canonical JSON (RFC 8785) of the whole envelope: `log`, `seq`, `prev`, `boot`, `us`,
`wall_us`, `quality`, `kind`, `v`, `body`. Its hash is SHA-256 over exactly these bytes, and
`prev` is the hash of the line before. Stored bytes never change: a body of an older version
passes through pure upcasters, and a kind that is not known here is carried as it is.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, fields
from hashlib import sha256
from typing import Any, NamedTuple, get_type_hints

import rfc8785

from kiosk.core.events import RECORDED_KINDS, Entry, Event, kind_of
from kiosk.core.plan.shape import canonical
from kiosk.core.units import Moment

BEFORE_FIRST = "0" * 64
"""What the first line of a log has for `prev`."""

ENVELOPE: Mapping[str, type] = {
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

Body = dict[str, Any]
Upcaster = Callable[[Body], Body]

UPCASTERS: Mapping[tuple[str, int], Upcaster] = {}
"""From (kind, old version) to the function that makes a body of the next version of it."""


class Line(NamedTuple):
    """One stored line: the bytes and their hash, and what is kept beside them for finding."""

    seq: int
    wall_us: int
    quality: int
    kind: str
    v: int
    prev: str
    hash: str
    bytes: bytes


@dataclass(frozen=True)
class UnknownKind(Event):
    """An event of a kind or version that is not known here: carried, verified, never folded."""

    kind: str
    version: int
    body: str


class NotALine(ValueError):
    """Bytes that are not one line of a record; the text says why."""


def encode(log: str, prev: str, entry: Entry) -> Line:
    """The line of an entry. Raises ValueError for an event that is never recorded."""
    event, at = entry.event, entry.at
    kind = kind_of(event)
    if RECORDED_KINDS.get(kind) is not type(event):
        raise ValueError(f"{kind} is not a recorded kind of event")
    envelope = {
        "log": log,
        "seq": entry.seq,
        "prev": prev,
        "boot": at.boot,
        "us": at.us,
        "wall_us": at.wall_us,
        "quality": at.quality,
        "kind": kind,
        "v": event.v,
        "body": body_of(event),
    }
    data = rfc8785.dumps(envelope)  # type: ignore[arg-type]
    return Line(entry.seq, at.wall_us, at.quality, kind, event.v, prev, digest(data), data)


def decode(data: bytes) -> tuple[Line, Entry]:
    """The line and entry of stored bytes; raises NotALine unless they are canonical."""
    said = envelope_of(data)
    at = Moment(said["boot"], said["us"], said["wall_us"], said["quality"])
    entry = Entry(said["seq"], at, event_of(said["kind"], said["v"], said["body"]))
    beside = (said["seq"], said["wall_us"], said["quality"], said["kind"], said["v"], said["prev"])
    return Line(*beside, digest(data), data), entry


def envelope_of(data: bytes) -> Body:
    """The envelope in the bytes of a line; raises NotALine unless they are its canonical form."""
    try:
        said = json.loads(data)
    except ValueError as error:
        raise NotALine(f"not JSON ({error})") from None
    if not isinstance(said, dict) or said.keys() != ENVELOPE.keys():
        raise NotALine("not the fields of a record's line")
    for name, of in ENVELOPE.items():
        if type(said[name]) is not of:
            raise NotALine(f"{name} is {said[name]!r}; allowed: {of.__name__}")
    if canonical(said) != data:
        raise NotALine("not in canonical form (RFC 8785)")
    return said


def digest(data: bytes) -> str:
    """SHA-256 of the bytes, in hexadecimal."""
    return sha256(data).hexdigest()


def body_of(event: Event) -> Body:
    """The event's fields as JSON can hold them: whole numbers, texts and lists of them."""
    return {name: _plain(getattr(event, name)) for name in _HINTS[type(event)]}


def event_of(kind: str, version: int, body: Body) -> Event:
    """The event of a stored body, brought up to the version known here; else an UnknownKind."""
    known = RECORDED_KINDS.get(kind)
    if known is None or version > known.v:
        return _carried(kind, version, body)
    now = body
    for old in range(version, known.v):
        if (kind, old) not in UPCASTERS:
            return _carried(kind, version, body)
        now = UPCASTERS[kind, old](now)
    values = _values(known, now)
    return _carried(kind, version, body) if values is None else known(**values)


def _carried(kind: str, version: int, body: Body) -> UnknownKind:
    return UnknownKind(kind, version, json.dumps(body, sort_keys=True, ensure_ascii=False))


def is_known(kind: str, version: int) -> bool:
    """Whether an event of this kind and version can be taken in here."""
    known = RECORDED_KINDS.get(kind)
    return known is not None and version <= known.v


def _values(known: type[Event], body: Body) -> Body | None:
    """The body's values for the fields of the kind; None if they don't fit."""
    hints = _HINTS[known]
    if body.keys() != hints.keys() or not all(_fits(body[n], h) for n, h in hints.items()):
        return None
    return {n: tuple(v) if isinstance(v, list) else v for n, v in body.items()}


def _fits(value: Any, hint: Any) -> bool:
    if hint in (int, str):
        return type(value) is hint
    return isinstance(value, list) and all(type(v) is str for v in value)


def _plain(value: Any) -> Any:
    return list(value) if isinstance(value, tuple) else value


def _fields(known: type[Event]) -> Mapping[str, Any]:
    """The fields of a kind with their types, each `int`, `str` or a tuple of `str`."""
    hints = get_type_hints(known)
    return {f.name: hints[f.name] for f in fields(known)}


_HINTS: Mapping[type[Event], Mapping[str, Any]] = {k: _fields(k) for k in RECORDED_KINDS.values()}
