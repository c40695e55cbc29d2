"""`pillarside speeds`: one drill's own speed chart, material by diameter, as text."""

from __future__ import annotations

from pathlib import Path

import click
from rich.console import Console

from kiosk.cli.check import at_school, at_sequences
from kiosk.cli.plan import machine_called, refuse
from kiosk.content import load
from kiosk.core.machining.belts import speed_figures
from kiosk.core.machining.chart import ChartRow, SpeedChart, place_at, speed_charts
from kiosk.core.machining.speeds import GrooveChoice
from kiosk.core.model import Machine
from kiosk.core.words import Words

HOW = {
    "one belt": "Each cell: the belt's groove from the top, then turns a minute.",
    "two belts": "Each cell: grooves of the motor's and the spindle's belt, then turns a minute.",
    "dial": "Each cell: the dial's mark in turns a minute.",
}
LIMITS = (
    "A pupil's limit is the lower third of the published band, and never under the bit's floor. "
    "A blank cell: not on this machine. Holes three diameters deep or more run slower in metal."
)
SAFETY = (
    "Handbook starting values for a lesson. The machine's manual, the school's own risk assessment "
    "and competent people come first."
)


@click.command("speeds")
@click.option("--machine", "machine_name", required=True, help="A machine, such as drill-1.")
@click.option("--bit", "bit_name", default="", help="One kind of bit only, such as twist.")
@click.option("--inches", is_flag=True, help="Show diameters in inches as well.")
@at_sequences
@at_school
def speeds_command(
    machine_name: str, bit_name: str, inches: bool, sequences: Path, school: Path | None
) -> None:
    """Print a drill's own speed chart: for each kind of bit, material by diameter."""
    loaded = load(sequences, school)
    if loaded.content is None:
        refuse("; ".join(str(problem) for problem in loaded.problems[:1]))
    machine = machine_called(loaded.content, machine_name)
    bits = [bit for bit in loaded.content.bits if not bit_name or bit_name == bit.id]
    if not bits:
        allowed = ", ".join(bit.id for bit in loaded.content.bits)
        refuse(f"--bit: {bit_name!r}; allowed: {allowed}")
    charts = speed_charts(machine, loaded.content.materials, tuple(bits))
    words = Words("en", loaded.words.texts, inches=inches)
    console = Console(highlight=False, soft_wrap=True)
    for line in chart_page(machine, charts, words):
        console.print(line, markup=False)


def chart_page(machine: Machine, charts: tuple[SpeedChart, ...], words: Words) -> tuple[str, ...]:
    """The page: what the machine gives, a chart for each kind of bit, and how to read it."""
    lines = [f"{machine.name}: speed chart for pupils", HOW[machine.drive], *given(machine)]
    for chart in charts:
        lines += ["", chart.bit.name.capitalize(), *_table(machine, chart, words)]
    return (*lines, "", LIMITS, SAFETY)


def given(machine: Machine) -> tuple[str, ...]:
    """The machine's speeds, and what its pulleys make of them."""
    if machine.drive == "dial":
        slowest, fastest = machine.speeds[-1].rpm, machine.speeds[0].rpm
        return (f"Dial from {slowest:.0f} to {fastest:.0f} rpm.",)
    speeds = [f"{place_at(machine, i)}: {s.rpm:.0f}" for i, s in enumerate(machine.speeds, start=1)]
    lines = [f"On the plate, rpm: {', '.join(speeds)}."]
    if machine.pulleys:
        worked = speed_figures(machine.pulleys, machine.positions or None)
        lines += [f"  {figure.name}: {figure.working}" for figure in worked]
    return tuple(lines)


def _table(machine: Machine, chart: SpeedChart, words: Words) -> list[str]:
    heads = [f"{size.mm:g}" for size in chart.diameters]
    rows = [[_cell(machine, cell) for cell in row.cells] for row in chart.rows]
    wide = max(len(text) for text in (*heads, *(cell for row in rows for cell in row))) + 2
    name = max(len("diameter, mm"), *(len(row.material.name) for row in chart.rows))
    lines = [_line("diameter, mm", heads, name, wide)]
    if words.inches:
        fractions = [words.in_inches(size).split("\u00a0")[0] for size in chart.diameters]
        lines.append(_line("inches", fractions, name, wide))
    pairs: list[tuple[ChartRow, list[str]]] = list(zip(chart.rows, rows, strict=True))
    return lines + [_line(row.material.name, cells, name, wide) for row, cells in pairs]


def _cell(machine: Machine, choice: GrooveChoice | None) -> str:
    if choice is None:
        return ""
    return f"{place_at(machine, choice.groove)} {choice.speed.rpm:.0f}".strip()


def _line(first: str, cells: list[str], name: int, wide: int) -> str:
    return (first.ljust(name) + "".join(cell.rjust(wide) for cell in cells)).rstrip()
