"""How high the table stands: room for bit, work, scrap and vice between chuck and table."""

from __future__ import annotations

from kiosk.core.machining.depth import scrap_board
from kiosk.core.machining.vice import vice_under
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Machine, Reach, Work
from kiosk.core.units import Length

GRIP = Length(25.0)  # of the shank in the jaws, where there is as much; common practice
CLEAR = Length(10.0)  # between the point and the work, so that a hand can move it; common practice
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

    Source: sum of lengths; the shank gripped 25 mm and 10 mm clear are common practice. A vice
    counts up to its bed, under clamps there is none. Refuses a bit whose length is not known.
    """
    reach = reach_of(bit, diameter)
    if reach is None:
        return Refused(f"the length of a {written(diameter)} {bit.name} is not known", "measure it")
    parts = [
        (below_the_chuck(reach), "bit"),
        (CLEAR, "clear"),
        (work.thickness, "work"),
        *([(scrap_board(bit, diameter), "scrap")] if is_through else []),
        *_vice(machine, work),
    ]
    gap = Length(sum(length.mm for length, _ in parts))
    line = " + ".join(f"{written(length)} {name}" for length, name in parts)
    source = TABLE_SOURCE + _vice_source(machine, work)
    return Figure("table height", gap, f"{line} = {written(gap)} below the chuck", source)


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
    gap = table_gap(machine, bit, diameter, work, is_through)
    if machine.table_furthest is None or isinstance(gap, Refused):
        return None
    assert isinstance(gap.value, Length)
    excess = gap.value.mm - machine.table_furthest.mm
    if excess <= 0:
        return None
    bed = vice_under(machine, work)
    lifted = f" in a vice {written(bed)} high" if bed else ""
    wrong = (
        f"not on this machine: {work.shape} {written(work.thickness)} thick{lifted} under a"
        f" {written(diameter)} {bit.name} needs {written(gap.value)} below the chuck, the table"
        f" goes down {written(machine.table_furthest)}, {written(Length(excess))} short"
    )
    left = Length(work.thickness.mm - excess)
    return Refused(wrong, f"work {written(left)} thick or less" if left.mm > 0 else "a shorter bit")
