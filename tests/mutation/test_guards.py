"""The reducer without one of its guards: the walk comes to something that a rule forbids."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from kiosk.core.model import Level
from tests.core.story import CONTENT, WORDS
from tests.mutation.arenas import Arena, OutOfTime, place_of, proof_in
from tests.mutation.guards import Mutant, mutants, without
from tests.mutation.known import APART, NOT_SHOWN, SHOWN_AT, STOPS

pytestmark = pytest.mark.mutation
FEW = 6


def arena_of(mutant: Mutant) -> Arena:
    """Where the walk begins; a machine whose school has no spells for what is about them."""
    start = SHOWN_AT[mutant.id]
    machine = "drill-2" if "spell_allowed" in mutant.term else "drill-1"
    return Arena(machine, Level.SUPERVISED, start)


def reason_of(mutant: Mutant) -> str:
    """What the walk says without the guard; empty if it finds nothing in time."""
    arena = arena_of(mutant)
    place_of(arena, CONTENT, WORDS)
    with without(mutant):
        try:
            return next(iter(proof_in(arena, CONTENT, WORDS).story), "")
        except (OutOfTime, AssertionError) as found:
            return str(found) if isinstance(found, AssertionError) else ""


def test_every_guard_is_tried_or_named_with_a_reason() -> None:
    found = {mutant.id for mutant in mutants()}

    listed = {*SHOWN_AT, *STOPS, *APART, *NOT_SHOWN}
    assert found - listed == set(), "new: say in tests/mutation/known.py where it is missed"
    assert listed - found == set(), "these are no more"


@pytest.mark.timeout(1800)
def test_without_a_guard_the_walk_finds_what_a_rule_forbids(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    tried = [mutant for mutant in mutants() if mutant.id in SHOWN_AT]
    tried = tried if full else tried[:: max(1, len(tried) // FEW)]

    reasons = {mutant.id: reason_of(mutant) for mutant in tried}

    caught = [id for id, reason in reasons.items() if reason]
    left = f"; {len(APART)} apart, {len(NOT_SHOWN)} not shown yet" if full else ""
    sum_up(f"mutation, guards: {len(tried)} tried, {len(caught)} caught{left}")
    assert [id for id in reasons if id not in caught] == []
