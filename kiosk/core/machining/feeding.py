"""How far the bit should go in for each turn."""

from __future__ import annotations

from kiosk.core.machining.deep import DEEP_SOURCE, shares_in
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Material
from kiosk.core.units import Feed, Length


def feed_for(
    bit: BitKind, material: Material, diameter: Length, depth: Length | None = None
) -> Figure | Refused:
    """The starting feed from the bit's own table: the row that the diameter falls in.

    Source: the table named in the bit's data (mm a turn, up to a diameter in mm), times the
    material's share and, if `depth` is given, what a deep hole leaves. Refuses a bit with no
    table, one not for this material, and a diameter over the table's last row.
    """
    if material.family not in bit.families:
        return Refused(f"a {bit.name} is not for {material.name}", ", ".join(bit.families))
    row = next((row for row in bit.feed if diameter <= row[0]), None)
    if row is None:
        return _no_row(bit, diameter)
    return _figure(bit, material, row, shares_in(material, depth, diameter).feed)


def _figure(bit: BitKind, material: Material, row: tuple[Length, Feed], deep: float) -> Figure:
    feed = Feed(row[1].mm_per_rev * material.feed_share * deep)
    line = f"up to {written(row[0])}: {written(row[1])}, lower end for hand feed"
    if material.feed_share != 1:
        line += f", × {material.feed_share:g} for {material.name}"
    if deep != 1:
        line += f", × {deep:g} for a deep hole"
    if feed != row[1]:
        line += f" = {written(feed)}"
    source = bit.source if deep == 1 else f"{bit.source}; {DEEP_SOURCE}"
    return Figure("feed", feed, line, source)


def _no_row(bit: BitKind, diameter: Length) -> Refused:
    if not bit.feed:
        return Refused(f"no published feed for a {bit.name}")
    largest = bit.feed[-1][0]
    wrong = f"no published feed for a {written(diameter)} {bit.name}"
    return Refused(wrong, f"{written(largest)} or less")
