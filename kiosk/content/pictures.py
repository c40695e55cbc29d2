"""The drawings that a step may name; a test holds them against those that can be drawn."""

from __future__ import annotations

PICTURES = tuple(
    "adult belts brush chuck clamps clothes depth dial drilling drilling_tape extraction feet"
    " fit_bit goggles grip guard hair isolator key_hook leave mark next_hole on_mark plug_out push"
    " scrap set_up stops stops_plug straight table tape trial vacuum work_out"
    " alarm bit_broken bit_jammed gone hurt power smoke work_spun".split()
)
