"""How far the bit should go in for each turn."""

from __future__ import annotations

from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Material
from kiosk.core.units import Length


def feed_for(bit: BitKind, material: Material, diameter: Length) -> Figure | Refused:
    """The starting feed from the bit's own table: the row that the diameter falls in.

    Source: the table named in the bit's data (mm a turn, up to a diameter in mm). Refuses a bit
    with no table, one not for this material, and a diameter over the table's last row.
    """
    if material.family not in bit.families:
        return Refused(f"a {bit.name} is not for {material.name}", ", ".join(bit.families))
    row = next((row for row in bit.feed if diameter <= row[0]), None)
    if row is None:
        return _no_row(bit, diameter)
    working = f"up to {written(row[0])}: {written(row[1])}, lower end for hand feed"
    return Figure("feed", row[1], working, bit.source)


def _no_row(bit: BitKind, diameter: Length) -> Refused:
    if not bit.feed:
        return Refused(f"no published feed for a {bit.name}")
    largest = bit.feed[-1][0]
    wrong = f"no published feed for a {written(diameter)} {bit.name}"
    return Refused(wrong, f"{written(largest)} or less")
