"""Every rule of the judge is needed: something goes wrong that no other rule sees."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from functools import cache

import pytest

from kiosk.core.model import Level
from kiosk.core.rules import RULES, Judge
from kiosk.core.walk.grounds import WORK, Ground, ground_for
from tests.core.story import CONTENT, WORDS
from tests.mutation.arenas import shape_on
from tests.mutation.histories import (
    Wrong,
    history,
    less_sure,
    objected,
    opening,
    out_of_place,
)

pytestmark = pytest.mark.mutation

BARE, WIRED, WOOD = ("drill-3", 2), ("drill-1", 2), ("drill-1", 3)
WHERE = (
    *((WIRED, start) for start in ("lesson", "check", "drilling", "wrong", "freed")),
    *((WIRED, start) for start in ("cut", "unread")),
    (BARE, "check"),
    (WOOD, "drilling"),
)
"""Machine and holes of the job, and where the history ends; the wooden job is part-way."""


def ground(machine: str, holes: int) -> Ground:
    return ground_for(CONTENT, shape_on(CONTENT, WORDS, machine, Level.SUPERVISED, holes))


def wrong_histories() -> Iterator[Wrong]:
    for where, start in WHERE:
        at = ground(*where)
        told, past = history(at, start), opening(at)
        yield from less_sure(at.judge, past, told)
        yield from out_of_place(at.judge, past, told, at)
    yield no_pilot()


def no_pilot() -> Wrong:
    """A history as it should be, of a hole whose pilot nobody has drilled."""
    at = ground(*WIRED)
    judge = Judge(replace(at.judge.house, pilots=((WORK, 0, 1),)))
    return objected(judge, opening(at), history(at, "drilling"), "no pilot was drilled")


@cache
def seen_by_one_alone() -> dict[str, Wrong]:
    """For each rule, the first wrong history to which it alone objects."""
    found: dict[str, Wrong] = {}
    for wrong in wrong_histories():
        if len(wrong.rules) == 1:
            found.setdefault(*wrong.rules, wrong)
    return found


@pytest.mark.parametrize(("where", "start"), WHERE)
def test_no_rule_objects_to_a_history_as_it_should_be(where: tuple[str, int], start: str) -> None:
    at = ground(*where)

    assert objected(at.judge, opening(at), history(at, start), "").rules == frozenset()


def test_without_any_one_rule_something_wrong_is_seen_by_nobody(
    sum_up: Callable[[str], None],
) -> None:
    alone = seen_by_one_alone()
    caught = [rule.id for rule in RULES if rule.id in alone]

    sum_up(f"mutation, rules: {len(RULES)} tried, {len(caught)} caught")

    assert [rule.id for rule in RULES if rule.id not in alone] == []
    assert all(rule.reason in alone[rule.id].said for rule in RULES)
