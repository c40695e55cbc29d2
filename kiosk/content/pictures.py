"""The drawings that a step may name; a test holds them against those that can be drawn."""

from __future__ import annotations

PICTURES = tuple(
    "adult belts brush chuck clamps depth dial drilling feet goggles guard hair isolator key_hook"
    " mark on_mark scrap set_up stops table trial vacuum"
    " alarm bit_broken bit_jammed gone hurt power smoke work_spun".split()
)
