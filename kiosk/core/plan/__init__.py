"""A plan: the drilling sequence compiled for one machine, job and pupil, numbers filled in.

`shape` holds the values, `compiling` makes one, `requirements` checks that the order of its
steps is one the house rules allow. A plan that breaks a rule is never returned.
"""

from __future__ import annotations

from kiosk.core.machining.worked import Figure
from kiosk.core.plan.compiling import compile_plan, compile_recovery
from kiosk.core.plan.requirements import plan_requirements
from kiosk.core.plan.shape import Plan, PlanStep, SetUp, canonical

__all__ = [
    "Figure",
    "Plan",
    "PlanStep",
    "SetUp",
    "canonical",
    "compile_plan",
    "compile_recovery",
    "plan_requirements",
]
