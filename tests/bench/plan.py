"""How long one plan takes to compile: every job's holes on every machine that can drill them.

Printed against its target, and beside it what the sums alone take. Exit code 1 over the target.
"""

from __future__ import annotations

from pathlib import Path
from statistics import median, quantiles
from time import perf_counter

from kiosk.content import load
from kiosk.core.machining.worked import Refused
from kiosk.core.model import Content, Level
from kiosk.core.plan import Plan, compile_plan
from kiosk.core.plan.compiling import piece_of
from kiosk.core.plan.figures import Piece, sums_of
from kiosk.core.plan.trials import Trial, trials
from tests.bench._figures import Figure, tell

TARGET_MS, ROUNDS = 2.0, 20
SEQUENCES = Path(__file__).parents[2] / "sequences"


def drillable(content: Content) -> list[Trial]:
    """The trials of the shipped jobs that their machine can drill."""
    asked = [trial for trial in trials(content) if trial.is_job]
    return [trial for trial in asked if _piece(content, trial) is not None]


def _piece(content: Content, trial: Trial) -> Piece | None:
    piece = piece_of(content, trial.machine, trial.job, trial.hole)
    if not isinstance(piece, Piece) or isinstance(sums_of(piece), Refused):
        return None
    return piece


def compiling_ms(content: Content, asked: list[Trial]) -> list[float]:
    """Milliseconds of every compilation, house rules included."""
    taken = []
    for trial in asked * ROUNDS:
        began = perf_counter()
        plan = compile_plan(content, trial.machine, trial.job, trial.hole, trial.level)
        taken.append((perf_counter() - began) * 1000)
        assert isinstance(plan, Plan)
    return taken


def sums_ms(content: Content, asked: list[Trial]) -> list[float]:
    """Milliseconds of the sums alone."""
    taken = []
    for trial in asked * ROUNDS:
        piece = _piece(content, trial)
        assert piece is not None
        began = perf_counter()
        sums_of(piece)
        taken.append((perf_counter() - began) * 1000)
    return taken


def main() -> int:
    """Measures and prints one line for the plan and one for its sums."""
    content = load(SEQUENCES).content
    if content is None:
        print("the shipped content has mistakes: pillarside check names them")
        return 2
    asked = drillable(content)
    plans, sums = compiling_ms(content, asked), sums_ms(content, asked)
    line = f"median of {len(asked)} plans, {len(Level)} levels, {ROUNDS} rounds"
    note = f"{line}; 95 % {quantiles(plans, n=20)[-1]:.2f}, of it the sums {median(sums):.2f}"
    met = tell(Figure("one plan", median(plans), "ms", "most", TARGET_MS, note=note))
    return 0 if met else 1
