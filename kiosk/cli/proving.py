"""The two long parts of `check`, shared out to processes: compiling every plan, and the walk."""

from __future__ import annotations

import gc
import os
from collections.abc import Callable
from concurrent.futures import Future, ProcessPoolExecutor, wait
from dataclasses import dataclass, field, replace
from multiprocessing import get_context
from multiprocessing.sharedctypes import Synchronized
from typing import Any

from rich.console import Console
from rich.progress import BarColumn, MofNCompleteColumn, Progress, TextColumn, TimeElapsedColumn

from kiosk.core.model import Content, Machine
from kiosk.core.plan.trials import outcome_of, trials
from kiosk.core.problems import Problem
from kiosk.core.walk import Proof, Shape, by_features, prove, shape_of, shapes_among, size_of
from kiosk.core.words import Words

LOOKED_S = 0.2
EVERY = 50  # how often a process tells how far it has come


@dataclass
class Tally:
    """What was tried and what came of it."""

    plans: int = 0
    refused: int = 0
    problems: list[Problem] = field(default_factory=list)
    shapes: tuple[Shape, ...] = ()


@dataclass(frozen=True)
class Job:
    """What every process needs."""

    content: Content
    words: Words


class Workers:
    """A few processes that have the content, and a bar that shows how far they are."""

    def __init__(self, content: Content, words: Words, console: Console) -> None:
        self._console = console
        context = get_context("fork")
        self._count: Synchronized[int] = context.Value("q", 0)
        self._pool = ProcessPoolExecutor(
            max_workers=os.cpu_count() or 1,
            mp_context=context,
            initializer=_begin,
            initargs=(Job(content, words), self._count),
        )

    def __enter__(self) -> Workers:
        return self

    def __exit__(self, *_: object) -> None:
        self._pool.shutdown(cancel_futures=True)

    def all_of(self, what: str, total: int | None, calls: list[tuple[Any, ...]]) -> list[Any]:
        """The results of all calls, in order, with a bar where someone looks."""
        self._count.value = 0
        begun = [self._pool.submit(*call) for call in calls]
        with _bar(self._console) as bar:
            task = bar.add_task(what, total=total)
            self._watch(begun, lambda: bar.update(task, completed=self._count.value))
        return [future.result() for future in begun]

    def _watch(self, begun: list[Future[Any]], look: Callable[[], None]) -> None:
        left: set[Future[Any]] = set(begun)
        while left:
            done, left = wait(left, timeout=LOOKED_S)
            look()
            if any(future.exception() for future in done):
                return


def _bar(console: Console) -> Progress:
    columns = (TextColumn("{task.description}"), BarColumn(), MofNCompleteColumn())
    shown = not console.is_terminal
    return Progress(*columns, TimeElapsedColumn(), console=console, transient=True, disable=shown)


# --- in the processes ----------------------------------------------------------------------------

_HERE: list[tuple[Job, Synchronized[int]]] = []


def _begin(job: Job, count: Synchronized[int]) -> None:
    """Nothing that is made here goes in circles, so nobody need look for what does."""
    gc.disable()
    _HERE[:] = [(job, count)]


def compiled(machine: Machine) -> Tally:
    """Every trial on one machine; stops early if one of the jobs goes wrong."""
    (job, count), tally = _HERE[0], Tally()
    found: list[Shape] = []
    for number, trial in enumerate(trials(replace(job.content, machines=(machine,)))):
        if tally.problems and not trial.is_job:
            break
        outcome = outcome_of(job.content, job.words, trial)
        tally.problems += outcome.problems
        tally.refused += outcome.refused is not None
        if outcome.plan is not None:
            tally.plans += 1
            found.append(shape_of(outcome.plan, trial))
        _tell(count, number)
    tally.shapes = shapes_among(found)
    return tally


def walked(shapes: tuple[Shape, ...], office: bool) -> Proof:
    """The walk over shapes with the same features."""
    job, count = _HERE[0]
    return prove(job.content, job.words, shapes, office, told=lambda n: _tell(count, n))


def _tell(count: Synchronized[int], number: int) -> None:
    if number % EVERY == 0:
        with count.get_lock():
            count.value += EVERY


# --- over all machines ---------------------------------------------------------------------------


def try_all(workers: Workers, content: Content) -> Tally:
    """Every plan of every machine compiled."""
    total = sum(1 for _ in trials(content))
    calls = [(compiled, machine) for machine in content.machines]
    tallies: list[Tally] = workers.all_of("Compiling plans", total, calls)
    return Tally(
        plans=sum(t.plans for t in tallies),
        refused=sum(t.refused for t in tallies),
        problems=[p for t in tallies for p in t.problems],
        shapes=shapes_among(s for t in tallies for s in t.shapes),
    )


def walk_all(workers: Workers, shapes: tuple[Shape, ...], most: int | None = None) -> Proof:
    """Every shape walked, or the smallest few; the first counter-example, if there is one.

    What adults do at the desk goes by no contact and no plan, so it is walked once.
    """
    if most is not None:
        shapes = tuple(sorted(shapes, key=size_of))[:most]
    groups = by_features(shapes)
    calls: list[tuple[Any, ...]] = []
    if most is None and groups:
        calls = [(walked, groups[-1][:1], True)]  # the longest of all, so that none waits for it
    calls += [(walked, group, False) for group in groups]
    proofs: list[Proof] = workers.all_of("Walking states", None, calls)
    failed = next((p for p in proofs if p.story), None)
    return Proof(
        shapes=len(shapes),
        states=sum(p.states for p in proofs),
        transitions=sum(p.transitions for p in proofs),
        story=failed.story if failed else (),
        rule=failed.rule if failed else "",
    )
