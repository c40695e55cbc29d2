"""What all tests share: `--full`, summary lines, a display on demand, no thread left behind."""

from __future__ import annotations

import os
import re
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from hypothesis import HealthCheck, settings

from demo.displays import Displays, NoDisplay

# Kivy reads these when it is first imported: arguments are ours alone, and no log files.
os.environ.setdefault("KIVY_NO_ARGS", "1")
os.environ.setdefault("KIVY_NO_FILELOG", "1")

FOUND = "found"
WINDOWED = pytest.StashKey[bool]()

# No test has a stopwatch: a busy machine is no fault of the code. Examples are the same at each
# run, so that a failure is the change's own; with `--full` they are new ones each time.
PATIENT = {"deadline": None, "suppress_health_check": [HealthCheck.too_slow]}
settings.register_profile("same", derandomize=True, **PATIENT)
settings.register_profile("new", **PATIENT)
settings.load_profile("same")


def pytest_addoption(parser: pytest.Parser) -> None:
    """Add `--full`."""
    parser.addoption(
        "--full", action="store_true", help="everything at full size: takes much longer"
    )


def pytest_configure(config: pytest.Config) -> None:
    """New examples with `--full`."""
    settings.load_profile("new" if config.getoption("--full") else "same")


def pytest_sessionstart(session: pytest.Session) -> None:
    """See whether a test of this very process that runs tests itself has a window open."""
    session.stash[WINDOWED] = "kivy.core.window" in sys.modules


def pytest_collection_finish(session: pytest.Session) -> None:
    """Kivy's window opens where it is imported, so that belongs into a test, not above it."""
    if "kivy.core.window" in sys.modules and not session.stash[WINDOWED]:
        raise pytest.UsageError("a module of tests opens Kivy's window while it is imported")


@pytest.fixture(scope="session")
def full(request: pytest.FixtureRequest) -> bool:
    """Whether everything runs at full size."""
    return bool(request.config.getoption("--full"))


@pytest.fixture
def sum_up(request: pytest.FixtureRequest) -> Callable[[str], None]:
    """Takes the one line that says what a proof found; it is printed before pytest's summary."""

    def keep(line: str) -> None:
        request.node.user_properties.append((FOUND, line))

    return keep


@pytest.hookimpl(trylast=True)
def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """The tour, which mostly waits, begins at once; the other tests go by beside it."""
    items.sort(key=lambda item: item.get_closest_marker("tour") is None)


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Print the lines of `sum_up`, also of runs on several processes and of failed tests."""
    reports = (r for status in ("passed", "failed") for r in terminalreporter.getreports(status))
    lines = [
        line
        for r in reports
        if r.when == "call"
        for name, line in r.user_properties
        if name == FOUND
    ]
    if lines:
        terminalreporter.section("what was found")
        terminalreporter.write("".join(f"{line}\n" for line in (*lines, *_in_all(lines))))


def _in_all(lines: list[str]) -> tuple[str, ...]:
    """All kinds of mutants in one line, where each kind has its own."""
    counts = [
        m for line in lines if (m := re.match(r"mutation, .*: (\d+) tried, (\d+) caught", line))
    ]
    tried, caught = (sum(int(count[n]) for count in counts) for n in (1, 2))
    return (f"mutation: {tried} tried, {caught} caught",) if counts else ()


@pytest.fixture(scope="session")
def root() -> Path:
    """The project's root folder."""
    return Path(__file__).parents[1]


@pytest.fixture(scope="session")
def displays() -> Iterator[Callable[[int, int], str]]:
    """Gives the name of a display so many pixels wide and high, started the first time.

    Where none can be started the test is skipped with the reason; in continuous integration
    it fails, so that nothing goes untested without a word.
    """
    with Displays() as started:

        def display(width: int, height: int) -> str:
            try:
                return started.of(width, height)
            except NoDisplay as reason:
                (pytest.fail if os.environ.get("CI") else pytest.skip)(str(reason))

        yield display


@pytest.fixture(scope="session")
def display(displays: Callable[[int, int], str]) -> str:
    """A display with room for either panel and the bench strip."""
    return displays(1280, 1024)


@pytest.fixture(autouse=True)
def no_thread_left() -> Iterator[None]:
    """Fail a test that leaves a thread alive which would keep the program from ending."""
    before = set(threading.enumerate())
    yield
    left = [t for t in threading.enumerate() if t not in before and not t.daemon]
    for thread in left:
        thread.join(timeout=1.0)
    alive = [thread.name for thread in left if thread.is_alive()]
    if alive:
        pytest.fail(f"threads left alive: {', '.join(alive)}")
