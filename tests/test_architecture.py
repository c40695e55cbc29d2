"""The rooms keep to themselves: who imports whom, how long things are, no clock, no mocks."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest

from tests import architecture
from tests.architecture import LONGEST_FILE, LONGEST_FUNCTION, Module, parsed

ROOT = Path(__file__).parents[1]
ALL = architecture.modules(ROOT)
CLOCK = "kiosk.clock"
Check = Callable[[Module], Iterator[str]]

CHECKS: tuple[Check, ...] = (
    architecture.wrong_imports,
    architecture.strangers_in_core,
    architecture.backward_imports,
    architecture.unplaced,
    architecture.away_from_home,
    architecture.mocks,
)


def findings(check: Check, path: str, text: str) -> list[str]:
    """What a check says of one planted file."""
    return list(check(parsed(path, text)))


@pytest.mark.parametrize("check", CHECKS, ids=lambda check: check.__name__)
def test_every_module_keeps_the_rule(check: Check) -> None:
    found = [line for module in ALL for line in check(module)]

    assert not found, "\n".join(found)


def test_every_room_is_read() -> None:
    rooms = {module.parts[0] for module in ALL}

    assert rooms == set(architecture.ROOMS)
    assert len(ALL) > 50


def test_no_module_imports_itself_in_a_circle() -> None:
    found = list(architecture.circles(m for m in ALL if m.parts[0] != "tests"))

    assert not found, "\n".join(found)


def test_only_one_module_reads_the_wall_clock() -> None:
    program = [m for m in ALL if m.parts[0] in ("kiosk", "hardware") and m.name != CLOCK]

    found = [line for module in program for line in architecture.wall_clocks(module)]

    assert not found, "\n".join(found)


def test_no_function_is_too_long() -> None:
    worst = sorted((one for m in ALL for one in architecture.function_lengths(m)), reverse=True)

    print("longest functions:", *(f"{lines} {where}" for lines, where in worst[:5]), sep="\n  ")
    too_long = [f"{lines} {where}" for lines, where in worst if lines > LONGEST_FUNCTION]
    assert not too_long, "\n".join(too_long)


def test_no_file_is_too_long() -> None:
    worst = sorted(((m.text.count("\n"), m.path) for m in ALL), reverse=True)

    print("longest files:", *(f"{lines} {path}" for lines, path in worst[:5]), sep="\n  ")
    too_long = [f"{lines} {path}" for lines, path in worst if lines > LONGEST_FILE]
    assert not too_long, "\n".join(too_long)


@pytest.mark.parametrize("room", ["kiosk.core", "kiosk.cli", "kiosk.runtime"])
def test_neither_window_nor_serial_port_comes_with(room: str) -> None:
    """Told by a fresh interpreter, so that imports of imports count too."""
    inside = [m.name for m in ALL if architecture.is_in(m.name, room)]
    question = f"import sys, {', '.join(inside)}; print(*sys.modules)"

    answer = subprocess.run(
        [sys.executable, "-c", question], cwd=ROOT, capture_output=True, text=True, check=False
    )

    assert answer.returncode == 0, answer.stderr
    assert {name.split(".")[0] for name in answer.stdout.split()}.isdisjoint({"kivy", "serial"})


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("kiosk/core/plan/shape.py", "import kiosk.store"),
        ("kiosk/content/forms.py", "from kiosk.store import Record"),
        ("kiosk/content/forms.py", "from ..store import Record"),
        ("kiosk/content/__init__.py", "from kiosk import people"),
        ("kiosk/screens/app.py", "from kiosk.core.session import Session"),
        ("kiosk/screens/app.py", "from kiosk.core import session"),
        ("kiosk/runtime/loop.py", "def f():\n    import kiosk.screens"),
        ("kiosk/cli/adult.py", "import kiosk.runtime.loop"),
        ("hardware/reader.py", "from kiosk.drawings import shapes"),
        ("kiosk/drawings/belts.py", "from demo import tour"),
        ("kiosk/main.py", "from tests import conftest"),
    ],
)
def test_a_planted_import_of_a_closed_room_is_found(path: str, text: str) -> None:
    assert len(findings(architecture.wrong_imports, path, text)) == 1


@pytest.mark.parametrize(
    ("path", "text"),
    [
        ("kiosk/screens/app.py", "from kiosk.core.view import View"),
        ("kiosk/screens/app.py", "from kiosk.screens.parts import keys"),
        ("kiosk/content/__init__.py", "from .forms import Form"),
        ("kiosk/export/sheet.py", "from kiosk.drawings import draw"),
        ("kiosk/main.py", "from kiosk.screens import app\nfrom kiosk.runtime import loop"),
        ("tests/test_a.py", "import demo.tour, kiosk.store, hardware"),
        ("kiosk/store/record.py", "import json, sqlalchemy"),
    ],
)
def test_an_import_of_an_open_room_is_not_found(path: str, text: str) -> None:
    assert findings(architecture.wrong_imports, path, text) == []


@pytest.mark.parametrize(
    "text",
    [
        "import yaml",
        "from kivy.app import App",
        "import kiosk.store",
        "import time",
        "import random",
    ],
)
def test_a_planted_stranger_in_the_core_is_found(text: str) -> None:
    assert len(findings(architecture.strangers_in_core, "kiosk/core/session.py", text)) == 1


def test_a_planted_import_of_a_later_file_is_found() -> None:
    early, late = "kiosk/core/machining/depth.py", "kiosk/core/view/shape.py"
    text = "from kiosk.core.plan.shape import Plan"

    assert len(findings(architecture.backward_imports, early, text)) == 1
    assert findings(architecture.backward_imports, late, text) == []


def test_a_planted_file_without_a_place_in_the_core_is_found() -> None:
    assert len(findings(architecture.unplaced, "kiosk/core/tools.py", "")) == 1


@pytest.mark.parametrize("text", ["import serial", "from serial.tools import list_ports"])
def test_a_planted_library_away_from_home_is_found(text: str) -> None:
    assert len(findings(architecture.away_from_home, "kiosk/cli/run.py", text)) == 1
    assert findings(architecture.away_from_home, "hardware/port.py", text) == []


@pytest.mark.parametrize(
    "text", ["import unittest.mock", "from unittest import mock", "from unittest.mock import patch"]
)
def test_a_planted_mock_is_found(text: str) -> None:
    assert len(findings(architecture.mocks, "tests/test_a.py", text)) == 1


@pytest.mark.parametrize(
    "text",
    [
        "import time\nnow = time.time()",
        "import datetime\nnow = datetime.datetime.now()",
        "from datetime import datetime\nnow = datetime.now(UTC)",
        "from datetime import date\nday = date.today()",
        "from time import time_ns",
    ],
)
def test_a_planted_wall_clock_is_found(text: str) -> None:
    assert len(findings(architecture.wall_clocks, "kiosk/store/record.py", text)) == 1


def test_a_planted_circle_is_found() -> None:
    a = parsed("kiosk/store/a.py", "from kiosk.store import b")
    b = parsed("kiosk/store/b.py", "from kiosk.store.a import thing")

    assert list(architecture.circles([a, b])) == ["kiosk.store.a -> kiosk.store.b -> kiosk.store.a"]


def test_the_docstring_of_a_function_does_not_count() -> None:
    text = 'def f():\n    """One.\n\n    Two.\n    """\n    return 1\n'

    lengths = list(architecture.function_lengths(parsed("kiosk/a.py", text)))

    assert lengths == [(2, "kiosk/a.py:1 f")]
