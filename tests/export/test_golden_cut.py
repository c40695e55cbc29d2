"""The recorded, invented term with its beginning gone, as retention or a short span leaves it."""

from __future__ import annotations

from dataclasses import replace
from itertools import islice
from pathlib import Path

import pytest

from demo.recorded import write_downloads
from kiosk.cli.sources import of_downloads
from kiosk.core.report import report

pytestmark = pytest.mark.golden


@pytest.fixture(scope="module")
def downloads(tmp_path_factory: pytest.TempPathFactory) -> tuple[Path, ...]:
    return write_downloads(tmp_path_factory.mktemp("term"))


@pytest.mark.parametrize(("span", "gone"), [("all", 0), ("all", 150), ("all", 999), ("week", 0)])
def test_a_day_that_is_cut_is_no_day_without_a_check(
    downloads: tuple[Path, ...], span: str, gone: int
) -> None:
    """The term's days of use all have their check; a span or retention takes one of them away."""
    logs = of_downloads(downloads, span, lambda done, whole: None)

    cut = report(replace(log, entries=islice(log.entries, gone, None)) for log in logs)

    assert all(drill.days for drill in cut.drills)
    assert {drill.machine: drill.unlooked for drill in cut.drills if drill.unlooked} == {}
