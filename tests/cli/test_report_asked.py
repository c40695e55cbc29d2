"""What `pillarside report` can't be asked for is refused, with what can."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.cli.conftest import Run

NOWHERE = "postgresql+psycopg://nobody@127.0.0.1:1/none"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--collected", NOWHERE, "STICK"), "folders of downloads or --collected, not both"),
        (("--site", "north", "STICK"), "--site goes with --collected only"),
        (("--site", "north"), "--site goes with --collected only"),
        (("--week", "--term", "STICK"), "name one span: --week or --term"),
        (("--all", "--year"), "name one span"),
        (("--record", "RECORD", "STICK"), "one of them"),
        (("--record", "RECORD", "--collected", NOWHERE), "one of them"),
        (("--record", "RECORD", "--drill", "drill-9"), "--drill drill-9: nothing of it in RECORD"),
        (("STICK", "--drill", "drill-9"), "nothing of it in STICK; drills in there: drill-1"),
        (("EMPTY",), "EMPTY: no download in there"),
    ],
)
def test_what_would_be_passed_over_is_refused(
    run: Run, record: Path, stick: Path, tmp_path: Path, words: tuple[str, ...], said: str
) -> None:
    run("download", "--all", "--record", record, "--to", stick)
    (tmp_path / "empty").mkdir()
    places = {"STICK": str(stick), "RECORD": str(record), "EMPTY": str(tmp_path / "empty")}
    given = [places.get(word, word) for word in words]

    done = run("report", *given, "--to", tmp_path / "to")

    for name, place in places.items():
        said = said.replace(name, place)
    assert done.exit_code != 0
    assert said in done.output
    assert not (tmp_path / "to").exists()


def test_one_drill_of_a_record_is_the_whole_of_it(run: Run, record: Path, tmp_path: Path) -> None:
    done = run("report", "--record", record, "--drill", "drill-1", "--to", tmp_path / "to")

    assert "Read: 1 record of drill-1, 35 events." in done.output


def test_help_says_which_span_it_is_if_none_is_named(run: Run) -> None:
    told = " ".join(run("report", "--help").output.split())

    assert "--week The last 7 days by the kiosk's clock; of a record, unless another" in told
    assert "--all Everything; of downloads and of --collected, unless another" in told


@pytest.mark.parametrize(("words", "title"), [((), "All that is in"), (("--week",), "Seven days")])
def test_a_span_that_is_named_is_taken(
    run: Run, record: Path, stick: Path, tmp_path: Path, words: tuple[str, ...], title: str
) -> None:
    run("download", "--all", "--record", record, "--to", stick)

    run("report", stick, *words, "--to", tmp_path / "to")

    assert f"<h1>{title}" in (tmp_path / "to" / "report.html").read_text("utf-8")
