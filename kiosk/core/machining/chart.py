"""A machine's own speed chart: for each kind of bit, material by diameter, groove and speed.

`cli` prints it, and the printed sheets take the same values with the drawing of the belts.
"""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.machining.speeds import GrooveChoice, choose_groove
from kiosk.core.machining.worked import Refused
from kiosk.core.model import BitKind, Machine, Material
from kiosk.core.units import Length

MOST_COLUMNS = 10
USUAL = (2, 3, 4, 5, 6, 8, 10, 12)  # mm, the sizes a lesson asks for


@dataclass(frozen=True)
class ChartRow:
    """One material: a choice for each diameter, None where this machine can't."""

    material: Material
    cells: tuple[GrooveChoice | None, ...]


@dataclass(frozen=True)
class SpeedChart:
    """One kind of bit on one machine. Rows only for the materials that it is for."""

    machine: Machine
    bit: BitKind
    diameters: tuple[Length, ...]
    rows: tuple[ChartRow, ...]


def speed_charts(
    machine: Machine, materials: tuple[Material, ...], bits: tuple[BitKind, ...]
) -> tuple[SpeedChart, ...]:
    """A chart for every kind of bit that has a row."""
    found = (speed_chart(machine, materials, bit) for bit in bits)
    return tuple(chart for chart in found if chart.rows)


def speed_chart(machine: Machine, materials: tuple[Material, ...], bit: BitKind) -> SpeedChart:
    """The chart of one kind of bit at up to ten sizes of its set."""
    sizes = chart_sizes(bit)
    suited = [m for m in materials if m.family in bit.families and _has_band(m, bit)]
    rows = tuple(ChartRow(m, _cells(machine, m, bit, sizes)) for m in suited)
    return SpeedChart(machine, bit, sizes, rows)


def chart_sizes(bit: BitKind) -> tuple[Length, ...]:
    """The sizes of a small set; of a long one its first, its last, and the usual ones."""
    sizes = bit.sizes or (bit.smallest, bit.largest)
    if len(sizes) <= MOST_COLUMNS:
        return sizes
    inner = [size for size in sizes[1:-1] if size.mm in USUAL]
    return (sizes[0], *inner[: MOST_COLUMNS - 2], sizes[-1])


def _has_band(material: Material, bit: BitKind) -> bool:
    return any(band.bit == bit.id for band in material.bands)


def _cells(
    machine: Machine, material: Material, bit: BitKind, sizes: tuple[Length, ...]
) -> tuple[GrooveChoice | None, ...]:
    found = (choose_groove(machine, material, bit, size) for size in sizes)
    return tuple(None if isinstance(each, Refused) else each for each in found)


def place_at(machine: Machine, groove: int) -> str:
    """The groove from the top, `4`; with two belts both, `4-1`; with a dial nothing."""
    if machine.drive == "dial":
        return ""
    if machine.positions:
        first, second = machine.positions[groove - 1]
        return f"{first}-{second}"
    return str(groove)
