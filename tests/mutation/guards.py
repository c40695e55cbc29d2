"""Guards of the reducer, found in its source, and the reducer with one of them taken out.

A guard is a condition that makes an input lead to less: an `if` that returns a refusal or nothing,
a refusal in a conditional expression, the condition of a `case`, a term of a yes-or-no question.
Each term is taken out by itself. Terms that only ask whether something is there at all are left:
without them Python stops by itself.
"""

from __future__ import annotations

import ast
import importlib
import inspect
from collections.abc import Iterator
from contextlib import contextmanager
from copy import deepcopy
from dataclasses import dataclass
from types import CodeType, FunctionType

ROOM = "kiosk.core.kiosk."
WALKED = (
    *(ROOM + name for name in "asks everyone pupil_acts adult_acts badge_acts".split()),
    *(ROOM + name for name in "trouble_acts office_acts readings deadlines".split()),
    "kiosk.core.session",
)
"""The modules whose guards the walk goes by; the others are about people and the line."""

_LESS = ("NOTHING", "False", "()", "None")
_DUE = ("check_is_due", "asks_check", "wants_isolator_off", "is_running")
"""Questions whose yes asks for more."""
_WARNS = ROOM + "readings"
"""Where what is said more is the guard: every `if` that answers."""


@dataclass(frozen=True)
class Mutant:
    """The reducer without one term of one guard."""

    module: str
    function: str
    term: str
    code: CodeType

    @property
    def id(self) -> str:
        """Where and what, without a line number."""
        return f"{self.module.rpartition('.')[2]}.{self.function}: {self.term}"[:78]


def mutants() -> tuple[Mutant, ...]:
    """Every guard of the walked modules, each term taken out once."""
    found = [m for name in WALKED for m in _of_module(importlib.import_module(name))]
    return tuple({m.id: m for m in found}.values())


@contextmanager
def without(mutant: Mutant) -> Iterator[None]:
    """The reducer without the guard, everywhere it is used."""
    function = getattr(importlib.import_module(mutant.module), mutant.function)
    assert isinstance(function, FunctionType)
    whole = function.__code__
    function.__code__ = mutant.code
    try:
        yield
    finally:
        function.__code__ = whole


def _of_module(module: object) -> Iterator[Mutant]:
    for node in ast.parse(inspect.getsource(module)).body:  # type: ignore[arg-type]
        if isinstance(node, ast.FunctionDef):
            yield from _of_function(module.__name__, node)  # type: ignore[attr-defined]


def _of_function(module: str, function: ast.FunctionDef) -> Iterator[Mutant]:
    for number, (_, terms) in enumerate(_guards(module, function)):
        for at, term in enumerate(terms):
            changed = deepcopy(function)
            guard, inside = _guards(module, changed)[number]
            _take_out(guard, inside[at])
            yield Mutant(module, function.name, ast.unparse(term), _compiled(changed))


def _compiled(function: ast.FunctionDef) -> CodeType:
    future = ast.ImportFrom("__future__", [ast.alias("annotations")], 0)
    tree = ast.fix_missing_locations(ast.Module([future, function], []))
    made = compile(tree, f"<{function.name} without a guard>", "exec").co_consts
    return next(c for c in made if isinstance(c, CodeType) and c.co_name == function.name)


# --- what is a guard -----------------------------------------------------------------------------


def _guards(module: str, function: ast.FunctionDef) -> list[tuple[ast.AST, list[ast.expr]]]:
    """The guards of a function, in order, each with its terms."""
    gives = ast.unparse(function.returns) if function.returns else ""
    found: list[tuple[ast.AST, list[ast.expr]]] = []
    for node in ast.walk(function):
        if isinstance(node, ast.If) and _holds_back(module, function, gives, node.body):
            found.append((node, _terms(node.test, ast.Or)))
        elif isinstance(node, ast.match_case) and node.guard:
            found.append((node, _terms(node.guard, ast.And)))
        elif isinstance(node, ast.IfExp) and (_is_less(node.body) or _is_less(node.orelse)):
            found.append((node, [node.test]))
        elif isinstance(node, ast.Return) and gives == "bool" and node.value:
            due = function.name in _DUE
            found.append((node, [] if due else _question_terms(node.value)))
    return [(node, [t for t in terms if not _is_there(t)]) for node, terms in found]


def _holds_back(module: str, function: ast.FunctionDef, gives: str, body: list[ast.stmt]) -> bool:
    """Whether an `if` gives less than what stands after it: a refusal, a reason why not."""
    only = body[0] if len(body) == 1 else None
    if not isinstance(only, ast.Return) or only.value is None:
        return False
    text = ast.unparse(only.value)
    if gives == "str":
        return text != "''"
    if module == _WARNS:
        return text != "()"
    return text == "True" if function.name in _DUE else _is_less(only.value)


def _question_terms(value: ast.expr) -> list[ast.expr]:
    """`a and b`, or `not (a or b)`; a single question has no term to leave out."""
    if isinstance(value, ast.BoolOp) and isinstance(value.op, ast.And):
        return value.values
    if isinstance(value, ast.UnaryOp) and isinstance(value.operand, ast.BoolOp):
        return value.operand.values
    return []


def _terms(test: ast.expr, operator: type[ast.boolop]) -> list[ast.expr]:
    is_several = isinstance(test, ast.BoolOp) and isinstance(test.op, operator)
    return test.values if is_several else [test]  # type: ignore[attr-defined]


def _is_less(value: ast.expr) -> bool:
    text = ast.unparse(value)
    return text in _LESS or text.startswith("refused(")


def _is_there(term: ast.expr) -> bool:
    """Whether a term only asks if something is there: `x is None`, `kiosk.session`."""
    text = ast.unparse(term)
    if text.endswith((" is None", " is not None")):
        return True
    return text in ("kiosk.session", "kiosk.lesson", "not group", "after", "halt")


# --- taken out -----------------------------------------------------------------------------------


def _take_out(guard: ast.AST, term: ast.expr) -> None:
    """Leave one term out of its guard, so that the guard holds back less."""
    value = _held(guard)
    if isinstance(value, ast.BoolOp) and term in value.values:
        value.values[value.values.index(term)] = ast.Constant(isinstance(value.op, ast.And))
    elif _is_none_of(value, term):
        inner = value.operand  # type: ignore[attr-defined]
        inner.values[inner.values.index(term)] = ast.Constant(isinstance(inner.op, ast.And))
    else:
        _settle(guard)


def _is_none_of(value: ast.expr, term: ast.expr) -> bool:
    """Whether the guard is `not (a or b)` and the term one of those."""
    inner = value.operand if isinstance(value, ast.UnaryOp) else None
    return isinstance(inner, ast.BoolOp) and term in inner.values


def _held(guard: ast.AST) -> ast.expr:
    match guard:
        case ast.If() | ast.IfExp():
            return guard.test
        case ast.match_case():
            assert guard.guard is not None
            return guard.guard
    assert isinstance(guard, ast.Return) and guard.value is not None
    return guard.value


def _settle(guard: ast.AST) -> None:
    """A guard of one term answers as if nothing were against it."""
    match guard:
        case ast.If():
            guard.test = ast.Constant(False)
        case ast.match_case():
            guard.guard = None
        case ast.IfExp():
            guard.test = ast.Constant(not _is_less(guard.body))
