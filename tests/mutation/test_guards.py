"""The reducer without one of its guards: the walk, or a test of the reducer, notices.

The walk comes to something that a rule forbids. What it leaves out by design (adults' tables,
levels, the line, tighter lessons) and what other guards hold as well is told by the reducer's own
tests, run here and now.
"""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kiosk.core.model import Level
from tests.core.story import CONTENT, WORDS
from tests.mutation.arenas import Arena, OutOfTime, place_of, proof_in
from tests.mutation.guards import Mutant, mutants, without
from tests.mutation.known import NOT_MISSED, SHOWN_AT, TOLD_BY
from tests.mutation.retelling import failure_of

pytestmark = pytest.mark.mutation
FEW = 6


def arena_of(mutant: Mutant) -> Arena:
    """Where the walk begins; a machine whose school has no spells for what is about them."""
    start = SHOWN_AT[mutant.id]
    machine = "drill-2" if "spell_allowed" in mutant.term else "drill-1"
    return Arena(machine, Level.SUPERVISED, start)


def walked_without(mutant: Mutant) -> str:
    """What the walk says without the guard; empty if it finds nothing in time."""
    arena = arena_of(mutant)
    place_of(arena, CONTENT, WORDS)
    with without(mutant):
        try:
            return next(iter(proof_in(arena, CONTENT, WORDS).story), "")
        except (OutOfTime, AssertionError) as found:
            return str(found) if isinstance(found, AssertionError) else ""


def reason_of(mutant: Mutant, full: bool) -> str:
    """Who notices that the guard is gone, and what it says; empty if nobody does."""
    if mutant.id in SHOWN_AT:
        return walked_without(mutant)
    if mutant.id not in TOLD_BY:
        return ""
    with without(mutant):
        return failure_of(TOLD_BY[mutant.id], full)


def test_every_guard_is_tried_or_named_with_a_reason() -> None:
    found = {mutant.id for mutant in mutants()}

    listed = {*SHOWN_AT, *TOLD_BY, *NOT_MISSED}
    assert found - listed == set(), "new: say in tests/mutation/known.py where it is missed"
    assert listed - found == set(), "these are no more"


@pytest.mark.timeout(1800)
def test_without_a_guard_the_walk_or_a_test_of_the_reducer_notices(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    tried = list(mutants())
    tried = tried if full else [m for m in tried if m.id not in NOT_MISSED][:: len(tried) // FEW]

    reasons = {mutant.id: reason_of(mutant, full) for mutant in tried}

    caught = [id for id, reason in reasons.items() if reason]
    sum_up(f"mutation, guards: {len(tried)} tried, {len(caught)} caught")
    assert [id for id in reasons if id not in (*caught, *NOT_MISSED)] == []
