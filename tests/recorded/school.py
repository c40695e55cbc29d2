"""The invented school: groups, adults and three drills."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.kiosk import Shop
from kiosk.core.model import Adult, ContactPair, Group, Level, Pupil, Roster
from tests.core.story import CONTENT, TECHNICIAN

TEACHERS = (
    Adult("a1", "Ms Invented", "teacher"),
    Adult("a5", "Mx Made-up", "teacher"),
)
COVER = Adult("a3", "Mx Cover", "cover")
ADULTS = (*TEACHERS, TECHNICIAN, COVER)
LEVELS = (
    *(Level.SUPERVISED,) * 5,
    *(Level.SHOWN,) * 3,
    *(Level.SIGNED_OFF,) * 2,
    Level.ADULT_BESIDE,
)
SIZES = {"8b": 18, "9a": 16, "10t": 12, "club": 4, "11x": 3}
NAMES = {
    "8b": "Year 8 blue",
    "9a": "Year 9 A",
    "10t": "Year 10 technology",
    "club": "Lunch club",
    "11x": "Year 11 extra",
}


def group(id: str) -> Group:
    """A group with its pupils, levels going round."""
    pupils = tuple(
        Pupil(f"{id}-{number}", number, LEVELS[(number * 7) % len(LEVELS)])
        for number in range(1, SIZES[id] + 1)
    )
    return Group(id, NAMES[id], pupils)


GROUPS = tuple(group(id) for id in SIZES)


def shop_of(machine: str) -> Shop:
    """The workshop of one drill; its school asks the questions first."""
    found = CONTENT.machine(machine)
    assert found is not None
    if machine == "drill-1":  # with a spindle contact beside the starter's
        spindle = ("spindle", ContactPair(make=3))
        wiring = replace(found.wiring, inputs=(*found.wiring.inputs, spindle))
        found = replace(found, wiring=wiring)
    people = replace(CONTENT.people, questions_first=machine == "drill-1", lasts=40, lapses=21)
    content = replace(CONTENT, people=people)
    return Shop(content, found, Roster(GROUPS, ADULTS), "pillarside 0.1.0")
