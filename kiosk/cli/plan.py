"""`pillarside plan`: the steps for one hole, with their numbers and where each comes from."""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import replace
from pathlib import Path
from typing import NoReturn

import click
from rich.console import Console

from kiosk.cli.check import at_school, at_sequences
from kiosk.cli.plan_page import print_plan, print_working, sheet_of
from kiosk.content import load
from kiosk.content.values import SHAPES, Fault, positive, quantity, work
from kiosk.content.written import Text
from kiosk.core.machining import Refused, screw_of
from kiosk.core.model import BitKind, Content, Hole, Job, Level, Machine, Material, Work
from kiosk.core.plan import compile_plan
from kiosk.core.problems import nearest
from kiosk.core.units import Length

PATHS = ("fresh", "joining", "further")
HOLES = "8 mm through, 10 mm x 30 mm deep, 5/16 in through, M6 tapping through"
_SCREW = re.compile(r"(M\d+(?:\.5)?) +(tapping|clearance)", re.IGNORECASE)
_HOLE = re.compile(r"(?P<across>[^x,]+?)(?: through|(?: *[x,] *| )(?P<depth>[^x,]+?) deep)")


@click.command("plan")
@click.option("--machine", "machine_name", required=True, help="A machine, such as drill-1.")
@click.option("--material", "material_name", required=True, help='Such as "mild steel".')
@click.option("--work", "work_text", required=True, help='Such as "bar 40 x 6 x 120 mm".')
@click.option("--hole", "hole_text", required=True, help='Such as "8 mm through".')
@click.option("--level", "level_name", required=True, help='Such as "supervised".')
@click.option("--bit", "bit_name", default="", help="A kind of bit; else the usual one.")
@click.option("--path", type=click.Choice(PATHS), default="fresh", help="Which way to the check.")
@click.option("--working", is_flag=True, help="Everything that can be worked out as well.")
@click.option("--inches", is_flag=True, help="Show lengths in inches as well.")
@at_sequences
@at_school
def plan_command(
    machine_name: str,
    material_name: str,
    work_text: str,
    hole_text: str,
    level_name: str,
    bit_name: str,
    path: str,
    working: bool,
    inches: bool,
    sequences: Path,
    school: Path | None,
) -> None:
    """Show the steps for one hole, with every number, its working and its source."""
    loaded = load(sequences, school)
    content = loaded.content
    if content is None:
        refuse("; ".join(str(problem) for problem in loaded.problems[:1]))
    machine = machine_called(content, machine_name)
    material = _material(content, material_name)
    bit = _bit(content, material, bit_name)
    piece, hole = _work(work_text), _hole(hole_text, bit)
    job = Job("typed", "Typed in", material.id, piece, (hole,), file="--hole")
    plan = compile_plan(content, machine, job, 0, _level(level_name))
    if isinstance(plan, tuple):
        refuse("; ".join(str(problem) for problem in plan))
    console = Console(highlight=False)
    words = replace(loaded.words, inches=inches)
    print_plan(console, plan, job, path, content, words)
    if working:
        print_working(console, sheet_of(content, machine, plan, job), words)


def refuse(line: str) -> NoReturn:
    """End the command with one line."""
    raise click.ClickException(line)


def unknown(option: str, found: str, allowed: Iterable[str]) -> NoReturn:
    """End the command: what was found, what is allowed, the nearest match."""
    words = tuple(allowed)
    advice = nearest(found, words)
    line = f"{option}: {found!r}; allowed: {', '.join(words)}"
    refuse(f"{line}; {advice}" if advice else line)


def missing(option: str, what: str, allowed: Sequence[str]) -> str:
    """The line for an option left out: what is missing, what is allowed, what to do."""
    return f"{option} is missing; allowed: {', '.join(allowed)}; name {what}: {option} {allowed[0]}"


def machine_called(content: Content, name: str) -> Machine:
    """The machine of that id or name."""
    if not name:
        refuse(missing("--machine", "the drill", [machine.id for machine in content.machines]))
    for machine in content.machines:
        if name.lower() in (machine.id.lower(), machine.name.lower()):
            return machine
    unknown("--machine", name, (machine.id for machine in content.machines))


def _material(content: Content, name: str) -> Material:
    for material in content.materials:
        if name.lower() in (material.id.lower(), material.name.lower()):
            return material
    unknown("--material", name, (material.name for material in content.materials))


def _bit(content: Content, material: Material, name: str) -> BitKind:
    if not name:
        return usual_bit(content, material)
    for bit in content.bits:
        if name.lower() in (bit.id.lower(), bit.name.lower()):
            return bit
    unknown("--bit", name, (bit.id for bit in content.bits))


def usual_bit(content: Content, material: Material) -> BitKind:
    """The bit most made for the material's family that needs no adult beside."""
    fitting = [b for b in content.bits if material.family in b.families and not b.adult_beside]
    if not fitting:
        refuse(f"--material: no kind of bit is for {material.name}; name one with --bit")
    return min(fitting, key=lambda bit: len(bit.families))


def _level(name: str) -> Level:
    plain = name.lower().replace("_", " ").replace("-", " ")
    levels = {level.value: level for level in Level}
    if plain not in levels:
        unknown("--level", name, levels)
    return levels[plain]


def _work(written: str) -> Work:
    try:
        return work(Text(written))
    except Fault as fault:
        if fault.allowed == ", ".join(SHAPES):
            unknown("--work", fault.found.strip("'"), SHAPES)
        refuse(f"--work: {fault.found}; allowed: {fault.allowed}")


def _hole(written: str, bit: BitKind) -> Hole:
    match = _HOLE.fullmatch(written.strip())
    if match is None:
        refuse(f"--hole: {written!r}; allowed: {HOLES}")
    across = _across(match["across"])
    depth = _length(match["depth"]) if match["depth"] else None
    return Hole("typed", bit.id, across, depth, 1)


def _across(written: str) -> Length:
    """A diameter as typed, or the one that a screw's thread or clearance asks for."""
    match = _SCREW.fullmatch(written.strip())
    if match is None:
        return _length(written)
    screw = screw_of(match[1])
    if isinstance(screw, Refused):
        refuse(f"--hole: {screw}")
    return screw.tapping if match[2].lower() == "tapping" else screw.medium


def _length(written: str) -> Length:
    try:
        return positive(quantity(Text(written), Length), Text(written))
    except Fault as fault:
        refuse(f"--hole: {fault.found}; allowed: {fault.allowed}")
