"""Machining sums: every result carries value, unit, working and source; refusals say by how much.

In story order: `bounds` turns away what can't be meant, `belts` gives a machine's speeds, `deep`
and `speeds` choose the groove, `feeding` the feed, `depth` sets the stop, `lifting` says when to
come up, `fitting` (with `table`, `edges`, `threads`) whether the hole can be drilled here at all.
For the technician: `pilots`, `timing`, `cutting` (torque, thrust, power), `motor` (stall, pull,
clamp), `care`; all together in `sheet`. `chart` is the machine's own speed chart.
"""

from __future__ import annotations

from kiosk.core.machining.belts import (
    GROOVE_CORRECTIONS,
    belt_diameters,
    belt_values,
    dial_speeds,
    driven_speed,
    effective,
    plate_doubts,
    positions_of,
    setting_of,
    speed_figures,
    speeds_of,
)
from kiosk.core.machining.bounds import unfit, unfit_hole, unfit_work
from kiosk.core.machining.care import care_figures, hold_figure
from kiosk.core.machining.chart import ChartRow, SpeedChart, speed_chart, speed_charts
from kiosk.core.machining.cutting import cutting_pressure, power_of, thrust_of, torque_of
from kiosk.core.machining.deep import DeepShares, deep_shares
from kiosk.core.machining.depth import (
    StopSetting,
    break_through,
    point_figure,
    point_length,
    point_of,
    scrap_board,
    stop_setting,
    through_travel,
)
from kiosk.core.machining.edges import edge_distance
from kiosk.core.machining.feeding import feed_for
from kiosk.core.machining.fitting import fits
from kiosk.core.machining.lifting import lift_plan
from kiosk.core.machining.motor import (
    clamp_force,
    pull_of,
    rated_torque,
    reach_of_end,
    slip_torque,
    stall_torque,
)
from kiosk.core.machining.pilots import pilot_plan
from kiosk.core.machining.sheet import working_sheet
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
from kiosk.core.machining.table import reach_of, table_gap
from kiosk.core.machining.threads import SCREWS, Screw, nearest_sizes, screw_of, size_figure
from kiosk.core.machining.timing import cutting_time
from kiosk.core.machining.worked import Figure, Refused, Value

__all__ = [
    "GROOVE_CORRECTIONS",
    "SCREWS",
    "ChartRow",
    "DeepShares",
    "Figure",
    "GrooveChoice",
    "Refused",
    "Screw",
    "SpeedChart",
    "SpeedWindow",
    "StopSetting",
    "Value",
    "band_of",
    "belt_diameters",
    "belt_values",
    "break_through",
    "care_figures",
    "choose_groove",
    "clamp_force",
    "cutting_pressure",
    "cutting_speed",
    "cutting_time",
    "deep_shares",
    "dial_speeds",
    "driven_speed",
    "edge_distance",
    "effective",
    "feed_for",
    "fits",
    "hold_figure",
    "largest_at",
    "lift_plan",
    "nearest_sizes",
    "pilot_plan",
    "plate_doubts",
    "point_figure",
    "point_length",
    "point_of",
    "positions_of",
    "power_of",
    "pull_of",
    "pupils_limit",
    "rated_torque",
    "reach_of",
    "reach_of_end",
    "rpm",
    "scrap_board",
    "screw_of",
    "setting_of",
    "size_figure",
    "slip_torque",
    "speed_chart",
    "speed_charts",
    "speed_figures",
    "speeds_of",
    "stall_torque",
    "stop_setting",
    "table_gap",
    "through_travel",
    "thrust_of",
    "torque_of",
    "unfit",
    "unfit_hole",
    "unfit_work",
    "window_of",
    "working_sheet",
]
