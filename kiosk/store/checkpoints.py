"""A checkpoint for each part of the state: disposable, written with the events, never trusted.

Only a part that changed is written anew, with a sum over its bytes; the row called `head` says
which line the checkpoints stand at, by its hash, and which code wrote them. Anything amiss, and
the state is folded from the log again.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import fields, replace
from functools import cache
from hashlib import sha256
from pathlib import Path
from typing import Any, get_type_hints

from sqlalchemy import Connection, select
from sqlalchemy.dialects.sqlite import insert as upsert

import kiosk.core
from kiosk.core.kiosk import EMPTY, Kiosk
from kiosk.core.plan.shape import Plan
from kiosk.store.codec import digest
from kiosk.store.shapes import WrongShape, from_bytes, plans_looked_up, to_bytes
from kiosk.store.tables import checkpoints

FORGOTTEN = ("desk",)
"""Parts that a restart forgets."""

HEAD = "head"

_HINTS = get_type_hints(Kiosk)

_NEW = upsert(checkpoints)
_PUT = _NEW.on_conflict_do_update(
    index_elements=["part"],
    set_={name: _NEW.excluded[name] for name in ("seq", "hash", "code", "bytes")},
)


def parts() -> tuple[str, ...]:
    """The parts of the state that are kept."""
    return tuple(f.name for f in fields(Kiosk) if f.name not in FORGOTTEN)


def remembered(kiosk: Kiosk) -> Kiosk:
    """The state as a restart knows it: what is forgotten is as at the first start."""
    return replace(kiosk, **{name: getattr(EMPTY, name) for name in FORGOTTEN})


@cache
def code_print() -> str:
    """The fingerprint of the core's own code: another code may fold another state."""
    made = sha256()
    for package in kiosk.core.__path__:
        for file in sorted(Path(package).rglob("*.py")):
            made.update(file.relative_to(package).as_posix().encode() + b"\0" + file.read_bytes())
    return made.hexdigest()


class Checkpoints:
    """Writes and reads the checkpoints of one record."""

    def __init__(self, plan_of: Callable[[str], Plan]) -> None:
        self._plan_of = plan_of
        self._written: dict[str, Any] = {}
        self._last: tuple[Plan, str] | None = None

    def _digest(self, plan: Plan) -> str:
        """The plan's digest; the same plan is asked about at every event of a session."""
        if self._last is None or self._last[0] is not plan:
            self._last = (plan, plan.digest)
        return self._last[1]

    def write(self, connection: Connection, kiosk: Kiosk, seq: int, hash: str) -> None:
        """Write the parts that changed; once it is committed, `written` is told of it."""
        changed = [name for name in parts() if self._is_new(name, kiosk)]
        with plans_looked_up(self._digest, self._plan_of) as made:
            for name in changed:
                data = to_bytes(getattr(kiosk, name), made)
                _put(connection, name, seq, digest(data), data)
        _put(connection, HEAD, seq, hash, b"")

    def _is_new(self, name: str, kiosk: Kiosk) -> bool:
        return name not in self._written or self._written[name] != getattr(kiosk, name)

    def written(self, kiosk: Kiosk) -> None:
        """The parts of this state are on the card."""
        self._written = {name: getattr(kiosk, name) for name in parts()}

    def forget(self) -> None:
        """It is not known what is on the card: write every part next time."""
        self._written = {}

    def read(self, connection: Connection, seq: int, hash: str) -> Kiosk | None:
        """The state at this head; None if a checkpoint is missing, damaged or of other code."""
        rows = {row.part: row for row in connection.execute(select(checkpoints))}
        head = rows.pop(HEAD, None)
        if head is None or (head.seq, head.hash, head.code) != (seq, hash, code_print()):
            return None
        if rows.keys() != set(parts()):
            return None
        if any((row.code, row.hash) != (head.code, digest(row.bytes)) for row in rows.values()):
            return None
        try:
            with plans_looked_up(self._digest, self._plan_of) as made:
                return Kiosk(**{n: from_bytes(r.bytes, _HINTS[n], made) for n, r in rows.items()})
        except WrongShape:
            return None


def _put(connection: Connection, part: str, seq: int, hash: str, data: bytes) -> None:
    row = {"part": part, "seq": seq, "hash": hash, "code": code_print(), "bytes": data}
    connection.execute(_PUT, row)
