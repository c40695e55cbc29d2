"""The groove that is chosen, against a search that only knows what a band is.

Random machines, materials, bits and holes; 100,000 of them with `--full`.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import pi
from random import Random

from kiosk.core.machining import GrooveChoice, choose_groove
from kiosk.core.model import BitKind, Machine, Material, SpeedBand
from kiosk.core.units import Length, SpindleSpeed
from tests.core.machining_shop import DRILL, MILD_STEEL, TWIST

FEW, MANY = 5_000, 100_000
EDGE = 1e-9  # closer to a limit than this, rounding decides


def random_machine(chance: Random) -> Machine:
    """Up to sixteen grooves from 60 to 4000 turns a minute, in any order."""
    speeds = chance.sample(range(60, 4000), chance.randint(1, 16))
    return replace(DRILL, speeds=tuple(SpindleSpeed(float(each)) for each in speeds))


def random_material(chance: Random) -> Material:
    """A band anywhere from 2 to 200 m/min; one in twenty has none for this bit."""
    low = chance.uniform(2, 100)
    bit = "twist" if chance.random() < 0.95 else "other"
    return replace(MILD_STEEL, bands=(SpeedBand(bit, low, low * chance.uniform(1.1, 3), "x"),))


def random_bit(chance: Random) -> BitKind:
    """A floor and a top speed of any kind, the floor now and then over the top."""
    floor, top = chance.uniform(50, 900), chance.uniform(300, 4000)
    return replace(TWIST, floor_speed=SpindleSpeed(floor), top_speed=SpindleSpeed(top))


def searched(machine: Machine, material: Material, bit: BitKind, mm: float) -> float | None:
    """The fastest speed whose edge runs in the lower third of the band: plain search."""
    band = next((each for each in material.bands if each.bit == bit.id), None)
    if band is None:
        return None
    third = band.low + (band.high - band.low) / 3
    fastest: float | None = None
    for speed in machine.speeds:
        edge = pi * mm * speed.rpm / 1000
        if edge <= third and bit.floor_speed.rpm <= speed.rpm <= bit.top_speed.rpm:
            fastest = speed.rpm if fastest is None else max(fastest, speed.rpm)
    return fastest


def is_on_the_edge(machine: Machine, material: Material, mm: float) -> bool:
    """Whether a speed lies so near the limit that rounding decides."""
    band = material.bands[0]
    third = band.low + (band.high - band.low) / 3
    return any(abs(pi * mm * each.rpm / 1000 / third - 1) < EDGE for each in machine.speeds)


def test_the_chosen_speed_is_the_fastest_inside_the_band(
    full: bool, sum_up: Callable[[str], None]
) -> None:
    chance, asked, chosen = Random(20261125), MANY if full else FEW, 0

    for _ in range(asked):
        machine, material, bit = random_machine(chance), random_material(chance), random_bit(chance)
        mm = chance.uniform(0.5, 40)
        found = choose_groove(machine, material, bit, Length(mm))
        expected = searched(machine, material, bit, mm)
        if isinstance(found, GrooveChoice):
            chosen += 1
            assert machine.speeds[found.groove - 1] == found.speed
        speed = found.speed.rpm if isinstance(found, GrooveChoice) else None
        assert speed == expected or is_on_the_edge(machine, material, mm)

    sum_up(f"grooves: {asked} machines and holes, {chosen} chosen, all as searched")
    assert asked / 5 < chosen < asked


def test_a_dial_is_searched_like_any_other_machine() -> None:
    marks = tuple(SpindleSpeed(float(each)) for each in range(2400, 150, -50))
    dial = replace(DRILL, drive="dial", speeds=marks)

    found = choose_groove(dial, MILD_STEEL, TWIST, Length(8))

    assert isinstance(found, GrooveChoice)
    assert found.speed.rpm == 1000 == searched(dial, MILD_STEEL, TWIST, 8)
    assert found.figure.working.endswith("1021 rpm at most; the dial gives 1000 rpm")
