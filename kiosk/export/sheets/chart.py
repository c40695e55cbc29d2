"""A machine's speed chart as tables: for each kind of bit, material by diameter."""

from __future__ import annotations

from dataclasses import dataclass

from kiosk.core.machining.chart import SpeedChart, place_at, speed_charts
from kiosk.core.machining.speeds import GrooveChoice
from kiosk.core.model import BitKind, Content, Machine
from kiosk.core.words import Words

NO_BREAK_HYPHEN = "\u2011"


@dataclass(frozen=True)
class ChartTable:
    """One kind of bit. `heads` are diameters; a row is a material and a cell for each of them."""

    bit: str
    heads: tuple[str, ...]
    rows: tuple[tuple[str, tuple[str, ...]], ...]


def chart_tables(
    content: Content, machine: Machine, bits: tuple[BitKind, ...], words: Words
) -> tuple[ChartTable, ...]:
    """A table for each kind of bit that the machine can use."""
    charts = speed_charts(machine, content.materials, bits)
    return tuple(_table(machine, chart, words) for chart in charts)


def _table(machine: Machine, chart: SpeedChart, words: Words) -> ChartTable:
    rows = tuple(
        (words.say(f"material.{row.material.id}"), tuple(_cell(machine, c) for c in row.cells))
        for row in chart.rows
    )
    heads = tuple(words.number(size) for size in chart.diameters)
    return ChartTable(words.say(f"bit.{chart.bit.id}"), heads, rows)


def _cell(machine: Machine, choice: GrooveChoice | None) -> str:
    """Groove, then turns a minute, such as `4: 810`; a dash where this machine can't."""
    if choice is None:
        return "–"
    place = place_at(machine, choice.groove).replace("-", NO_BREAK_HYPHEN)
    return f"{place}: {choice.speed.rpm:.0f}" if place else f"{choice.speed.rpm:.0f}"
