"""From written nodes to frozen values by their types, with every mistake on the way.

cattrs builds the values; the hooks here refuse unknown and missing keys and read texts. All
mistakes of a page come back together, one for each mistake.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import MISSING, fields, is_dataclass
from typing import Any, TypeVar, get_args, get_origin

from cattrs import Converter
from cattrs.errors import BaseValidationError, ClassValidationError
from cattrs.gen import make_dict_structure_fn

from kiosk.content.values import Fault, reader_of
from kiosk.content.written import Listing, Mapping, Node, Page, Text
from kiosk.core.problems import Place, Problem, nearest

Made = TypeVar("Made")


class Faults(Exception):
    """Several mistakes found while one value was built."""

    def __init__(self, faults: list[Fault]) -> None:
        super().__init__(f"{len(faults)} mistakes")
        self.faults = faults


def structure(page: Page, kind: type[Made]) -> tuple[Made | None, tuple[Problem, ...]]:
    """The value of type `kind` on the page, or every problem of the page."""
    if page.node is None or page.problems:
        return None, page.problems
    try:
        return _CONVERTER.structure(page.node, kind), ()
    except (Fault, Faults, BaseValidationError) as error:
        return None, tuple(problem(page.name, f) for f in _leaves(error))


def problem(file: str, fault: Fault) -> Problem:
    """The fault as a problem of a file."""
    found = f"{fault.key}: {fault.found}" if fault.key else fault.found
    return Problem(Place(file, fault.line), found, fault.allowed, fault.advice)


def keys_of(kind: type[Any]) -> tuple[str, ...]:
    """The keys that a written mapping of this type may have."""
    return tuple(f.name for f in fields(kind) if f.name != "line")


def _leaves(error: BaseException) -> Iterator[Fault]:
    match error:
        case Fault():
            yield error
        case Faults():
            yield from error.faults
        case BaseValidationError():
            for inner in error.exceptions:
                yield from _leaves(inner)
        case _:
            raise error


def _mapping_fn(kind: type[Any]) -> Callable[[Node, type[Any]], Any]:
    build = make_dict_structure_fn(kind, _CONVERTER, _cattrs_detailed_validation=True)
    allowed = keys_of(kind)
    needed = frozenset(f.name for f in fields(kind) if _is_needed(f))

    def structure_mapping(node: Node, _: type[Any]) -> Any:
        if not isinstance(node, Mapping):
            raise Fault(node.line, "a text or list where keys are expected", ", ".join(allowed))
        faults = list(_key_faults(node, allowed, needed))
        try:
            made = build(_padded(node, allowed, needed), kind)
        except ClassValidationError as error:
            faults += [fault for fault in _keyed(error) if fault.line >= 0]
        if faults:
            raise Faults(faults)
        return made

    return structure_mapping


def _keyed(error: ClassValidationError) -> Iterator[Fault]:
    """The faults in the values of a mapping, each with the key it stands under."""
    for inner, note in error.group_exceptions()[0]:
        for fault in _leaves(inner):
            if fault.key is None:
                fault.key = note.name
            yield fault


def _key_faults(node: Mapping, allowed: tuple[str, ...], needed: frozenset[str]) -> Iterator[Fault]:
    for key in node:
        if key not in allowed:
            advice = nearest(key, [a for a in allowed if a not in node])
            needed -= {a for a in needed if repr(a) in advice}
            found = f"unknown key {str(key)!r}"
            yield _whole(Fault(key.line, found, ", ".join(allowed), advice))
    for name in allowed:
        if name in needed and name not in node:
            missing = f"key {name!r} is missing"
            yield _whole(Fault(node.line, missing, advice=f"add a line {name}: ..."))


def _whole(fault: Fault) -> Fault:
    """The fault, said of the mapping itself and of none of its keys."""
    fault.key = ""
    return fault


def _is_needed(field: Any) -> bool:
    return field.default is MISSING and field.default_factory is MISSING


def _padded(node: Mapping, allowed: tuple[str, ...], needed: frozenset[str]) -> dict[str, Any]:
    """The known keys, and something for those missing, which are reported already."""
    known = {str(key): value for key, value in node.items() if key in allowed}
    return {**dict.fromkeys(needed, _ABSENT), **known, "line": node.line}


class _Absent(Text):
    """Stands for a missing key whose absence has been reported already."""


_ABSENT = _Absent.at("", -1)


def _tuple(node: Node, kind: type[Any]) -> tuple[Any, ...]:
    if node is _ABSENT:
        raise Fault(-1, "missing")
    if not isinstance(node, Listing):
        raise Fault(node.line, "one value where a list is expected", "a list such as [a, b]")
    inner, made, faults = get_args(kind)[0], [], []
    for item in node:
        try:
            made.append(_CONVERTER.structure(item, inner))
        except (Fault, Faults, BaseValidationError) as error:
            faults += list(_leaves(error))
    if faults:
        raise Faults(faults)
    return tuple(made)


def _dict(node: Node, kind: type[Any]) -> dict[Text, Any]:
    if node is _ABSENT:
        raise Fault(-1, "missing")
    if not isinstance(node, Mapping):
        raise Fault(node.line, "a text or list where names are expected", "name: value lines")
    inner = get_args(kind)[1]
    pairs = _tuple(_values(node), tuple[inner, ...])  # type: ignore[valid-type]
    return dict(zip(node, pairs, strict=True))


def _values(node: Mapping) -> Listing:
    values = Listing(node.values())
    values.line = node.line
    return values


def _text_fn(kind: type[Any]) -> Callable[[Node, type[Any]], Any]:
    read = reader_of(kind)
    assert read is not None, f"no reader for {kind}"
    return read


def _is_written_mapping(kind: Any) -> bool:
    return is_dataclass(kind) and reader_of(kind) is None


def _converter() -> Converter:
    made = Converter(detailed_validation=True)
    made.register_structure_hook_factory(
        lambda k: not is_dataclass(k) and get_origin(k) is None and reader_of(k) is not None,
        _text_fn,
    )
    made.register_structure_hook_factory(_has_reader_and_fields, _text_fn)
    made.register_structure_hook_factory(_is_written_mapping, _mapping_fn)
    made.register_structure_hook_func(lambda k: _is(k, tuple), _tuple)
    made.register_structure_hook_func(lambda k: _is(k, dict), _dict)
    for plain in (str, bool):
        made.register_structure_hook(plain, _text_fn(plain))
    made.register_structure_hook(int, lambda node, _: node)  # the line of a mapping
    return made


def _is(kind: Any, origin: type) -> bool:
    return get_origin(kind) is origin


def _has_reader_and_fields(kind: Any) -> bool:
    return is_dataclass(kind) and reader_of(kind) is not None


_CONVERTER = _converter()
