"""What the motor and belt can do to loose work, and what holds against it. For the technician.

The pull is worked out from the greater of what the cut takes and what the drive can give before
it stalls or the belt slips, so that it errs towards holding harder. The pupil gets the push test.
"""

from __future__ import annotations

from math import inf, pi

from kiosk.core.machining.belts import belt_diameters
from kiosk.core.machining.bounds import over_nought
from kiosk.core.machining.worked import Figure
from kiosk.core.machining.writing import written
from kiosk.core.model import Machine, Material, Work
from kiosk.core.units import Force, Length, Power, SpindleSpeed, Torque

STALL = 2.5  # of the rated moment; NEMA MG 10 gives 1.75 to 3 and more for small motors
SAFETY = 2.0  # chuck makers' manuals: 2 wherever possible; VDI 3106 gives at least 1.5
FACES = 2  # the clamp's and the table's
BY_THE_CLAMP = Length(50.0)  # from hole to clamp where the work is long enough; common practice
PLAIN_FRICTION = 0.1  # where the material gives none: smooth jaw on medium machined steel
STALL_SOURCE = "NEMA MG 10, 1.75 to 3 times the rated moment; 2.5 taken"
SLIP_SOURCE = "the pull measured at this drill, half the pulley across"
CLAMP_SOURCE = "VDI 3106 and chuck makers' manuals, safety 2; the material's friction"


def rated_torque(power: Power, speed: SpindleSpeed) -> Torque:
    """The moment that goes with a power in W at turns a minute, N m. T = 60 P / (2 pi n)."""
    return Torque(60 * over_nought("power", power) / (2 * pi * over_nought("speed", speed)))


def stall_torque(machine: Machine, speed: SpindleSpeed) -> Torque:
    """The most the motor gives at the spindle before it stalls, N m.

    Source: rated moment at that speed, no loss counted, times 2.5 (NEMA MG 10: 1.75 to 3).
    """
    return Torque(STALL * rated_torque(machine.motor, speed).nm)


def slip_torque(machine: Machine, groove: int) -> Torque | None:
    """The most the belt carries to the spindle, N m: its pull times half the spindle pulley.

    None where the slip was not measured or no pulleys are given.
    """
    if machine.belt_slip is None or machine.pulleys is None:
        return None
    driven = belt_diameters(machine, groove)[-1]
    return Torque(over_nought("belt's pull", machine.belt_slip) * driven.mm / 2000)


def drive_torque(machine: Machine, groove: int) -> Figure:
    """The lower of stall and belt slip at this groove, with its working."""
    speed = machine.speeds[groove - 1]
    stall, slip = stall_torque(machine, speed), slip_torque(machine, groove)
    if slip is not None and slip < stall:
        driven = belt_diameters(machine, groove)[-1]
        working = f"belt slips at {written(machine.belt_slip or Force(0))} × {written(driven)} / 2"
        return Figure("drive torque", slip, f"{working} = {written(slip)}", SLIP_SOURCE)
    working = f"{STALL:g} × 60 × {written(machine.motor)} / (2π × {written(speed)})"
    return Figure(
        "drive torque", stall, f"{working} = {written(stall)} before it stalls", STALL_SOURCE
    )


def pull_of(torque: Torque, reach: Length) -> Force:
    """The pull at the end of loose work, N: moment in N m over the reach in mm."""
    return Force(1000 * over_nought("torque", torque) / over_nought("reach", reach))


def reach_of_end(work: Work) -> Length:
    """How far the work's far end stands from a hole in its middle, mm."""
    return Length(max(work.width.mm, work.length.mm) / 2)


def pull_figure(worst: Torque, work: Work) -> Figure:
    """What a hand would have to hold at the end of loose work, with its working."""
    reach = reach_of_end(work)
    pull = pull_of(worst, reach)
    working = (
        f"{written(worst)} / {written(reach)} = {written(pull)} at the end of loose work,"
        f" about {pull.n / 9.81:.0f} kg"
    )
    return Figure("pull", pull, working, "moment over the work's own half-length")


def clamp_force(torque: Torque, radius: Length, friction: float, faces: int = FACES) -> Force:
    """How hard one clamp must press, N, to hold a moment by friction alone.

    Source: F = S T / (faces mu r) with safety S of 2, r from hole to clamp in mm.
    """
    if not 0 < friction < inf or faces < 1:
        raise ValueError(f"the friction and faces must be over 0, found {friction:g} and {faces}")
    return Force(SAFETY * 1000 * over_nought("torque", torque) / (faces * friction * radius.mm))


def clamp_figure(worst: Torque, material: Material, work: Work) -> Figure:
    """The clamp's force with its working, the clamp 50 mm from the hole or at the work's end."""
    radius = min(BY_THE_CLAMP, reach_of_end(work))
    friction = material.cutting.friction if material.cutting else PLAIN_FRICTION
    force = clamp_force(worst, radius, friction)
    working = (
        f"{SAFETY:g} × {written(worst)} / ({FACES} faces × {friction:g} × {written(radius)})"
        f" = {written(force)} by friction alone; against a stop far less"
    )
    return Figure("clamp force", force, working, CLAMP_SOURCE)
