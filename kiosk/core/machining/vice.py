"""Whether a vice or clamps hold a piece of work, and how high a vice lifts it off the table.

The figures are common practice; a machine's own file says how high its vice's bed stands.
"""

from __future__ import annotations

from kiosk.core.model import Machine, Work
from kiosk.core.units import Length

VICE_OPENS = Length(100.0)  # a drill-press vice of 100 mm; common practice
VICE_BED = Length(40.0)  # where nobody measured it: commonly 30 to 40 mm; common practice


def holding_way(machine: Machine, work: Work) -> str:
    """The way of holding, one of the machine's own: clamps for sheet and wide work, else a vice."""
    across = min(work.width, work.length)
    wanted = "clamps" if work.shape == "sheet" or across > VICE_OPENS else "vice"
    return wanted if wanted in machine.holding else machine.holding[0]


def vice_under(machine: Machine, work: Work) -> Length | None:
    """From the table up to the bed of the vice that holds this work; None under clamps."""
    if holding_way(machine, work) != "vice":
        return None
    return machine.vice_bed or VICE_BED
