"""Compiles the drilling sequence for one machine, job, hole and pupil's level."""

from __future__ import annotations

from kiosk.core.model import Content, Job, Level, Machine
from kiosk.core.plan.shape import Plan
from kiosk.core.problems import Problem


def compile_plan(
    content: Content, machine: Machine, job: Job, hole: int, level: Level
) -> Plan | tuple[Problem, ...]:
    """The plan for hole number `hole` (0 first) of the job, or every reason why there is none."""
    raise NotImplementedError
