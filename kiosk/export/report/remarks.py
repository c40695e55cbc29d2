"""What stands out, in words. Every figure in a remark is a cell of the table that it names.

A remark says where to look, never more than the counts bear out. Each rule's limit is stated with
the remarks; they are the project's own, chosen low enough that a week shows something.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from kiosk.core.report import Drill, Report, StepRow
from kiosk.export.report.machine import fault_words
from kiosk.export.report.names import Told

STUCK_TIMES = 5
STUCK_SHARE = 0.5
BACK_TIMES = 5
NOT_RIGHT_TIMES = 3
LOST_TIMES = 3
CUT_TIMES = 3

RULES = (
    f"A step is remarked on where at least half of {STUCK_TIMES} times or more took over 60 s, or "
    f"where it was gone back to {BACK_TIMES} times or more; a check where one step was not right "
    f"{NOT_RIGHT_TIMES} times or more; a contact from {LOST_TIMES} readings lost; the supply from "
    f"{CUT_TIMES} starts after a loss of power. Near misses, incidents, runs without an OK, days "
    "without a check, levels gone, clocks not set and anything amiss with a record are always "
    "remarked on."
)


@dataclass(frozen=True)
class Remark:
    """One sentence or two, and the id of the table that has its figures."""

    text: str
    table: str


def remarks(report: Report, told: Told) -> tuple[Remark, ...]:
    """All remarks, what concerns harm first."""
    return (
        *_of_notes(report, told),
        *_of_runs(report, told),
        *_of_not_right(report, told),
        *(remark for row in report.steps for remark in _of_step(row, told)),
        *_of_drills(report, told),
        *_of_readings(report, told),
        *_of_grants(report, told),
        *_of_power(report),
        *(remark for drill in report.drills for remark in _of_record(drill, told)),
    )


def _of_notes(report: Report, told: Told) -> Iterator[Remark]:
    for row in report.notes_by_hazard:
        if row.near_misses or row.incidents:
            counts = f"near misses: {row.near_misses}, incidents: {row.incidents}"
            counts += f", still open: {row.open}" if row.open else ""
            due = " The hazard is due for review." if row.due else ""
            yield Remark(f"{told.hazard(row.hazard)}: {counts}.{due}", "notes")


def _of_runs(report: Report, told: Told) -> Iterator[Remark]:
    for name, count in report.counts("runs_without_ok"):
        contact = told.input(name)
        yield Remark(f"{contact} seen running with no OK standing: {count}. Ask why.", "runs")


def _of_not_right(report: Report, told: Told) -> Iterator[Remark]:
    for step, count in report.counts("not_right"):
        if count >= NOT_RIGHT_TIMES:
            hazards = ", ".join(told.hazards_of(step))
            due = f" Due for review: {hazards}." if hazards else ""
            yield Remark(f"{told.step(step)}: not right at {count} checks.{due}", "not_right")


def _of_step(row: StepRow, told: Told) -> Iterator[Remark]:
    times = row.times
    if times and times.times >= STUCK_TIMES and times.slow_share >= STUCK_SHARE:
        slow = f"took over 60 s at {times.slow} of {times.times} times"
        yield Remark(f"{told.step(row.step)}: {slow}. Look at its wording and drawing.", "steps")
    if row.back >= BACK_TIMES:
        text = f"{told.step(row.step)}: gone back to {row.back} times. Look at what comes after it."
        yield Remark(text, "steps")


def _of_drills(report: Report, told: Told) -> Iterator[Remark]:
    for drill in report.drills:
        name = told.drill(drill, report.drills)
        if drill.unlooked:
            days = f"{drill.unlooked} of {drill.days} days of use"
            yield Remark(f"{name}: no check of the day on {days}.", "due")
        if drill.out:
            why = told.out(drill.out, drill.machine)
            yield Remark(f"{name}: out of use at the end of this report ({why}).", "out")


def _of_readings(report: Report, told: Told) -> Iterator[Remark]:
    for (name, why), count in report.ranks.get("readings_lost", ()):
        if count >= LOST_TIMES:
            what = f"{told.input(name)}: reading lost {count} times ({why.replace('_', ' ')})"
            yield Remark(f"{what}. Look at its wires and its box.", "readings_lost")


def _of_grants(report: Report, told: Told) -> Iterator[Remark]:
    for word, found in report.grants:
        if found and (found[2] or found[3]):
            gone = f"ended: {found[2]}, lapsed: {found[3]}"
            stays = "An adult stays beside until it is granted again"
            yield Remark(f"Level {told.level(word)}: {gone}. {stays}.", "grants")


def _of_power(report: Report) -> Iterator[Remark]:
    cut = dict(report.counts("restarts")).get("cut", 0)
    if cut >= CUT_TIMES:
        text = (
            f"The kiosk started {cut} times after a loss of power or a crash. Look at its supply."
        )
        yield Remark(text, "restarts")


def _of_record(drill: Drill, told: Told) -> Iterator[Remark]:
    name = told.machine(drill.machine)
    unset = sum(remark.what == "not_set" for remark in drill.clock)
    if unset:
        times = "1 time" if unset == 1 else f"{unset} times"
        text = f"{name}: started {times} with no clock set. Days near then may be missing."
        yield Remark(text, "clock")
    yield from (Remark(text, "record") for text in amiss(drill, told))


def amiss(drill: Drill, told: Told) -> tuple[str, ...]:
    """What is amiss with a drill's record, each in a sentence."""
    name = f"{told.machine(drill.machine)}, record {drill.log[:8]}"
    return tuple(f"{name}: {fault_words(fault)}." for fault in drill.faults)
