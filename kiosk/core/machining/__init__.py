"""Machining sums: every result carries value, unit, working and source; refusals say by how much.

In story order: `belts` gives a machine's speeds, `speeds` chooses the groove, `feeding` the feed,
`depth` sets the stop, `lifting` says when to come up, `fitting` whether the hole can be
drilled here at all.
"""

from __future__ import annotations

from kiosk.core.machining.belts import (
    GROOVE_CORRECTIONS,
    driven_speed,
    effective,
    plate_doubts,
    speed_figures,
    speeds_of,
)
from kiosk.core.machining.depth import (
    StopSetting,
    point_figure,
    point_length,
    scrap_board,
    stop_setting,
    through_travel,
)
from kiosk.core.machining.feeding import feed_for
from kiosk.core.machining.fitting import fits, nearest_sizes
from kiosk.core.machining.lifting import lift_plan
from kiosk.core.machining.speeds import (
    GrooveChoice,
    SpeedWindow,
    band_of,
    choose_groove,
    cutting_speed,
    largest_at,
    pupils_limit,
    rpm,
    window_of,
)
from kiosk.core.machining.worked import Figure, Refused, Value

__all__ = [
    "GROOVE_CORRECTIONS",
    "Figure",
    "GrooveChoice",
    "Refused",
    "SpeedWindow",
    "StopSetting",
    "Value",
    "band_of",
    "choose_groove",
    "cutting_speed",
    "driven_speed",
    "effective",
    "feed_for",
    "fits",
    "largest_at",
    "lift_plan",
    "nearest_sizes",
    "plate_doubts",
    "point_figure",
    "point_length",
    "pupils_limit",
    "rpm",
    "scrap_board",
    "speed_figures",
    "speeds_of",
    "stop_setting",
    "through_travel",
    "window_of",
]
