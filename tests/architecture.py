"""Reads the source of the rooms by `ast` and says where it breaks the house's rules.

Each check takes modules and gives findings as lines of text, so that a test can plant a
violation and see it found.
"""

from __future__ import annotations

import ast
import sys
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from pathlib import Path

ROOMS = ("kiosk", "hardware", "demo", "tests")
LONGEST_FUNCTION = 40
LONGEST_FILE = 300

CORE_ORDER = (
    "units",
    "values",
    "problems",
    "words",
    "model",
    "machining",
    "assessment",
    "plan",
    "events",
    "contacts",
    "inputs",
    "session",
    "kiosk",
    "rules",
    "view",
    "walk",
    "report",
)

# Who may import what of ours. A room may always import itself; the longest name that fits counts.
MAY_IMPORT: dict[str, tuple[str, ...]] = {
    "kiosk": (),
    "kiosk.core": (),
    "kiosk.clock": ("kiosk.core",),
    "kiosk.content": ("kiosk.core",),
    "kiosk.store": ("kiosk.core",),
    "kiosk.drawings": ("kiosk.core",),
    "kiosk.people": ("kiosk.core",),
    "kiosk.installing": ("kiosk.core",),
    "kiosk.selftest": ("kiosk.core", "kiosk.drawings"),
    "kiosk.updating": ("kiosk.core", "kiosk.store", "kiosk.export"),
    "hardware": ("kiosk.core",),
    "kiosk.export": ("kiosk.core", "kiosk.drawings"),
    "kiosk.screens": ("kiosk.core.view", "kiosk.core.inputs", "kiosk.drawings"),
    "kiosk.runtime": (
        "kiosk.core",
        "kiosk.content",
        "kiosk.store",
        "kiosk.export",
        "kiosk.drawings",
        "kiosk.people",
        "kiosk.clock",
        "hardware",
    ),
    "kiosk.cli": (
        "kiosk.core",
        "kiosk.content",
        "kiosk.store",
        "kiosk.export",
        "kiosk.people",
        "kiosk.installing",
        "kiosk.selftest",
        "kiosk.updating",
        "kiosk.clock",
    ),
    "kiosk.main": (
        "kiosk.core",
        "kiosk.runtime",
        "kiosk.screens",
        "kiosk.drawings",
        "kiosk.cli",
        "kiosk.content",
        "kiosk.updating",
    ),
    "demo": ("kiosk", "hardware"),
    "tests": ("kiosk", "hardware", "demo"),
}

# Libraries that have a home, so that replacing one is one room's work. Tests may use any.
HOMES: dict[str, tuple[str, ...]] = {
    "kivy": ("kiosk.screens", "kiosk.main", "demo"),
    "serial": ("hardware",),
    "sqlalchemy": ("kiosk.store",),
    "alembic": ("kiosk.store",),
    "psycopg": ("kiosk.store",),
    "yaml": ("kiosk.content",),
    "cattrs": ("kiosk.content", "kiosk.store"),
    "argon2": ("kiosk.people",),
    "openpyxl": ("kiosk.people",),
    "click": ("kiosk.cli", "kiosk.main", "demo"),
    "xlsxwriter": ("kiosk.export",),
    "weasyprint": ("kiosk.export",),
    "sdnotify": ("kiosk.runtime",),
}

CLOCKS = {
    ("time", "time"),
    ("time", "time_ns"),
    ("datetime", "now"),
    ("datetime", "utcnow"),
    ("datetime", "today"),
    ("date", "today"),
}
IMPURE = ("time", "threading", "asyncio", "socket", "subprocess", "random", "secrets", "sqlite3")


@dataclass(frozen=True)
class Module:
    """One source file: its dotted name, its path from the root, and its tree."""

    name: str
    path: str
    text: str
    tree: ast.Module

    @property
    def parts(self) -> tuple[str, ...]:
        """The dotted name in parts."""
        return tuple(self.name.split("."))


@dataclass(frozen=True)
class Import:
    """One import: the full dotted name of what is imported, and its line."""

    target: str
    line: int


def modules(root: Path) -> tuple[Module, ...]:
    """Every Python file of the rooms."""
    paths = (path for room in ROOMS for path in sorted((root / room).rglob("*.py")))
    return tuple(parsed(str(p.relative_to(root)), p.read_text("utf-8")) for p in paths)


def parsed(path: str, text: str) -> Module:
    """The module of a file's text."""
    parts = Path(path).with_suffix("").parts
    name = ".".join(parts[:-1] if parts[-1] == "__init__" else parts)
    return Module(name, path, text, ast.parse(text, path))


def imports(module: Module) -> Iterator[Import]:
    """Everything the module imports, in functions and under TYPE_CHECKING too."""
    is_package = module.path.endswith("__init__.py")
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Import):
            yield from (Import(alias.name, node.lineno) for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            up = node.level - (1 if is_package else 0)
            parent = module.parts[: len(module.parts) - up] if node.level else ()
            source = ".".join((*parent, *filter(None, [node.module])))
            yield from (Import(f"{source}.{alias.name}", node.lineno) for alias in node.names)


def is_in(name: str, room: str) -> bool:
    """Whether a dotted name is a room or lies in it."""
    return name == room or name.startswith(room + ".")


def room_of(name: str) -> str:
    """The room a module belongs to."""
    return max((room for room in MAY_IMPORT if is_in(name, room)), key=len, default="")


def wrong_imports(module: Module) -> Iterator[str]:
    """Imports of our own that the table does not allow."""
    room = room_of(module.name)
    for found in imports(module):
        target = room_of(found.target)
        if not target or target == room or found.target.startswith(f"{room}."):
            continue
        if not any(is_in(found.target, allowed) for allowed in MAY_IMPORT[room]):
            yield f"{module.path}:{found.line}: {room} may not import {found.target}"


def strangers_in_core(module: Module) -> Iterator[str]:
    """Imports in the core that are neither the core's nor the standard library's."""
    if is_in(module.name, "kiosk.core"):
        for found in imports(module):
            first = found.target.split(".")[0]
            if first in IMPURE or (
                first not in sys.stdlib_module_names and not is_in(found.target, "kiosk.core")
            ):
                yield f"{module.path}:{found.line}: the core may not import {found.target}"


def backward_imports(module: Module) -> Iterator[str]:
    """Imports in the core of a later file than the importing one."""
    here = _place(module.name)
    if here is None:
        return
    for found in imports(module):
        there = _place(found.target)
        if there is not None and there > here:
            yield f"{module.path}:{found.line}: imports {found.target}, which comes later"


def unplaced(module: Module) -> Iterator[str]:
    """A file of the core that has no place in the order."""
    inside = module.name.startswith("kiosk.core.")
    if inside and module.parts[2] not in CORE_ORDER:
        yield f"{module.path}: {module.parts[2]} has no place in the order of the core"


def _place(name: str) -> int | None:
    parts = name.split(".")
    known = parts[:2] == ["kiosk", "core"] and len(parts) > 2 and parts[2] in CORE_ORDER
    return CORE_ORDER.index(parts[2]) if known else None


def away_from_home(module: Module) -> Iterator[str]:
    """Imports of a library outside the rooms that are its home."""
    if module.parts[0] == "tests":
        return
    for found in imports(module):
        homes = HOMES.get(found.target.split(".")[0])
        if homes and not any(is_in(module.name, home) for home in homes):
            yield f"{module.path}:{found.line}: {found.target} belongs to {', '.join(homes)}"


def mocks(module: Module) -> Iterator[str]:
    """Imports of mocks."""
    for found in imports(module):
        if is_in(found.target, "unittest.mock") or is_in(found.target, "mock"):
            yield f"{module.path}:{found.line}: a small real thing serves better than a mock"


def wall_clocks(module: Module) -> Iterator[str]:
    """Calls that read the wall clock."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Name | ast.Attribute):
            owner = node.value.id if isinstance(node.value, ast.Name) else node.value.attr
            if (owner, node.attr) in CLOCKS:
                yield f"{module.path}:{node.lineno}: reads the wall clock: {owner}.{node.attr}"
    for found in imports(module):
        if found.target in ("time.time", "time.time_ns"):
            yield f"{module.path}:{found.line}: imports the wall clock: {found.target}"


def function_lengths(module: Module) -> Iterator[tuple[int, str]]:
    """How many lines each function has without its docstring, and where it is."""
    for node in ast.walk(module.tree):
        if isinstance(node, ast.FunctionDef | ast.AsyncFunctionDef):
            first = node.body[0]
            is_docstring = ast.get_docstring(node, clean=False) is not None
            told = (first.end_lineno or 0) - first.lineno + 1 if is_docstring else 0
            lines = (node.end_lineno or 0) - node.lineno + 1 - told
            yield lines, f"{module.path}:{node.lineno} {node.name}"


def circles(all_modules: Iterable[Module]) -> Iterator[str]:
    """Modules that import each other in a circle, each circle once."""
    known = {m.name: m for m in all_modules}
    links = {name: sorted(_reached(m, known)) for name, m in known.items()}
    done: set[str] = set()
    for name in links:
        yield from _walk(name, links, [], done)


def _reached(module: Module, known: dict[str, Module]) -> set[str]:
    targets = (found.target for found in imports(module))
    hit = {t if t in known else t.rpartition(".")[0] for t in targets}
    return {t for t in hit if t in known and t != module.name}


def _walk(name: str, links: dict[str, list[str]], path: list[str], done: set[str]) -> Iterator[str]:
    if name in path:
        yield " -> ".join([*path[path.index(name) :], name])
    elif name not in done:
        for next_name in links[name]:
            yield from _walk(next_name, links, [*path, name], done)
        done.add(name)
