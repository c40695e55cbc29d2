"""What plans, jobs and checks are called: ids and trade words as the language says them."""

from __future__ import annotations

from collections.abc import Mapping

from kiosk.core.machining.worked import Value
from kiosk.core.model import Hole, Job
from kiosk.core.words import Words

_IDS = (
    "bit",
    "material",
    "way",
    "marking",
    "setting",
    "power",
    "under",
    "board",
    "shut",
    "at_drill",
)


def named(values: Mapping[str, Value], words: Words) -> dict[str, Value]:
    """The values, with a name in place of an id where the language has one."""
    names = {w: words.maybe(f"{w}.{values[w]}", **values) for w in _IDS if w in values}
    return {**values, **{what: name for what, name in names.items() if name}}


def hole_words(words: Words, job: Job, hole: Hole) -> str:
    """One kind of hole of a job: how many, how wide, how deep, in what."""
    return words.say(
        "job.hole_through" if hole.is_through else "job.hole_part_way",
        diameter=hole.diameter,
        depth=hole.depth or "",
        n=hole.count,
        material=words.say(f"material.{job.material}"),
    )


def pre_use_line(words: Words, machine: str, item: str) -> str:
    """The line of one item of the pre-use check, as this machine has it."""
    own = f"pre_use.{machine}.{item}"
    return words.say(own if words.has(own) else f"pre_use.{item}")
