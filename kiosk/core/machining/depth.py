"""Depth: the point's length, the depth stop, and the travel right through.

The zero of the stop is the point touching the work. From there the bit goes down by the depth
at full diameter and the length of its point.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import floor, radians, tan

from kiosk.core.machining.bounds import THICKNESSES, over_nought, unfit, unfit_hole
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind
from kiosk.core.units import Angle, Length

STOP_GRADUATION = Length(0.5)  # a depth stop's scale is set to half a millimetre
LEAST_FLOOR = STOP_GRADUATION  # less floor than the scale can tell may let the point through
OVERRUN = Length(2.0)  # past the work's underside; El-Hofy, Fundamentals of Machining Processes
_NOISE_MM = 1e-6

STOP_SOURCE = "geometry; zero is the point touching the work"


@dataclass(frozen=True)
class StopSetting:
    """What the depth stop is set to below the zero, its point's part, and the floor left.

    `reached` is how deep the hole gets at full width: with the point as it is shown, to a tenth
    of a millimetre, it adds up to the stop.
    """

    stop: Figure
    point: Figure
    floor: Length
    reached: Figure


def point_length(diameter: Length, angle: Angle) -> Length:
    """How long the point of a bit is: from its tip to where it has the full diameter.

    Source: geometry, L = (d / 2) / tan(angle / 2), d in mm. A flat-bottomed bit has 180 degrees.
    ValueError for an angle outside 0 to 180 degrees, or a diameter of 0 or less.
    """
    over_nought("diameter", diameter)
    if not 0 < angle.degrees <= 180:
        raise ValueError(f"a point angle lies over 0° and up to 180°, found {written(angle)}")
    if angle.degrees == 180:
        return Length(0.0)
    return Length(diameter.mm / 2 / tan(radians(angle.degrees / 2)))


def point_of(bit: BitKind, diameter: Length) -> Length:
    """How far the bit's point, or a hole saw's pilot, stands below its full width."""
    return bit.lead if bit.lead is not None else point_length(diameter, bit.point)


def point_figure(bit: BitKind, diameter: Length) -> Figure:
    """The length of the point with its working."""
    length = point_of(bit, diameter)
    if bit.lead is not None:
        working = f"{written(length)} for every {bit.name}, measured at the point or pilot"
        return Figure("point", length, working, bit.source)
    half = Angle(bit.point.degrees / 2)
    working = f"{written(diameter)} / 2 / tan {written(half)} = {written(length)}"
    return Figure("point", length, working, f"geometry of a {written(bit.point)} point")


def stop_setting(
    hole_depth: Length, bit: BitKind, diameter: Length, thickness: Length
) -> StopSetting | Refused:
    """The depth stop for a part-way hole, rounded to 0.5 mm towards the thicker floor.

    Source: stop = depth at full diameter + point length, both in mm. Refuses a hole whose point
    would come through or leave less floor than the scale can be set to, and one too shallow
    to reach full diameter.
    """
    wrong = unfit_hole(diameter, hole_depth) or unfit("thickness", thickness, THICKNESSES)
    if wrong:
        return wrong
    point = point_of(bit, diameter)
    exact = Length(hole_depth.mm + point.mm)
    stop = _down_to_graduation(exact)
    refused = _comes_through(hole_depth, point, thickness) or _too_shallow(hole_depth, point, stop)
    if refused:
        return refused
    figure = _stop_figure(hole_depth, point, exact, stop)
    floor = Length(thickness.mm - stop.mm)
    return StopSetting(figure, point_figure(bit, diameter), floor, _reached(stop, point))


def floor_figure(setting: StopSetting, thickness: Length) -> Figure:
    """What is left under the point of a part-way hole, with its working."""
    stop = setting.stop.value
    assert isinstance(stop, Length)
    working = f"{written(thickness)} - {written(stop)} = {written(setting.floor)}"
    return Figure("floor", setting.floor, working, "geometry")


def through_travel(thickness: Length, bit: BitKind, diameter: Length) -> Figure:
    """How far the spindle goes down from the zero to be right through, with 2 mm to spare.

    Source: thickness + point length + overrun; El-Hofy, Fundamentals of Machining Processes,
    gives 2 to 3 mm of overrun.
    """
    point = point_of(bit, diameter)
    travel = Length(thickness.mm + point.mm + OVERRUN.mm)
    working = (
        f"{written(thickness)} + {written(point)} point + {written(OVERRUN)} past the far side"
        f" = {written(travel)}"
    )
    source = "geometry; overrun from El-Hofy, Fundamentals of Machining Processes"
    return Figure("travel", travel, working, source)


def scrap_board(bit: BitKind, diameter: Length) -> Length:
    """How thick the scrap board under a through hole must at least be: point and overrun."""
    return Length(point_of(bit, diameter).mm + OVERRUN.mm)


def break_through(thickness: Length, bit: BitKind, diameter: Length) -> Figure:
    """Where to ease off: the tip comes out at the thickness, the full width a point later.

    Both in mm below the zero. Source: geometry; a bit grabs while its point breaks out.
    """
    point = point_of(bit, diameter)
    full = Length(thickness.mm + point.mm)
    working = f"the tip comes out at {written(thickness)}, the full width at {written(full)}"
    return Figure("break-through", thickness, working, "geometry; common practice")


def _down_to_graduation(length: Length) -> Length:
    steps = floor(length.mm / STOP_GRADUATION.mm + _NOISE_MM)
    return Length(steps * STOP_GRADUATION.mm)


def _stop_figure(depth: Length, point: Length, exact: Length, stop: Length) -> Figure:
    working = _sum_line(depth, point)
    if exact.mm - stop.mm >= 0.05:
        working += f", set {written(stop)}: the floor stays thicker"
    return Figure("stop", stop, working, STOP_SOURCE)


def _reached(stop: Length, point: Length) -> Figure:
    shown = Length(float(written(point).split(" ")[0]))  # as it stands on the screen
    reached = Length(stop.mm - shown.mm)
    working = f"{written(stop)} - {written(shown)} point = {written(reached)}"
    return Figure("reached", reached, working, "geometry")


def _sum_line(depth: Length, point: Length) -> str:
    return f"{written(depth)} + {written(point)} point = {written(Length(depth.mm + point.mm))}"


def _comes_through(depth: Length, point: Length, thickness: Length) -> Refused | None:
    spare = thickness.mm - depth.mm - point.mm
    if spare >= LEAST_FLOOR.mm - _NOISE_MM:
        return None
    way = f"{written(Length(-spare))} more than" if spare < 0 else f"{written(Length(spare))} under"
    wrong = (
        f"the point would come through: {_sum_line(depth, point)},"
        f" {way} the work's {written(thickness)}"
    )
    deepest = _down_to_graduation(Length(thickness.mm - LEAST_FLOOR.mm - point.mm))
    return Refused(wrong, f"{written(deepest)} deep" if deepest.mm > 0 else "right through")


def _too_shallow(depth: Length, point: Length, stop: Length) -> Refused | None:
    if depth.mm > 0 and stop.mm > max(point.mm - _NOISE_MM, 0.0):
        return None
    wrong = f"too shallow: {written(depth)} deep would not reach the bit's full width"
    return Refused(wrong, f"{written(STOP_GRADUATION)} deep")
