"""Whether one of the reducer's own tests fails just now, and what it says."""

from __future__ import annotations

from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
QUIETLY = ("-q", "-x", "--capture=no", "-p", "no:randomly", "-p", "no:cacheprovider")


class Heard:
    """Hears the first test that fails."""

    def __init__(self) -> None:
        self.tests = 0
        self.said = ""

    def pytest_runtest_logreport(self, report: pytest.TestReport) -> None:
        self.tests += report.when == "call"
        if report.failed and not self.said:
            crash = getattr(report.longrepr, "reprcrash", None)
            self.said = f"{report.nodeid}: {crash.message if crash else report.longreprtext}"


def failure_of(test: str, full: bool) -> str:
    """What the test says that fails; empty if it passes. `test`: FILE::NAME under tests/core."""
    heard = Heard()
    here = str(ROOT / "tests" / "core" / test)
    pytest.main([here, *QUIETLY, *(["--full"] if full else [])], plugins=[heard])
    assert heard.tests or heard.said, f"there is no test {test}"
    return heard.said
