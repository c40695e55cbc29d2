"""What physics says of forces and power, for any numbers."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining import (
    clamp_force,
    cutting_pressure,
    power_of,
    pull_of,
    rated_torque,
    slip_torque,
    stall_torque,
    thrust_of,
    torque_of,
)
from kiosk.core.machining.motor import drive_torque
from kiosk.core.model import Cutting, Pulley, Pulleys
from kiosk.core.units import (
    Angle,
    Feed,
    Force,
    Length,
    Power,
    Pressure,
    SpindleSpeed,
    Torque,
)
from tests.core.machining_shop import DRILL

mm = st.floats(1, 50)
over_one = st.floats(1.01, 4)
rev = st.floats(0.01, 0.5)
turns = st.floats(100, 4000)
near = pytest.approx


class TestForces:
    CUTTING = Cutting(Pressure(1350), 0.21, 0.1, "x", 24000)

    @given(rev, over_one)
    def test_a_thinner_chip_asks_for_more_pressure(self, f: float, k: float) -> None:
        thick = cutting_pressure(self.CUTTING, Feed(f * k), Angle(118))

        assert cutting_pressure(self.CUTTING, Feed(f), Angle(118)) > thick

    @given(st.floats(100, 5000), rev, mm, over_one)
    def test_torque_grows_with_feed_and_with_the_square_of_the_bit(
        self, p: float, f: float, d: float, k: float
    ) -> None:
        torque = torque_of(Pressure(p), Feed(f), Length(d)).nm

        assert torque_of(Pressure(p), Feed(f * k), Length(d)).nm == near(torque * k)
        assert torque_of(Pressure(p), Feed(f), Length(d * k)).nm == near(torque * k * k)

    @given(rev, mm, over_one)
    def test_thrust_grows_with_bit_feed_and_wear(self, f: float, d: float, k: float) -> None:
        thrust = thrust_of(24000, Feed(f), Length(d), 1.0)

        assert thrust_of(24000, Feed(f * k), Length(d), 1.0) > thrust
        assert thrust_of(24000, Feed(f), Length(d * k), 1.0) > thrust
        assert thrust_of(24000, Feed(f), Length(d), k).n == near(thrust.n * k)

    @given(st.floats(10, 3000), turns)
    def test_power_undoes_rated_torque(self, watts: float, n: float) -> None:
        torque = rated_torque(Power(watts), SpindleSpeed(n))

        assert power_of(torque, SpindleSpeed(n)).w == near(watts)

    @given(turns, over_one)
    def test_a_slower_spindle_pulls_harder(self, n: float, k: float) -> None:
        fast, slow = (stall_torque(DRILL, SpindleSpeed(each)) for each in (n * k, n))

        assert slow.nm == near(fast.nm * k)

    @given(st.floats(50, 1000), mm)
    def test_the_drive_gives_no_more_than_stall_or_slip(self, pull: float, driven: float) -> None:
        wheels = Pulleys(SpindleSpeed(1400), Pulley((Length(50),)), Pulley((Length(driven),)))
        drill = replace(DRILL, speeds=(SpindleSpeed(500),), pulleys=wheels, belt_slip=Force(pull))

        found = drive_torque(drill, 1).value

        slip, stall = slip_torque(drill, 1), stall_torque(drill, SpindleSpeed(500))
        assert slip is not None and slip.nm == near(pull * driven / 2000)
        assert found == min(slip, stall)

    @given(st.floats(0.1, 50), mm)
    def test_pull_times_lever_is_the_torque(self, nm: float, reach: float) -> None:
        assert pull_of(Torque(nm), Length(reach)).n * reach / 1000 == near(nm)

    @given(st.floats(0.1, 50), mm, st.floats(0.05, 0.5), over_one)
    def test_a_slippery_or_near_clamp_must_press_harder(
        self, nm: float, r: float, mu: float, k: float
    ) -> None:
        force = clamp_force(Torque(nm), Length(r), mu).n

        assert clamp_force(Torque(nm), Length(r), mu * k).n * k == near(force)
        assert clamp_force(Torque(nm), Length(r * k), mu).n * k == near(force)
        assert force * mu * r / 1000 == near(nm)  # safety 2 and two faces cancel out
