"""A report over the collected database is the report over the downloads it was made from."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from demo.recorded import write_downloads
from kiosk.cli import group
from kiosk.cli.sources import of_collected, of_downloads
from kiosk.core.report import report
from kiosk.store.collected import Collected, Database

pytestmark = pytest.mark.collect


def test_the_invented_term_adds_up_to_the_same_from_the_database(into: str, tmp_path: Path) -> None:
    folders = write_downloads(tmp_path / "term")
    words = ["collect", str(tmp_path / "term"), "--into", into, "--site", "invented"]
    done = CliRunner().invoke(group, words)
    assert done.exit_code == 0, done.output

    with Database(into).session() as connection:
        logs = of_collected(Collected(connection), "all", "invented", lambda *_: None)
        kept_long, *others = logs
        found, begun = report(others), report((kept_long,)).drills[0]
    rest = [folder for folder in folders if not folder.name.startswith("drill-1-")]

    assert found == report(of_downloads(rest, "all", lambda *_: None))
    assert begun.first == begun.begins == 151  # what that kiosk has kept long enough is gone here
    assert begun.days and not begun.unlooked  # and with it the check of the day it was cut in


def test_the_command_reports_on_a_database(into: str, tmp_path: Path) -> None:
    write_downloads(tmp_path / "term")
    CliRunner().invoke(group, ["collect", str(tmp_path / "term"), "--into", into])

    words = ["report", "--collected", into, "--week", "--to", str(tmp_path)]
    done = CliRunner().invoke(group, words)
    empty = CliRunner().invoke(group, [*words, "--site", "elsewhere"])
    other = CliRunner().invoke(group, [*words, "--drill", "drill-9"])

    assert done.exit_code == 0, done.output
    assert (tmp_path / "report.html").is_file()
    assert "Read: 4 records of drill-1, drill-2, drill-3, " in done.output
    assert "nothing was collected of elsewhere" in empty.output
    said = "nothing of it in the collected database; drills in there: drill-1, drill-2, drill-3"
    assert said in other.output
