"""The table height of a plan: with the drill's own vice, and by eye where a bit has no length."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.model import Content, Fact, Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.units import Length
from tests.core.story import CONTENT


@pytest.fixture
def content() -> Content:
    """The shipped content."""
    return CONTENT


@pytest.mark.parametrize(("machine", "bed"), [(0, 35), (1, 40), (2, 30)])
def test_work_in_a_vice_has_the_drills_own_vice_in_its_table_height(
    content: Content, machine: int, bed: float
) -> None:
    drill, job = content.machines[machine], content.job("hook_bar")
    assert job is not None
    clamped = replace(drill, holding=("clamps",))

    in_vice = compile_plan(content, drill, job, 0, Level.SHOWN)
    by_clamps = compile_plan(content, clamped, job, 0, Level.SHOWN)

    assert isinstance(in_vice, Plan) and isinstance(by_clamps, Plan)
    assert dict(in_vice.values)["vice_bed"] == Length(bed)
    assert "vice_bed" not in dict(by_clamps.values)
    assert dict(by_clamps.values)["gap"] == Length(126)
    assert dict(in_vice.values)["gap"] == Length(126 + bed)


def test_without_a_bits_length_the_table_is_set_by_eye(content: Content) -> None:
    drill, job = content.machines[0], content.job("hook_bar")
    assert job is not None
    bits = tuple(replace(bit, reach=()) for bit in content.bits)

    known = compile_plan(content, drill, job, 0, Level.SHOWN)
    unknown = compile_plan(replace(content, bits=bits), drill, job, 0, Level.SHOWN)

    assert isinstance(known, Plan) and isinstance(unknown, Plan)
    assert [s.id for s in known.fresh if Fact.TABLE_SET in s.makes] == ["table"]
    assert [s.id for s in unknown.fresh if Fact.TABLE_SET in s.makes] == ["table_by_eye"]
    assert "gap" not in dict(unknown.values)
