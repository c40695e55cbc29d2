"""A plan as a page of text: what to do, what one sees, and under it every number's working."""

from __future__ import annotations

from textwrap import wrap
from typing import TypeAlias

from rich.console import Console
from rich.text import Text

from kiosk.core.machining import (
    Figure,
    GrooveChoice,
    Refused,
    Value,
    choose_groove,
    working_sheet,
)
from kiosk.core.model import Content, Job, Machine, Needs
from kiosk.core.plan import Plan, PlanStep
from kiosk.core.plan.holding import why_adult_beside
from kiosk.core.plan.trials import figures_in
from kiosk.core.plan.wording import named
from kiosk.core.words import Words

Answers: TypeAlias = tuple[Figure | Refused, ...]

SAFETY = (
    "Handbook starting values for a lesson. The machine's manual, the school's own risk assessment "
    "and competent people come first."
)
IN_WORDS = {"hole": "before every hole", "session": "once a session", "set-up": "once a set-up"}


def print_plan(
    console: Console, plan: Plan, job: Job, path: str, content: Content, words: Words
) -> None:
    """Prints one path of the plan of `job` and its clearing up."""
    values = named(dict(plan.values), words)
    console.print(Text(_heading(plan, values, content), style="bold"))
    console.print(Text(_how_often(plan, job, content)))
    shown: set[str] = set()
    for number, step in enumerate((*plan.path(path), *plan.clear), start=1):
        _print_step(console, number, step, words, values)
        if step.part == "check":
            for id in plan.look_for:
                _print(console, f"- {words.say(f'step.{id}.check', **values)}")
        shown |= _print_figures(console, plan, words, step, shown)
    _print_rest(console, plan, words, shown)
    console.print(Text(f"\n{SAFETY}", style="dim"))


def sheet_of(content: Content, machine: Machine, plan: Plan, job: Job) -> Answers:
    """All that machining works out for a plan's hole beyond the plan's own figures."""
    material, bit = content.material(job.material), content.bit(plan.set_up.bit)
    assert material is not None and bit is not None, "a plan's material and bit are known"
    hole = job.holes[plan.hole]
    choice = choose_groove(machine, material, bit, hole.diameter, hole.depth or job.work.thickness)
    assert isinstance(choice, GrooveChoice), "a plan has a groove"
    return working_sheet(machine, material, bit, hole.diameter, job.work, hole.depth, choice)


def print_working(console: Console, answers: Answers, words: Words) -> None:
    """Prints the technician's figures, and why there is none where none is published."""
    console.print(Text("\nFor the technician", style="bold"))
    for answer in answers:
        if isinstance(answer, Figure):
            _print_figure(console, answer, words)
        else:
            _print(console, f"- {answer}", "dim")


def _print_rest(console: Console, plan: Plan, words: Words, shown: set[str]) -> None:
    rest = [figure for figure in plan.figures if figure.name not in shown]
    if rest:
        console.print(Text("\nAlso worked out", style="bold"))
    for figure in rest:
        _print_figure(console, figure, words)


def _heading(plan: Plan, values: dict[str, Value], content: Content) -> str:
    machine = content.machine(plan.machine)
    name = machine.name if machine else plan.machine
    hole = f"{plan.set_up.diameter.mm:g} mm {values['hole_kind']} in {values['material']}"
    return f"{name}: {hole}, {values['bit']}, {plan.level.value}"


def _how_often(plan: Plan, job: Job, content: Content) -> str:
    bit = content.bit(plan.set_up.bit)
    diameter, checks = plan.set_up.diameter, content.checks
    why = why_adult_beside(bit, diameter, job.work, checks) if bit else ""
    if not why and plan.checks_every != checks.at(plan.level):
        why = "this school asks for it"
    return f"An adult looks {IN_WORDS[plan.checks_every]}: {why or plan.level.value}."


def _print_step(
    console: Console, number: int, step: PlanStep, words: Words, values: dict[str, Value]
) -> None:
    title = words.say(f"step.{step.id}.title", **values)
    asks = [step.who] if step.who == "adult" else []
    asks += [step.needs.value] if step.needs is not Needs.NOTHING else []
    console.print()
    line = Text(f"{number:>2}  {title}", style="bold")
    console.print(line + Text(f"  [{', '.join(asks)}]" if asks else "", style="not bold"))
    for sentence in words.say(f"step.{step.id}.say", **values).splitlines():
        _print(console, sentence)
    if note := words.maybe(f"step.{step.id}.note", **values):
        _print(console, f"! {note}", "yellow")
    _print(console, f"> {words.say(f'step.{step.id}.see', **values)}", "cyan")


def _print_figures(
    console: Console, plan: Plan, words: Words, step: PlanStep, shown: set[str]
) -> set[str]:
    """Prints the figures that the step's texts name for the first time, and returns their names."""
    keys = (f"step.{step.id}.{name}" for name in ("say", "see", "note"))
    asked = {name for key in keys for name in figures_in(words.texts.get(key, ""))} - shown
    for figure in plan.figures:
        if figure.name in asked:
            _print_figure(console, figure, words)
    return asked


def _print_figure(console: Console, figure: Figure, words: Words) -> None:
    value = words.number(figure.value)
    _print(console, f"{figure.name} {value}: {figure.working}", "green")
    _print(console, f"  from: {figure.source}", "dim")


def _print(console: Console, line: str, style: str = "") -> None:
    for part in wrap(line, console.width - 6, subsequent_indent="  "):
        console.print(Text(f"    {part}", style=style))
