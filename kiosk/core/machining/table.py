"""How high the table stands: room for bit, work, scrap and vice between chuck and table."""

from __future__ import annotations

from math import ceil, floor, inf

from kiosk.core.machining.depth import OVERRUN, point_of, scrap_board, through_travel
from kiosk.core.machining.vice import vice_under
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Machine, Reach, Work
from kiosk.core.units import Length

GRIP = Length(25.0)  # of the shank in the jaws, where there is as much; common practice
CLEAR = Length(10.0)  # between the point and the work, which slides in under it; common practice
BOARD = Length(18.0)  # an ordinary board: what a workshop's scrap mostly is; common practice
TABLE_SOURCE = "bit lengths from DIN 338 or the bit's data; 25 mm grip, 10 mm clear"


def reach_of(bit: BitKind, diameter: Length) -> Reach | None:
    """How long a bit of that diameter is and how much of it is flute, or None if not known."""
    return next((row for row in bit.reach if diameter <= row.up_to), None)


def below_the_chuck(reach: Reach) -> Length:
    """How far a bit stands out of the chuck: its length less what the jaws grip."""
    return Length(reach.length.mm - min(GRIP.mm, reach.length.mm - reach.flute.mm))


def table_gap(
    machine: Machine, bit: BitKind, diameter: Length, work: Work, is_through: bool
) -> Figure | Refused:
    """From the chuck's nose down to the table, mm: bit, clearance, work, scrap if through, vice.

    Source: sum of lengths; the shank gripped 25 mm, 10 mm clear and a board of 18 mm are common
    practice. A vice counts up to its bed, under clamps there is none. Refuses a bit whose length
    is not known.
    """
    reach = reach_of(bit, diameter)
    if reach is None:
        return Refused(f"the length of a {written(diameter)} {bit.name} is not known", "measure it")
    board = scrap_boards(machine, bit, diameter, work)[1] if is_through else None
    parts = _parts(machine, reach, work, board)
    gap = _sum_of(parts)
    line = " + ".join(f"{written(length)} {name}" for length, name in parts)
    source = (
        TABLE_SOURCE + ("; scrap common practice" if board else "") + _vice_source(machine, work)
    )
    return Figure("table height", gap, f"{line} = {written(gap)} below the chuck", source)


def scrap_boards(
    machine: Machine, bit: BitKind, diameter: Length, work: Work
) -> tuple[Length, Length]:
    """The thinnest and the thickest scrap wood for a through hole, in whole millimetres.

    The table's height counts the thickest: ordinary boards of 18 mm, as many as take the point
    and 2 mm of overrun, or less where the table goes no lower. On the thinnest the work lies
    lower by the difference, and the spindle must still reach right through.
    """
    least = ceil(scrap_board(bit, diameter).mm)
    boards = ceil(least / BOARD.mm) * int(BOARD.mm)
    most = max(least, min(boards, _room(machine, bit, diameter, work)))
    if reach_of(bit, diameter) is None:
        return Length(float(least)), Length(float(most))
    thinnest = max(least, most - _spare_stroke(machine, bit, diameter, work))
    return Length(float(thinnest)), Length(float(most))


def scrap_figures(
    machine: Machine, bit: BitKind, diameter: Length, work: Work
) -> tuple[Figure, Figure]:
    """The thinnest and the thickest scrap wood that serve, with their workings."""
    least, (thinnest, most) = (
        scrap_board(bit, diameter),
        scrap_boards(machine, bit, diameter, work),
    )
    line = f"{written(point_of(bit, diameter))} point + {written(OVERRUN)} past = {written(least)}"
    taken = f", {written(thinnest)} in whole millimetres"
    if thinnest.mm >= least.mm + 1:
        taken = f", {written(thinnest)} so that the stroke reaches right through"
    counted = f"the table's height counts {written(most)}, boards of {written(BOARD)}"
    return (
        Figure("scrap", thinnest, line + taken, "geometry; El-Hofy, machining text"),
        Figure("scrap_most", most, counted, "common practice"),
    )


def _spare_stroke(machine: Machine, bit: BitKind, diameter: Length, work: Work) -> int:
    """By how much the work may lie lower and the spindle still reach right through it."""
    travel = through_travel(work.thickness, bit, diameter).value
    assert isinstance(travel, Length)
    return max(floor(machine.stroke.mm - CLEAR.mm - travel.mm), 0)


def _room(machine: Machine, bit: BitKind, diameter: Length, work: Work) -> float:
    """How much fits under the work with the table right down; no end where that is not known."""
    reach = reach_of(bit, diameter)
    if reach is None or machine.table_furthest is None:
        return inf
    return floor(machine.table_furthest.mm) - ceil(_sum_of(_parts(machine, reach, work, None)).mm)


def _parts(
    machine: Machine, reach: Reach, work: Work, board: Length | None
) -> list[tuple[Length, str]]:
    """What stands between the chuck's nose and the table, from the top down."""
    return [
        (below_the_chuck(reach), "bit"),
        (CLEAR, "clear"),
        (work.thickness, "work"),
        *([(board, "scrap")] if board else []),
        *_vice(machine, work),
    ]


def _sum_of(parts: list[tuple[Length, str]]) -> Length:
    return Length(sum(length.mm for length, _ in parts))


def _vice(machine: Machine, work: Work) -> list[tuple[Length, str]]:
    bed = vice_under(machine, work)
    name = "vice" if machine.vice_bed else "vice, not measured"
    return [(bed, name)] if bed else []


def _vice_source(machine: Machine, work: Work) -> str:
    if vice_under(machine, work) is None:
        return ""
    return "; vice as in the machine's file" if machine.vice_bed else "; vice common practice"


def table_refused(
    machine: Machine, bit: BitKind, diameter: Length, work: Work, is_through: bool
) -> Refused | None:
    """Why this work can't go under this bit however low the table stands, or None."""
    reach = reach_of(bit, diameter)
    if machine.table_furthest is None or reach is None:
        return None
    least = scrap_board(bit, diameter) if is_through else None
    gap = _sum_of(_parts(machine, reach, work, least))
    excess = gap.mm - machine.table_furthest.mm
    if excess <= 0:
        return None
    bed = vice_under(machine, work)
    lifted = f" in a vice {written(bed)} high" if bed else ""
    wrong = (
        f"not on this machine: {work.shape} {written(work.thickness)} thick{lifted} under a"
        f" {written(diameter)} {bit.name} needs {written(gap)} below the chuck, the table"
        f" goes down {written(machine.table_furthest)}, {written(Length(excess))} short"
    )
    left = Length(work.thickness.mm - excess)
    return Refused(wrong, f"work {written(left)} thick or less" if left.mm > 0 else "a shorter bit")
