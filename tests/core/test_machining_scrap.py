"""How thick the scrap wood under a through hole may be: point and stroke, board and table."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.machining import through_travel
from kiosk.core.machining.fitting import fits
from kiosk.core.machining.table import CLEAR, scrap_board, scrap_boards, table_gap
from kiosk.core.machining.worked import Figure
from kiosk.core.model import BitKind, Job, Machine
from kiosk.core.plan.trials import WORKS
from kiosk.core.units import Length
from tests.core.story import CONTENT

DRILL = CONTENT.machines[0]
TWIST, STEP = CONTENT.bit("twist"), CONTENT.bit("step_drill")
STEEL = CONTENT.material("mild_steel")
BAR, BLOCK, SHEET = WORKS[0], WORKS[2], WORKS[1]


def boards(machine: Machine, work: Job | object = BAR, bit: BitKind | None = TWIST, d: float = 8):
    """The thinnest and thickest scrap wood, in millimetres."""
    assert bit is not None
    return tuple(thick.mm for thick in scrap_boards(machine, bit, Length(d), work))


def gap(machine: Machine, d: float = 8) -> float:
    """The table's height under a bar in clamps, in millimetres."""
    found = table_gap(machine, TWIST, Length(d), BAR, is_through=True)
    assert isinstance(found, Figure) and isinstance(found.value, Length)
    return found.value.mm


def test_an_ordinary_board_goes_under_the_work() -> None:
    # 8 mm, 118 degrees: 2.4 mm point + 2 mm overrun is 4.4 mm
    assert boards(DRILL) == (5, 18)


def test_a_point_longer_than_a_board_takes_two_or_three() -> None:
    # a step drill stands 40 mm below its full width: 42 mm with the overrun, three boards of 18 mm
    low = replace(DRILL, stroke=Length(90))

    assert boards(low, SHEET, STEP, 20) == (42, 54)


@pytest.mark.parametrize(("left", "most"), [(0, 18), (1, 17), (6, 12), (13, 5)])
def test_where_the_table_goes_no_lower_only_what_fits_counts(left: float, most: float) -> None:
    clamped = replace(DRILL, holding=("clamps",))
    low = replace(clamped, table_furthest=Length(gap(clamped) - left))

    assert boards(low) == (5, most)
    assert gap(low) == gap(clamped) - left
    assert fits(low, STEEL, TWIST, Length(8), BAR, None) is None


def test_where_not_even_the_thinnest_fits_the_hole_is_refused() -> None:
    clamped = replace(DRILL, holding=("clamps",))
    low = replace(clamped, table_furthest=Length(gap(clamped) - 14))

    assert "the table goes down" in str(fits(low, STEEL, TWIST, Length(8), BAR, None))


def test_thin_wood_that_would_lie_out_of_the_strokes_reach_does_not_serve() -> None:
    # 45 mm of work: 49.4 mm of travel and 10 mm clear leave nothing of a stroke of 60 mm
    assert boards(DRILL, BLOCK) == (18, 18)
    assert boards(replace(DRILL, stroke=Length(65)), BLOCK) == (13, 18)


def test_on_the_thinnest_board_the_spindle_still_reaches_through() -> None:
    tried = 0
    for machine in CONTENT.machines:
        for work in WORKS:
            for size in TWIST.sizes:
                if fits(machine, STEEL, TWIST, size, work, None) is not None:
                    continue
                thin, thick = scrap_boards(machine, TWIST, size, work)
                lower = thick.mm - thin.mm
                travel = through_travel(work.thickness, TWIST, size).value
                tried += 1
                assert thin.mm >= scrap_board(TWIST, size).mm
                assert lower == 0 or lower + CLEAR.mm + travel.mm <= machine.stroke.mm

    assert tried > 50
