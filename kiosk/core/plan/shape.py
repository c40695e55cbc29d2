"""The values a plan is made of, and its digest."""

from __future__ import annotations

import json
from dataclasses import dataclass, fields, is_dataclass
from enum import Enum
from functools import cached_property
from hashlib import sha256
from typing import Any, get_args

from kiosk.core.machining.worked import Figure, Value
from kiosk.core.model import Fact, Level, Needs, Part
from kiosk.core.units import Length, Quantity


@dataclass(frozen=True)
class SetUp:
    """What may stand for the next pupil: belt, bit, table, stop and the way of holding.

    `groove` counts from the top, 1 first. `stop` is None where the hole goes through or the
    machine has no depth stop.
    """

    groove: int
    bit: str
    diameter: Length
    table: str
    stop: Length | None
    way: str


@dataclass(frozen=True)
class PlanStep:
    """One step of a plan. Its texts are the words `step.ID.title` and so on.

    They and its drawing take the plan's values, and over them `values`, the step's own: those of
    the machine in a recovery, none in a plan.
    """

    id: str
    part: str  # `ready`, `set-up`, `look`, `work`, `check`, `drill`, `clear`, `recovery`
    who: str  # `pupil`, `adult`
    needs: Needs
    touches: tuple[Part, ...]
    makes: tuple[Fact, ...]
    controls: tuple[str, ...]
    picture: str
    values: tuple[tuple[str, Value], ...]


@dataclass(frozen=True)
class Plan:
    """All a session needs.

    `fresh`, `joining` and `further` are the ways up to the adult check: with the set-up to be
    made, with one that is kept, and for the next hole of the same kind. Each ends with one
    `check` step (asked only when an adult must look) and one `drill` step. `clear` follows the
    last hole. `look_for` names the steps whose `check` line the adult reads, at most 7.
    """

    machine: str
    job: str
    hole: int
    holes: int
    level: Level
    checks_every: str  # `hole`, `session`, `set-up`
    set_up: SetUp
    figures: tuple[Figure, ...]
    values: tuple[tuple[str, Value], ...]
    fresh: tuple[PlanStep, ...]
    joining: tuple[PlanStep, ...]
    further: tuple[PlanStep, ...]
    clear: tuple[PlanStep, ...]
    look_for: tuple[str, ...]

    def path(self, name: str) -> tuple[PlanStep, ...]:
        """The steps of `fresh`, `joining`, `further` or `clear`."""
        paths = {"fresh": self.fresh, "joining": self.joining, "further": self.further}
        return paths.get(name, self.clear)

    @property
    def first_set_up(self) -> int:
        """Where the set-up begins on the fresh path: the first step that is not getting ready."""
        return next((i for i, s in enumerate(self.fresh) if s.part != "ready"), 0)

    @cached_property
    def digest(self) -> str:
        """SHA-256 of the plan's canonical bytes, in hexadecimal."""
        return sha256(canonical(plain(self))).hexdigest()


_QUANTITIES = get_args(Quantity)


def plain(value: Any) -> Any:
    """A value as JSON can hold it: lengths and other quantities as whole thousandths."""
    if value is None or isinstance(value, str | int):
        return value
    if isinstance(value, tuple):
        return [plain(v) for v in value]
    if isinstance(value, _QUANTITIES):
        return {name: round(number * 1000) for name, number in vars(value).items()}
    if isinstance(value, Enum):
        return value.value
    if is_dataclass(value) and not isinstance(value, type):
        return {f.name: plain(getattr(value, f.name)) for f in fields(value)}
    raise TypeError(f"a plan holds no {type(value).__name__}")


def canonical(value: Any) -> bytes:
    """Canonical JSON (RFC 8785) of whole numbers, strings and their lists and maps."""
    return json.dumps(value, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()
