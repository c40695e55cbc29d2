"""Cutting speed, spindle speed, and the groove to put the belt on.

`plan` asks `choose_groove` for a pupil's hole. A pupil cuts in the lower third of the published
band: slower than the handbooks allow, never slower than the bit can bear.
"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

from kiosk.core.machining.belts import setting_of
from kiosk.core.machining.bounds import over_nought, unfit_hole
from kiosk.core.machining.deep import DEEP_SOURCE, WHOLE, DeepShares, shares_in
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import listed, written
from kiosk.core.model import BitKind, Machine, Material, SpeedBand
from kiosk.core.units import CuttingSpeed, Length, SpindleSpeed

PUPILS_SHARE = 1 / 3  # of the published band, from its lower end


@dataclass(frozen=True)
class GrooveChoice:
    """The groove for the belt, 1 at the top, its speed, and how that was worked out."""

    groove: int
    speed: SpindleSpeed
    figure: Figure


@dataclass(frozen=True)
class SpeedWindow:
    """Spindle speeds that suit a bit in a material: from the bit's floor to the pupils' limit."""

    floor: SpindleSpeed
    limit: SpindleSpeed

    def holds(self, speed: SpindleSpeed) -> bool:
        """Whether the speed lies in the window, its ends included."""
        return self.floor.rpm <= speed.rpm <= self.limit.rpm


def rpm(speed: CuttingSpeed, diameter: Length) -> SpindleSpeed:
    """The spindle speed that gives a bit of that diameter its cutting speed.

    Source: n = 1000 v / (pi d), v in m/min, d in mm. ValueError for a diameter of 0 or less.
    """
    v = over_nought("cutting speed", speed)
    return SpindleSpeed(1000 * v / (pi * over_nought("diameter", diameter)))


def cutting_speed(spindle: SpindleSpeed, diameter: Length) -> CuttingSpeed:
    """The speed of the bit's edge at that spindle speed.

    Source: v = pi d n / 1000, v in m/min, d in mm. ValueError for a diameter of 0 or less.
    """
    n = over_nought("speed", spindle)
    return CuttingSpeed(pi * over_nought("diameter", diameter) * n / 1000)


def largest_at(speed: CuttingSpeed, spindle: SpindleSpeed) -> Length:
    """The diameter whose edge runs at `speed` when the spindle turns at `spindle`.

    Source: d = 1000 v / (pi n), v in m/min, n in turns a minute. ValueError if it stands still.
    """
    v = over_nought("cutting speed", speed)
    return Length(1000 * v / (pi * over_nought("speed", spindle)))


def band_of(material: Material, bit: BitKind) -> SpeedBand | Refused:
    """The published band of cutting speed for this bit in this material."""
    found = next((band for band in material.bands if band.bit == bit.id), None)
    if found is None:
        known = ", ".join(band.bit for band in material.bands)
        wrong = f"no published cutting speed for a {bit.name} in {material.name}"
        return Refused(wrong, f"a bit with one: {known}" if known else "")
    return found


def pupils_limit(band: SpeedBand) -> CuttingSpeed:
    """The fastest cutting speed for a pupil: a third of the way up the published band.

    Source of the share: common practice in teaching, handbooks' bands being for production.
    """
    return CuttingSpeed(band.low + (band.high - band.low) * PUPILS_SHARE)


def window_of(band: SpeedBand, bit: BitKind, diameter: Length, share: float = 1.0) -> SpeedWindow:
    """The spindle speeds a pupil may use; the bit's own top speed can lower the limit.

    `share` is what a deep hole leaves of the speed.
    """
    limit = SpindleSpeed(rpm(pupils_limit(band), diameter).rpm * share)
    return SpeedWindow(bit.floor_speed, min(limit, bit.top_speed))


def choose_groove(
    machine: Machine,
    material: Material,
    bit: BitKind,
    diameter: Length,
    depth: Length | None = None,
) -> GrooveChoice | Refused:
    """The fastest groove in the pupils' window, or why there is none on this machine.

    Source: n = 1000 v / (pi d) at the lower third of the material's published band, less in a
    deep hole if its `depth` is given. Refuses where the slowest groove is too fast, or no groove
    lies between the floor and the limit.
    """
    wrong = unfit_hole(diameter, depth)
    band = wrong or band_of(material, bit)
    if isinstance(band, Refused):
        return band
    deep = shares_in(material, depth, diameter)
    window = window_of(band, bit, diameter, deep.speed)
    inside = [speed for speed in machine.speeds if window.holds(speed)]
    if not inside:
        return _not_on_this_machine(machine, material, bit, diameter, band, deep)
    return _choice(machine, bit, diameter, band, deep, max(inside))


def _choice(
    machine: Machine,
    bit: BitKind,
    diameter: Length,
    band: SpeedBand,
    deep: DeepShares,
    speed: SpindleSpeed,
) -> GrooveChoice:
    groove = machine.speeds.index(speed) + 1
    where = setting_of(machine, groove)
    gives = "give" if machine.positions else "gives"
    working = f"{_limit_working(band, bit, diameter, deep)}; {where} {gives} {written(speed)}"
    source = band.source if deep.speed == 1 else f"{band.source}; {DEEP_SOURCE}"
    return GrooveChoice(groove, speed, Figure("speed", speed, working, source))


def _limit_working(band: SpeedBand, bit: BitKind, diameter: Length, deep: DeepShares) -> str:
    limit = SpindleSpeed(rpm(pupils_limit(band), diameter).rpm * deep.speed)
    share = "" if deep.speed == 1 else f" × {deep.speed:g} at {deep.diameters:.1f} diameters deep"
    third = _third_working(band)
    line = f"1000 × {third} / (π × {written(diameter)}){share} = {written(limit)} at most"
    if bit.top_speed < limit:
        line += f", this bit {written(bit.top_speed)} at most"
    return line


def _third_working(band: SpeedBand) -> str:
    """The pupils' limit as a sum that comes out the same on anyone's calculator."""
    if band.low == band.high:
        return written(pupils_limit(band))
    return f"({band.low:g} + ({band.high:g} - {band.low:g}) / 3) m/min"


def _not_on_this_machine(
    machine: Machine,
    material: Material,
    bit: BitKind,
    diameter: Length,
    band: SpeedBand,
    deep: DeepShares = WHOLE,
) -> Refused:
    window = window_of(band, bit, diameter, deep.speed)
    what = f"not on this machine: a {written(diameter)} {bit.name} in {material.name}"
    why = _why_none(machine, window)
    size = _nearest_size(machine, bit, diameter, band)
    if size:
        return Refused(f"{what} {why}", f"a {written(size)} {bit.name}")
    return Refused(f"{what} {why}", _other_way(machine, window, band))


def _why_none(machine: Machine, window: SpeedWindow) -> str:
    slowest = min(machine.speeds)
    if window.floor > window.limit:
        return f"grabs under {written(window.floor)}, over its limit of {written(window.limit)}"
    if slowest > window.limit:
        excess = SpindleSpeed(slowest.rpm - window.limit.rpm)
        wants = f"wants {written(window.limit)} at most"
        slow = "slowest mark" if machine.drive == "dial" else "slowest groove"
        return f"{wants}, and the {slow} gives {written(slowest)}, {written(excess)} more"
    between = f"{written(window.floor)} to {written(window.limit)}"
    if machine.drive == "dial":
        return f"wants {between}, and the dial begins at {written(slowest)}"
    return f"wants {between}, and the grooves give {listed(sorted(machine.speeds))}"


def _nearest_size(
    machine: Machine, bit: BitKind, diameter: Length, band: SpeedBand
) -> Length | None:
    """The size in the set nearest to the one asked for that has a groove on this machine."""
    fitting = [size for size in bit.sizes if _has_groove(machine, bit, size, band)]
    return min(fitting, key=lambda each: (abs(each.mm - diameter.mm), each.mm), default=None)


def _has_groove(machine: Machine, bit: BitKind, size: Length, band: SpeedBand) -> bool:
    window = window_of(band, bit, size)
    return any(window.holds(speed) for speed in machine.speeds)


def _other_way(machine: Machine, window: SpeedWindow, band: SpeedBand) -> str:
    slowest = min(machine.speeds)
    if slowest > window.limit:
        return f"{written(largest_at(pupils_limit(band), slowest))} or less at {written(slowest)}"
    return "" if window.floor > window.limit else "a drill with a groove between those"
