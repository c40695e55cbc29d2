"""`pillarside check`: whether all content can be used, on every machine, at every level."""

from __future__ import annotations

import sys
from dataclasses import dataclass, field
from pathlib import Path
from time import perf_counter
from typing import NoReturn

import click
from rich.console import Console
from rich.progress import Progress

from kiosk.content import Loaded, load
from kiosk.core.model import Content
from kiosk.core.plan.trials import outcome_of, recovery_problems, trials
from kiosk.core.problems import Problem

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


@dataclass
class Tally:
    """What was tried and what came of it."""

    plans: int = 0
    refused: int = 0
    problems: list[Problem] = field(default_factory=list)


@click.command("check")
@at_sequences
@at_school
def check_command(sequences: Path, school: Path | None) -> None:
    """Read all content, compile every plan it can lead to, and show what is wrong."""
    began, console = perf_counter(), Console(highlight=False, soft_wrap=True)
    loaded = load(sequences, school)
    for doubt in loaded.doubts:
        console.print(f"worth a look: {doubt}", markup=False)
    if loaded.content is None:
        _fail(console, loaded.problems)
    tally = try_all(loaded, console)
    if tally.problems:
        _fail(console, tuple(dict.fromkeys(tally.problems)))
    console.print(_counts(loaded.content, tally, perf_counter() - began), markup=False)


def try_all(loaded: Loaded, console: Console) -> Tally:
    """Every trial, with a progress bar where someone looks; stops early if a job goes wrong."""
    content, words, tally = loaded.content, loaded.words, Tally()
    assert content is not None
    tally.problems += recovery_problems(content, words)
    bar = Progress(console=console, transient=True, disable=not console.is_terminal)
    with bar:
        for trial in bar.track(trials(content), description="Compiling plans"):
            if tally.problems and not trial.is_job:
                break
            outcome = outcome_of(content, words, trial)
            tally.problems += outcome.problems
            tally.refused += outcome.refused is not None
            tally.plans += outcome.plan is not None
    return tally


def _counts(content: Content, tally: Tally, seconds: float) -> str:
    counts = {
        "machines": len(content.machines),
        "materials": len(content.materials),
        "kinds of bit": len(content.bits),
        "jobs": len(content.jobs),
        "steps": len(content.drilling.steps),
        "recoveries": len(content.recoveries),
        "plans": tally.plans,
        "holes refused": tally.refused,
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
