"""Many kiosks collected twice, with one of each thing that goes wrong planted among them."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path
from time import perf_counter

import pytest
from click.testing import CliRunner

from kiosk.cli import group
from kiosk.store.collected import Database
from tests.collect.many import plant

pytestmark = pytest.mark.collect

CHAIN = """
SELECT count(*) FROM (
    SELECT seq, prev, lag(seq) OVER w AS before, lag(hash) OVER w AS head
    FROM events WINDOW w AS (PARTITION BY number ORDER BY seq)
) lines WHERE before = seq - 1 AND head <> prev"""
HASHES = "SELECT count(*) FROM events WHERE hash <> sha256(bytes)"
HELD = "SELECT coalesce(sum(last - first + 1), 0) FROM stretches"
COUNT = "SELECT count(*) FROM events"


@pytest.mark.timeout(3600)
def test_many_kiosks_twice_add_up_and_each_planted_fault_is_named(
    into: str, tmp_path: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    kiosks, each = (200, 25_000) if full else (12, 300)
    planted = plant(tmp_path, kiosks, each)
    words = ["collect", str(tmp_path), "--into", into]

    began = perf_counter()
    first = CliRunner().invoke(group, words)
    taken, began = perf_counter() - began, perf_counter()
    second = CliRunner().invoke(group, words)
    again = perf_counter() - began

    assert [name for name in planted.named if name not in first.output] == [], first.output
    assert first.output.count("set aside: ") == planted.set_aside
    told = [line for line in first.output.splitlines() if ": " in line]
    assert len(told) == len(planted.named), first.output
    assert f"{planted.lines} lines new" in first.output
    assert " 0 lines new" in second.output
    assert asked(into) == (planted.lines, planted.lines, 0, 0)
    sum_up(
        f"collect: {kiosks} kiosks, {planted.lines} lines in {taken:.0f} s "
        f"({planted.lines / taken:.0f}/s), again in {again:.0f} s with nothing new; "
        f"{len(planted.named)} planted faults named, {planted.set_aside} set aside, no other"
    )


def asked(into: str) -> tuple[int, ...]:
    """What PostgreSQL itself counts: lines, lines as stretches tell, broken links, wrong hashes."""
    with Database(into).session() as connection:
        queries = (COUNT, HELD, CHAIN, HASHES)
        return tuple(int(connection.exec_driver_sql(q).scalar() or 0) for q in queries)
