"""The rule for pilots: a bit's blunt middle follows the small hole that was drilled before it.

The judge counts by itself what was drilled in each pupil's work; of jobs made at the screen it
knows the holes by their events, of all others by the house.
"""

from __future__ import annotations

from kiosk.core import events as ev
from kiosk.core.events import Entry
from kiosk.core.rules.past import Here, House, Past
from kiosk.core.rules.rule import Rule
from kiosk.core.values import replace


def made_hole_fold(house: House, past: Past, entry: Entry, here: Here) -> Past:
    """One more hole of a job made at the screen; `hole_2` comes after `pilot_2` of its job."""
    event = entry.event
    assert isinstance(event, ev.JobHoleAdded)
    return replace(past, made=(*past.made, (event.job, event.hole)))


def piloted_fold(house: House, past: Past, entry: Entry, here: Here) -> Past:
    """An adult has seen pilots; those drilled here are counted as they are drilled."""
    event = entry.event
    assert isinstance(event, ev.PilotsDrilled)
    seen = ((event.pupil, event.job, event.hole),) * (event.count if event.by else 0)
    return replace(past, piloted=(*past.piloted, *seen))


def drilled(house: House, past: Past) -> Past:
    """The memory after a hole: one pilot more, or one used up."""
    turn = past.turn
    if turn is None:
        return past
    job, hole, piloted = turn.plan.job, turn.plan.hole, list(past.piloted)
    if (turn.pupil, job, hole) in piloted:
        piloted.remove((turn.pupil, job, hole))
    piloted += [(turn.pupil, job, last) for last in _finals(house, past, job, hole)]
    after = tuple(piloted)
    return past if after == past.piloted else replace(past, piloted=after)


def _finals(house: House, past: Past, job: str, pilot: int) -> list[int]:
    return [final for name, final, first in _pairs(house, past) if (name, first) == (job, pilot)]


def _pairs(house: House, past: Past) -> list[tuple[str, int, int]]:
    """Job, hole and pilot of every hole that has one."""
    found, names = list(house.pilots), [name for _, name in past.made]
    jobs = [job for job, _ in past.made]
    for at, (job, name) in enumerate(past.made):
        first = jobs.index(job)
        pilot = name.replace("hole", "pilot")
        if pilot != name and (job, pilot) in past.made:
            found.append((job, at - first, names.index(pilot, first) - first))
    return found


def _no_pilot(house: House, past: Past, entry: Entry) -> str:
    turn = past.turn
    if turn is None or not (house.pilots or past.made):
        return ""
    plan = turn.plan
    asked = any((job, hole) == (plan.job, plan.hole) for job, hole, _ in _pairs(house, past))
    there = (turn.pupil, plan.job, plan.hole) in past.piloted
    return "nobody has drilled its pilot" if asked and not there else ""


PILOTING = (
    Rule(
        "pilot_first",
        (ev.DrillingShown,),
        "a wide bit with no pilot wanders and grabs",
        "Walker, Modern Metalworking; project's jobs",
        _no_pilot,
    ),
)
