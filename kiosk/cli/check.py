"""`pillarside check`: whether all content can be used, on every machine, at every level."""

from __future__ import annotations

import sys
from pathlib import Path
from time import perf_counter
from typing import NoReturn

import click
from rich.console import Console

from kiosk.cli.proving import Tally, Workers, try_all, walk_all
from kiosk.content import load
from kiosk.core.model import Content
from kiosk.core.plan.trials import recovery_problems
from kiosk.core.problems import Problem
from kiosk.core.walk import Proof

SEQUENCES = Path(__file__).parents[2] / "sequences"
MOST_SHOWN = 20

at_sequences = click.option(
    "--sequences",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    default=SEQUENCES,
    show_default="the project's own",
    help="The folder of sequences.",
)
at_school = click.option(
    "--school",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    help="A school's own folder, laid over the sequences.",
)


@click.command("check")
@at_sequences
@at_school
@click.option(
    "--shapes",
    type=click.IntRange(min=0),
    help="Walk only so many shapes of plans, the smallest first; 0 compiles the plans alone.",
)
def check_command(sequences: Path, school: Path | None, shapes: int | None) -> None:
    """Read all content, compile every plan it can lead to and walk every state these can reach.

    Shows what is wrong: a mistake in a file, a plan that breaks a rule, or the touches and
    readings that lead to something that a rule forbids.
    """
    console = Console(highlight=False, soft_wrap=True)
    loaded = load(sequences, school)
    for doubt in loaded.doubts:
        console.print(f"worth a look: {doubt}", markup=False)
    if loaded.content is None:
        _fail(console, loaded.problems)
    began = perf_counter()
    with Workers(loaded.content, loaded.words, console) as workers:
        tally = try_all(workers, loaded.content)
        problems = (*recovery_problems(loaded.content, loaded.words), *tally.problems)
        if problems:
            _fail(console, tuple(dict.fromkeys(problems)))
        proof = walk_all(workers, tally.shapes, shapes)
    if proof.story:
        _counter_example(console, proof)
    console.print(_counts(loaded.content, tally, proof, perf_counter() - began), markup=False)


def _counter_example(console: Console, proof: Proof) -> NoReturn:
    """The first way found to something that a rule forbids."""
    for line in proof.story:
        console.print(line, markup=False)
    console.print(f"1 counter-example in {proof.states} states.", markup=False)
    sys.exit(1)


def _counts(content: Content, tally: Tally, proof: Proof, seconds: float) -> str:
    counts = {
        "machines": len(content.machines),
        "materials": len(content.materials),
        "kinds of bit": len(content.bits),
        "jobs": len(content.jobs),
        "steps": len(content.drilling.steps),
        "recoveries": len(content.recoveries),
        "plans": tally.plans,
        "holes refused": tally.refused,
        "shapes": proof.shapes,
        "states": proof.states,
        "transitions": proof.transitions,
        "seconds": round(seconds, 1),
    }
    listed = ", ".join(f"{name} {count}" for name, count in counts.items())
    return f"{listed}. Nothing is wrong."


def _fail(console: Console, problems: tuple[Problem, ...]) -> NoReturn:
    for problem in problems[:MOST_SHOWN]:
        console.print(str(problem), markup=False)
    more = len(problems) - MOST_SHOWN
    if more > 0:
        console.print(f"and {more} more", markup=False)
    word = "problem" if len(problems) == 1 else "problems"
    console.print(f"{len(problems)} {word}.", markup=False)
    sys.exit(1)
