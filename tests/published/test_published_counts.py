"""The published checks are many, from many sources, and no sum hangs on one or two."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable
from importlib import import_module
from pathlib import Path

import pytest

from tests.published.sources import IDS_BY_SUM

pytestmark = pytest.mark.published

for path in Path(__file__).parent.glob("test_published_*.py"):
    if path.stem != "test_published_counts":
        import_module(f"tests.published.{path.stem}")


def ids() -> list[str]:
    return [each for group in IDS_BY_SUM.values() for each in group]


def sources() -> Counter[str]:
    return Counter(each.split("-")[1] for each in ids())


def test_there_are_enough_checks_from_enough_sources(sum_up: Callable[[str], None]) -> None:
    sum_up(f"published: {len(ids())} checks, {len(sources())} sources, {len(IDS_BY_SUM)} sums")

    assert len(ids()) >= 60
    assert len(sources()) >= 10


@pytest.mark.parametrize("sum_of", sorted(IDS_BY_SUM))
def test_every_sum_has_at_least_three_checks(sum_of: str) -> None:
    assert len(IDS_BY_SUM[sum_of]) >= 3


def test_no_source_is_leaned_on_more_than_twelve_times() -> None:
    assert {name: n for name, n in sources().items() if n > 12} == {}


def test_every_id_is_sum_source_and_its_number_within_the_source() -> None:
    numbers: dict[str, list[int]] = {}
    for each in ids():
        kind, source, number = each.split("-")
        assert kind == "sum"
        numbers.setdefault(source, []).append(int(number))

    assert {s: n for s, n in numbers.items() if sorted(n) != list(range(1, len(n) + 1))} == {}
