"""Core's frozen values to JSON and back, generic over their fields: plans, content, checkpoints.

cattrs knows dataclasses, enums, tuples and optional values. Told here: a number stays the
number it was, a quantity among plain values is named by its type, and a plan inside a
checkpoint is its digest, since the plan itself is kept once and for all.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Iterator, Mapping
from contextlib import contextmanager
from contextvars import ContextVar
from functools import cache, partial
from operator import is_
from typing import Any, get_args

from cattrs import Converter

from kiosk.core.machining.worked import Value
from kiosk.core.model import Content
from kiosk.core.plan.shape import Plan
from kiosk.core.units import Quantity
from kiosk.store.codec import digest

QUANTITIES: Mapping[str, type] = {kind.__name__: kind for kind in get_args(Quantity)}


PLAN_VERSION = 1
PLAN_UPCASTERS: Mapping[int, Callable[[Any], Any]] = {}
"""From an old version of a plan's shape to the function that makes the next one of it."""


class WrongShape(ValueError):
    """Stored bytes that don't fit the values of this version of the software."""


def converter() -> Converter:
    """A converter for core's values. Unknown fields are refused."""
    made = Converter(forbid_extra_keys=True, prefer_attrib_converters=False)
    for kind in (int, float, bool, str):
        made.register_structure_hook_func(partial(is_, kind), partial(_same, kind))
    made.register_unstructure_hook(Value, lambda value: _told(made, value))
    made.register_structure_hook(Value, lambda value, _: _value(made, value))
    return made


def _same(kind: type, value: Any, _: Any) -> Any:
    """A plain value as it was written: a whole number stays whole, so digests stay equal."""
    allowed = (int, float) if kind is float else (kind,)
    if type(value) not in allowed:
        raise WrongShape(f"{value!r}; allowed: {kind.__name__}")
    return value


def _told(made: Converter, value: Any) -> Any:
    name = type(value).__name__
    return {name: made.unstructure(value)} if name in QUANTITIES else value


def _value(made: Converter, value: Any) -> Any:
    if not isinstance(value, dict):
        return value
    ((name, inner),) = value.items()
    return made.structure(inner, QUANTITIES[name])


_PLAIN = converter()


def to_bytes(value: Any, made: Converter = _PLAIN) -> bytes:
    """A value of core as JSON bytes, the same for the same value."""
    plain = made.unstructure(value, unstructure_as=type(value))
    return json.dumps(plain, sort_keys=True, separators=(",", ":"), ensure_ascii=False).encode()


def from_bytes(data: bytes, kind: Any, made: Converter = _PLAIN) -> Any:
    """The value in bytes that `to_bytes` made; raises WrongShape if they don't fit `kind`."""
    try:
        found = json.loads(data)
    except ValueError as error:
        raise WrongShape(f"not JSON: {error}") from error
    return _structured(found, kind, made)


def _structured(found: Any, kind: Any, made: Converter) -> Any:
    try:
        return made.structure(found, kind)
    except Exception as error:
        raise WrongShape(f"{type(error).__name__}: {error}") from error


def plan_to_bytes(plan: Plan) -> bytes:
    """A plan as it is kept: the version of its shape, the plan, and a sum over it."""
    told = _PLAIN.unstructure(plan)
    return to_bytes({"v": PLAN_VERSION, "plan": told, "sum": digest(to_bytes(told))})


def plan_from_bytes(data: bytes) -> Plan:
    """A kept plan, brought up to today's shape; raises WrongShape if its bytes were changed.

    Its sum is over the kept bytes, so that it holds whatever becomes of the shape of plans.
    """
    try:
        kept = json.loads(data)
        version, told, said = kept["v"], kept["plan"], kept["sum"]
    except (ValueError, KeyError, TypeError) as error:
        raise WrongShape(f"not a kept plan: {error!r}") from error
    if digest(to_bytes(told)) != said:
        raise WrongShape("not the plan that was kept")
    for old in range(version, PLAN_VERSION):
        told = PLAN_UPCASTERS[old](told)
    plan: Plan = _structured(told, Plan, _PLAIN)
    return plan


def content_to_bytes(content: Content) -> tuple[str, bytes]:
    """Content as it is kept, with the digest it is found by."""
    data = to_bytes(content)
    return digest(data), data


@contextmanager
def plans_looked_up(
    digest_of: Callable[[Plan], str], plan_of: Callable[[str], Plan]
) -> Iterator[Converter]:
    """A converter that, in this `with`, writes a plan as its digest and looks it up when reading.

    It is made once a process: cattrs writes code for each type that it meets.
    """
    token = _LOOKED_UP.set((digest_of, plan_of))
    try:
        yield _by_digest()
    finally:
        _LOOKED_UP.reset(token)


_LOOKED_UP: ContextVar[tuple[Callable[[Plan], str], Callable[[str], Plan]]] = ContextVar("plans")


@cache
def _by_digest() -> Converter:
    made = converter()
    made.register_unstructure_hook(Plan, lambda plan: _LOOKED_UP.get()[0](plan))
    made.register_structure_hook(Plan, lambda found, _: _LOOKED_UP.get()[1](found))
    return made
