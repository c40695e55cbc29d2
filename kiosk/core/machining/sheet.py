"""Everything that can be worked out about one hole, for the technician, in the order of a lesson.

`plan` puts only what a pupil needs into a plan; `pillarside plan --working` prints this as well.
Newtons are for the technician; the pupil gets the push test.
"""

from __future__ import annotations

from collections.abc import Iterator
from typing import TypeAlias

from kiosk.core.machining.care import care_figures, hold_figure
from kiosk.core.machining.cutting import WORN_OUT, power_figure, thrust_figure, torque_figure
from kiosk.core.machining.depth import break_through, through_travel
from kiosk.core.machining.edges import edge_figure, end_figure
from kiosk.core.machining.feeding import feed_for
from kiosk.core.machining.lifting import lift_plan
from kiosk.core.machining.motor import clamp_figure, drive_torque, pull_figure
from kiosk.core.machining.pilots import pilot_figure
from kiosk.core.machining.speeds import GrooveChoice, cutting_speed
from kiosk.core.machining.table import table_gap
from kiosk.core.machining.threads import made_for, size_figure
from kiosk.core.machining.timing import time_figure
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Machine, Material, Work
from kiosk.core.units import Feed, Length, Torque

Answers: TypeAlias = Iterator[Figure | Refused]


def working_sheet(
    machine: Machine,
    material: Material,
    bit: BitKind,
    diameter: Length,
    work: Work,
    depth: Length | None,
    choice: GrooveChoice,
) -> tuple[Figure | Refused, ...]:
    """The figures of one hole beyond those in its plan, or why there is none of a kind.

    `depth` is the depth at full diameter, None for a through hole.
    """
    full = depth or work.thickness
    feed = feed_for(bit, material, diameter, full)
    return (
        *_bit(material, bit, diameter),
        _edge_speed(choice, diameter),
        *_holding(machine, material, bit, diameter, work, depth),
        *_time(material, bit, diameter, work, depth, choice, feed),
        *_forces(machine, material, bit, diameter, work, choice, feed),
        *care_figures(material),
    )


def _bit(material: Material, bit: BitKind, diameter: Length) -> Answers:
    yield size_figure(bit, diameter)
    yield from made_for(diameter)
    if pilot := pilot_figure(material, bit, diameter):
        yield pilot


def _edge_speed(choice: GrooveChoice, diameter: Length) -> Figure:
    speed = cutting_speed(choice.speed, diameter)
    working = f"π × {written(diameter)} × {written(choice.speed)} / 1000 = {written(speed)}"
    return Figure("cutting speed", speed, working, "v = π d n / 1000")


def _holding(
    machine: Machine,
    material: Material,
    bit: BitKind,
    diameter: Length,
    work: Work,
    depth: Length | None,
) -> Answers:
    yield hold_figure(work)
    yield end_figure(machine, work)
    yield edge_figure(material, diameter)
    yield table_gap(machine, bit, diameter, work, depth is None)
    if depth is None:
        yield break_through(work.thickness, bit, diameter)


def _time(
    material: Material,
    bit: BitKind,
    diameter: Length,
    work: Work,
    depth: Length | None,
    choice: GrooveChoice,
    feed: Figure | Refused,
) -> Answers:
    if isinstance(feed, Refused):
        yield feed
        return
    assert isinstance(feed.value, Feed)
    travel = through_travel(depth or work.thickness, bit, diameter).value
    assert isinstance(travel, Length)
    lifts = lift_plan(material, bit, diameter, depth or work.thickness)
    yield time_figure(travel, feed.value, choice.speed, len(lifts))


def _forces(
    machine: Machine,
    material: Material,
    bit: BitKind,
    diameter: Length,
    work: Work,
    choice: GrooveChoice,
    feed: Figure | Refused,
) -> Answers:
    drive = drive_torque(machine, choice.groove)
    assert isinstance(drive.value, Torque)
    worst = drive.value
    if isinstance(feed, Figure) and isinstance(feed.value, Feed):
        torque = torque_figure(material, bit, diameter, feed.value)
        yield torque
        yield thrust_figure(material, bit, diameter, feed.value)
        if isinstance(torque, Figure) and isinstance(torque.value, Torque):
            yield power_figure(torque.value, choice.speed)
            worst = max(worst, Torque(WORN_OUT * torque.value.nm))
    yield drive
    yield pull_figure(worst, work)
    yield clamp_figure(worst, material, work)
