"""Where a record begins after retention has taken away what was before, and what carries on."""

from __future__ import annotations

from pathlib import Path

import pytest

from kiosk.cli.taking import take
from kiosk.export import verify
from kiosk.store import Record
from tests.ageing import days, purge
from tests.recording import DAY_US, Playing


@pytest.fixture
def aged(tmp_path: Path) -> Playing:
    """A record of six days."""
    playing = Playing(Record.open(tmp_path / "record.sqlite"))
    days(playing, 6)
    return playing


def taken(playing: Playing, to: Path, span: str = "all") -> Path:
    to.mkdir(exist_ok=True)
    return take(playing.record.path, span, to, lambda done, whole: None).folder


def test_a_whole_download_says_where_the_record_begins(aged: Playing, tmp_path: Path) -> None:
    (purged,) = purge(aged.record, aged, aged.wall_us - 3 * DAY_US)

    verdict = verify(taken(aged, tmp_path / "stick"))

    begins = purged.last + 1
    assert verdict.problems == ()
    told = f"the record begins at event {begins}: events 1 to {begins - 1} were kept long enough"
    assert told in str(verdict)
    aged.record.close()


def test_a_download_from_before_is_carried_on_across_the_cut(aged: Playing, tmp_path: Path) -> None:
    before = taken(aged, tmp_path / "first")
    purge(aged.record, aged, aged.wall_us - 3 * DAY_US)

    after = taken(aged, tmp_path / "second")

    assert verify(after, before).problems == ()
    aged.record.close()


def test_events_that_went_before_they_were_taken_away_are_named(
    aged: Playing, tmp_path: Path
) -> None:
    days(aged, 1)
    before = taken(aged, tmp_path / "first")
    last = aged.record.head[0]
    days(aged, 6)
    (purged,) = purge(aged.record, aged, aged.wall_us - DAY_US)

    (problem,) = verify(taken(aged, tmp_path / "second"), before).problems

    assert f"events {last + 1} to {purged.last} are in neither" in str(problem)
    assert "kept long enough and are gone" in str(problem)
    aged.record.close()


@pytest.mark.parametrize("span", ["week", "term", "since-last", "all"])
def test_every_span_begins_no_earlier_than_the_record(
    aged: Playing, tmp_path: Path, span: str
) -> None:
    purge(aged.record, aged, aged.wall_us - 3 * DAY_US)

    verdict = verify(taken(aged, tmp_path / "stick", span))

    assert verdict.problems == ()
    assert verdict.said["first"] >= aged.record.begin.first
    aged.record.close()
