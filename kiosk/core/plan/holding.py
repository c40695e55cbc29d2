"""How work of one shape and size is held, and which work asks for an adult beside.

`compiling` asks these. The figures are common practice in school workshops; a machine's own
manual and the school's risk assessment come first.
"""

from __future__ import annotations

from kiosk.core.model import BitKind, Level, Machine, Work
from kiosk.core.units import Length

VICE_OPENS = Length(100.0)  # a drill-press vice of 100 mm; common practice
THIN_SHEET = Length(3.0)  # thinner sheet grabs and lifts as the bit breaks through
SMALL_WORK = Length(75.0)  # shorter work brings hands close to the bit
LARGE_BIT = Length(13.0)  # the usual chuck; over it an adult stands beside

CHECKS = {
    Level.ADULT_BESIDE: "hole",
    Level.SHOWN: "hole",
    Level.SUPERVISED: "session",
    Level.SIGNED_OFF: "set-up",
}


def holding_way(machine: Machine, work: Work) -> str:
    """The way of holding, one of the machine's own: clamps for sheet and wide work, else a vice."""
    across = min(work.width, work.length)
    wanted = "clamps" if work.shape == "sheet" or across > VICE_OPENS else "vice"
    return wanted if wanted in machine.holding else machine.holding[0]


def why_adult_beside(bit: BitKind, diameter: Length, work: Work) -> str:
    """Why an adult stands beside whatever the level, or an empty string."""
    if bit.adult_beside:
        return f"a {bit.name} grabs"
    if diameter > LARGE_BIT:
        return f"over {LARGE_BIT.mm:g} mm"
    if work.shape == "sheet" and work.thickness < THIN_SHEET:
        return f"sheet under {THIN_SHEET.mm:g} mm"
    if work.shape == "small part" or max(work.width, work.length) < SMALL_WORK:
        return f"small work, under {SMALL_WORK.mm:g} mm long"
    return ""


def checks_every(level: Level, bit: BitKind, diameter: Length, work: Work) -> str:
    """How often an adult must look: every `hole`, once a `session`, or once a `set-up`.

    Source: the project's adult-check rule; a school may tighten it, never loosen it.
    """
    return "hole" if why_adult_beside(bit, diameter, work) else CHECKS[level]
