"""Conditions of steps as data: named things of the job at hand, each with a word.

`content` refuses a condition that names anything else; `compiling` asks `stands` of every step.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import TypeAlias

from kiosk.core.machining.table import reach_of
from kiosk.core.model import (
    BitKind,
    Control,
    Habit,
    Hole,
    Level,
    Machine,
    Material,
    Step,
    When,
    Work,
)

Situation: TypeAlias = Mapping[str, str | tuple[str, ...]]

YES_NO = ("no", "yes")

# Every name a condition may use, with the words it may have. Empty: the ids of the content.
NAMES: Mapping[str, tuple[str, ...]] = {
    "machine": (),
    "habit": tuple(habit.value for habit in Habit),
    "chuck": ("keyed", "keyless"),
    "drive": ("one belt", "two belts", "dial"),
    "depth_stop": YES_NO,
    "contact": ("isolator", "starter", "spindle", "guard", "extraction", "none"),
    "extraction": ("fixed extraction", "vacuum", "none"),
    "material": (),
    "material_family": ("metal", "wood", "plastic"),
    "marking": ("centre punch", "pencil", "felt pen"),
    "swarf": ("curls", "chips", "dust"),
    "fluid": ("cutting fluid", "none"),
    "dust": YES_NO,
    "brittle": YES_NO,
    "bit": (),
    "reach": YES_NO,
    "hole": ("through", "part-way"),
    "lift": YES_NO,
    "way": ("vice", "clamps"),
    "shape": ("bar", "sheet", "block", "round bar", "tube", "small part"),
    "holes": ("one", "several"),
}
MACHINE_NAMES = ("machine", "habit", "chuck", "drive", "depth_stop", "contact", "extraction")


def machine_situation(machine: Machine) -> dict[str, str | tuple[str, ...]]:
    """What can be said of the machine alone: all that a recovery may ask.

    `contact` has a word for each contact that is wired; a condition holds for any of them.
    """
    return {
        "machine": machine.id,
        "habit": machine.habit.value,
        "chuck": "keyed" if machine.keyed_chuck else "keyless",
        "drive": machine.drive,
        "depth_stop": YES_NO[machine.depth_stop],
        "contact": tuple(name for name, _ in machine.wiring.inputs) or "none",
        "extraction": machine.extraction,
    }


def situation_of(
    machine: Machine, material: Material, bit: BitKind, hole: Hole, work: Work
) -> dict[str, str | tuple[str, ...]]:
    """What can be said of a hole in a material on a machine; `way` and `lift` come later."""
    return {
        **machine_situation(machine),
        "material": material.id,
        "material_family": material.family,
        "marking": material.marking,
        "swarf": material.swarf,
        "fluid": material.fluid,
        "dust": YES_NO[material.dust],
        "brittle": YES_NO[material.brittle],
        "bit": bit.id,
        "reach": YES_NO[reach_of(bit, hole.diameter) is not None],
        "hole": "through" if hole.is_through else "part-way",
        "shape": work.shape,
        "holes": "one" if hole.count == 1 else "several",
    }


def stands(what: Step | Control, level: Level | None, situation: Situation) -> bool:
    """Whether a step or control measure stands in this situation for a pupil of this level."""
    if level is not None and what.levels and level not in what.levels:
        return False
    return all_hold(what.when, situation) and not _any_holds(what.unless, situation)


def all_hold(when: When, situation: Situation) -> bool:
    """Whether every line of the condition holds."""
    return all(_holds(name, words, situation) for name, words in when.tests)


def _any_holds(unless: When, situation: Situation) -> bool:
    return any(_holds(name, words, situation) for name, words in unless.tests)


def _holds(name: str, words: tuple[str, ...], situation: Situation) -> bool:
    found = situation.get(name)
    if isinstance(found, tuple):
        return not set(found).isdisjoint(words)
    return found in words
