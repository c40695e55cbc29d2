"""What the cut asks of bit, motor and hands: torque, thrust and power. For the technician."""

from __future__ import annotations

from math import pi, radians, sin

from kiosk.core.machining.bounds import over_nought
from kiosk.core.machining.worked import Figure, Refused
from kiosk.core.machining.writing import written
from kiosk.core.model import BitKind, Cutting, Material
from kiosk.core.units import Angle, Feed, Force, Length, Power, Pressure, SpindleSpeed, Torque

WEAR = 1.3  # Machinery's Handbook, normal drilling with a bit no longer new (from memory)
WORN_OUT = 1.5  # the same, very dull (from memory)
CHISEL_B, CHISEL_J = 1.355, 0.030  # Machinery's Handbook 31e, chisel edge 0.18 of the diameter
THRUST_SOURCE = "Machinery's Handbook 31e, thrust of drilling; drill constant from memory"


def cutting_pressure(cutting: Cutting, feed: Feed, point: Angle) -> Pressure:
    """The force on each square millimetre of chip, N/mm2, at a feed in mm a turn.

    Source: Kienzle, kc = kc1 h^-m with the chip's thickness h = f / 2 sin(point / 2) in mm.
    """
    thick = over_nought("feed", feed) / 2 * sin(radians(over_nought("point", point) / 2))
    return Pressure(float(cutting.pressure.n_per_mm2 * thick**-cutting.exponent))


def torque_of(pressure: Pressure, feed: Feed, diameter: Length) -> Torque:
    """The turning moment of a sharp drill with two lips, N m; feed in mm a turn, d in mm.

    Source: M = kc f d^2 / 8000, which follows from power = pressure x chips cut in a second.
    """
    d, f = over_nought("diameter", diameter), over_nought("feed", feed)
    return Torque(over_nought("cutting pressure", pressure) * f * d**2 / 8000)


def power_of(torque: Torque, speed: SpindleSpeed) -> Power:
    """The power at the spindle, W, of a moment in N m at turns a minute. P = 2 pi n T / 60."""
    return Power(2 * pi * over_nought("speed", speed) * over_nought("torque", torque) / 60)


def thrust_of(constant: float, feed: Feed, diameter: Length, wear: float = WEAR) -> Force:
    """The push down that the drill needs, N; feed in mm a turn, d in mm.

    Source: Machinery's Handbook 31e, T = 0.05 Kd f^0.8 d^0.8 B W + 0.007 Kd d^2 J W with the
    standard drill's chisel edge (B 1.355, J 0.030) and W for wear.
    """
    f, d = over_nought("feed", feed), over_nought("diameter", diameter)
    lips = 0.05 * constant * float(f**0.8 * d**0.8) * CHISEL_B * wear
    return Force(lips + 0.007 * constant * d**2 * CHISEL_J * wear)


def torque_figure(
    material: Material, bit: BitKind, diameter: Length, feed: Feed
) -> Figure | Refused:
    """The moment of a sharp bit with its working; refused where no pressure is published."""
    if material.cutting is None:
        return Refused(f"no published cutting pressure for {material.name}")
    if bit.cuts != "whole hole":
        return Refused(f"no published torque for a {bit.name}, which cuts a {bit.cuts}")
    pressure = cutting_pressure(material.cutting, feed, bit.point)
    torque = torque_of(pressure, feed, diameter)
    sizes = f"{written(feed)} × ({written(diameter)})²"
    working = f"{written(pressure)} × {sizes} / 8000 = {written(torque)}, sharp"
    return Figure("torque", torque, working, material.cutting.source)


def power_figure(torque: Torque, speed: SpindleSpeed) -> Figure:
    """The power the cut takes, with its working."""
    power = power_of(torque, speed)
    working = f"2π × {written(speed)} × {written(torque)} / 60 = {written(power)}"
    return Figure("power", power, working, "P = 2π n T")


def thrust_figure(
    material: Material, bit: BitKind, diameter: Length, feed: Feed
) -> Figure | Refused:
    """The push down with its working; refused for bits and materials with no published constant."""
    constant = material.cutting.thrust if material.cutting else None
    if constant is None or not bit.chisel_edge:
        return Refused(f"no published thrust for a {bit.name} in {material.name}")
    thrust = thrust_of(constant, feed, diameter)
    working = (
        f"0.05 × {constant:g} × {feed.mm_per_rev:g}^0.8 × {diameter.mm:g}^0.8 × {CHISEL_B} × {WEAR}"
        f" + 0.007 × {constant:g} × {diameter.mm:g}² × {CHISEL_J} × {WEAR} = {written(thrust)}"
    )
    return Figure("thrust", thrust, working, THRUST_SOURCE)
