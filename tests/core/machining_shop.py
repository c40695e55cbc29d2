"""An invented drill, three materials and two bits that the tests of the sums share."""

from __future__ import annotations

from dataclasses import replace

from kiosk.core.machining import (
    GrooveChoice,
    Refused,
    choose_groove,
)
from kiosk.core.model import (
    BitKind,
    Habit,
    Machine,
    Material,
    SpeedBand,
    Wiring,
    Work,
)
from kiosk.core.units import Angle, Duration, Feed, Length, Power, SpindleSpeed

TWIST = BitKind(
    id="twist",
    name="twist bit",
    smallest=Length(1),
    largest=Length(13),
    point=Angle(118),
    top_speed=SpindleSpeed(4000),
    floor_speed=SpindleSpeed(250),
    sizes=tuple(Length(half / 2) for half in range(2, 27)),
    families=("metal", "wood", "plastic"),
    feed=(
        (Length(3.2), Feed(0.025)),
        (Length(6.4), Feed(0.05)),
        (Length(12.7), Feed(0.1)),
    ),
    source="US Navy training manual no. 14345, Holding the Work",
)
FORSTNER = replace(
    TWIST,
    id="forstner",
    name="Forstner bit",
    smallest=Length(15),
    largest=Length(35),
    point=Angle(180),
    sizes=(Length(20), Length(25), Length(35)),
    families=("wood",),
    shank=Length(10),
    feed=(),
)
MILD_STEEL = Material(
    id="mild-steel",
    name="mild steel",
    family="metal",
    bands=(SpeedBand("twist", 20, 37, "US Navy training manual no. 14345"),),
    marking="centre punch",
    swarf="curls",
    dust=False,
    fluid="cutting fluid",
)
PINE = replace(
    MILD_STEEL,
    id="pine",
    name="pine",
    family="wood",
    bands=(SpeedBand("twist", 50, 122, "a"), SpeedBand("forstner", 50, 90, "b")),
)
ACRYLIC = replace(
    MILD_STEEL,
    id="acrylic",
    name="acrylic",
    family="plastic",
    bands=(SpeedBand("twist", 15, 40, "c"),),
    brittle=True,
    lift_every=Length(5),
)
DRILL = Machine(
    id="drill-1",
    name="Drill 1",
    invented=True,
    speeds=tuple(SpindleSpeed(each) for each in (2500, 1600, 1000, 800, 500)),
    pulleys=None,
    chuck_capacity=Length(13),
    keyed_chuck=True,
    stroke=Length(60),
    throat=Length(150),
    motor=Power(370),
    depth_stop=True,
    extraction="none",
    habit=Habit.DAY_END,
    run_down=Duration(4),
    wiring=Wiring(),
    pre_use=(),
    holding=("vice", "clamps"),
    vice_bed=Length(35),
)
BAR = Work("bar", Length(40), Length(6), Length(120))


def chosen(machine: Machine, material: Material, bit: BitKind, mm: float) -> GrooveChoice:
    choice = choose_groove(machine, material, bit, Length(mm))
    assert isinstance(choice, GrooveChoice)
    return choice


def refused(answer: object) -> Refused:
    assert isinstance(answer, Refused)
    return answer
