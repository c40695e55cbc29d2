"""What physics says of each sum, for any numbers: which way it goes, and that it can be undone."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining import (
    SCREWS,
    break_through,
    cutting_speed,
    cutting_time,
    deep_shares,
    dial_speeds,
    driven_speed,
    edge_distance,
    effective,
    largest_at,
    nearest_sizes,
    pilot_plan,
    point_length,
    rpm,
    scrap_board,
    speeds_of,
    table_gap,
    through_travel,
    window_of,
)
from kiosk.core.machining.feeding import feed_for
from kiosk.core.machining.timing import time_figure
from kiosk.core.machining.worked import Figure
from kiosk.core.model import Pulley, Pulleys, Reach, SpeedBand
from kiosk.core.units import (
    Angle,
    CuttingSpeed,
    Feed,
    Length,
    SpindleSpeed,
)
from tests.core.machining_shop import ACRYLIC, BAR, DRILL, MILD_STEEL, TWIST

mm = st.floats(1, 50)
over_one = st.floats(1.01, 4)
rev = st.floats(0.01, 0.5)
turns = st.floats(100, 4000)
cut = st.floats(2, 200)
near = pytest.approx


class TestSpeeds:
    @given(mm, over_one, cut)
    def test_a_wider_bit_turns_slower_in_proportion(self, d: float, k: float, v: float) -> None:
        thin, wide = rpm(CuttingSpeed(v), Length(d)), rpm(CuttingSpeed(v), Length(d * k))

        assert wide < thin
        assert wide.rpm * k == near(thin.rpm)

    @given(mm, cut)
    def test_cutting_speed_and_largest_diameter_undo_spindle_speed(
        self, d: float, v: float
    ) -> None:
        spindle = rpm(CuttingSpeed(v), Length(d))

        assert cutting_speed(spindle, Length(d)).m_per_min == near(v)
        assert largest_at(CuttingSpeed(v), spindle).mm == near(d)

    @given(st.floats(0.05, 2), st.floats(10, 600))
    def test_inches_and_feet_give_the_same_speed(self, inches: float, feet: float) -> None:
        metric = rpm(CuttingSpeed(feet * 0.3048), Length.from_inches(inches))

        assert metric.rpm == near(12 * feet / (3.141592653589793 * inches))

    @given(cut, over_one, mm, st.floats(0.3, 1))
    def test_a_window_is_never_over_the_band_or_the_bits_own_speed(
        self, low: float, k: float, d: float, share: float
    ) -> None:
        band = SpeedBand("twist", low, low * k, "x")

        window = window_of(band, TWIST, Length(d), share)

        edge = cutting_speed(window.limit, Length(d)).m_per_min
        assert edge <= (low + low * (k - 1) / 3) * share + 1e-9
        assert window.limit <= TWIST.top_speed


class TestBelts:
    @given(turns, mm, mm)
    def test_turned_round_the_pulleys_give_the_first_speed_back(
        self, n: float, a: float, b: float
    ) -> None:
        there = driven_speed(SpindleSpeed(n), Length(a), Length(b))

        assert driven_speed(there, Length(b), Length(a)).rpm == near(n)

    @given(turns, mm, mm, over_one)
    def test_only_the_ratio_counts(self, n: float, a: float, b: float, k: float) -> None:
        first = driven_speed(SpindleSpeed(n), Length(a), Length(b))

        assert driven_speed(SpindleSpeed(n), Length(a * k), Length(b * k)).rpm == near(first.rpm)

    @given(mm, st.floats(0, 0.9))
    def test_the_correction_added_gives_the_outside_back(self, outside: float, part: float) -> None:
        correction = Length(outside * part)

        assert effective(Length(outside), correction).mm + correction.mm == near(outside)

    @given(st.lists(mm, min_size=2, max_size=4))
    def test_an_idler_multiplies_its_two_ratios(self, grooves: list[float]) -> None:
        steps = tuple(Length(each) for each in grooves)
        pulleys = Pulleys(
            SpindleSpeed(1400), Pulley(steps), Pulley(steps), idler=Pulley(steps[::-1])
        )

        speeds = speeds_of(pulleys, ((1, 2),))

        i, o = steps[::-1][0].mm, steps[::-1][1].mm
        assert speeds[0].rpm == near(1400 * steps[0].mm / i * o / steps[1].mm)
        assert len(speeds_of(pulleys)) == len(steps) * (len(steps) - 1)

    @given(st.integers(60, 900), st.integers(1, 3000), st.integers(10, 200))
    def test_a_dials_marks_stay_between_its_ends(self, low: int, more: int, step: int) -> None:
        ends = SpindleSpeed(float(low)), SpindleSpeed(float(low + more))

        marks = dial_speeds(*ends, SpindleSpeed(float(step)))

        assert marks[-1] == ends[0]
        assert max(marks) == marks[0] <= ends[1]
        assert ends[1].rpm - marks[0].rpm < step


class TestDepths:
    @given(mm, over_one, st.floats(30, 179))
    def test_a_point_grows_with_the_bit_and_shrinks_with_its_angle(
        self, d: float, k: float, angle: float
    ) -> None:
        point = point_length(Length(d), Angle(angle)).mm

        assert point_length(Length(d * k), Angle(angle)).mm == near(point * k)
        assert point_length(Length(d), Angle(angle + 1)).mm < point

    @given(mm, st.floats(1, 13))
    def test_the_travel_less_the_scrap_is_the_thickness(self, thick: float, d: float) -> None:
        travel = through_travel(Length(thick), TWIST, Length(d)).value

        assert isinstance(travel, Length)
        assert travel.mm - scrap_board(TWIST, Length(d)).mm == near(thick)
        assert break_through(Length(thick), TWIST, Length(d)).value == Length(thick)

    @given(mm, over_one)
    def test_the_table_goes_down_as_the_work_gets_thicker(self, thick: float, k: float) -> None:
        bit = replace(TWIST, reach=(Reach(Length(13), Length(133), Length(87)),))
        thin = replace(BAR, thickness=Length(thick))
        thicker = replace(BAR, thickness=Length(thick * k))

        gaps = [table_gap(DRILL, bit, Length(8), work, is_through=True) for work in (thin, thicker)]

        values = [gap.value.mm for gap in gaps if isinstance(gap, Figure)]  # type: ignore[union-attr]
        assert values[1] - values[0] == near(thick * k - thick)

    @given(st.floats(0, 400), over_one, mm)
    def test_a_deeper_hole_never_runs_faster_and_only_the_ratio_counts(
        self, depth: float, k: float, d: float
    ) -> None:
        shallow, deep = (
            deep_shares(Length(depth), Length(d)),
            deep_shares(Length(depth * k), Length(d)),
        )

        assert 0 < deep.speed <= shallow.speed <= 1
        assert 0 < deep.feed <= shallow.feed <= 1

    @given(mm, over_one)
    def test_the_edge_grows_with_the_hole_and_more_in_brittle_sheet(
        self, d: float, k: float
    ) -> None:
        plain = edge_distance(MILD_STEEL, Length(d)).mm

        assert edge_distance(MILD_STEEL, Length(d * k)).mm == near(plain * k)
        assert edge_distance(ACRYLIC, Length(d)).mm > plain


class TestFeedAndTime:
    @given(st.floats(1, 12.7), st.floats(0.1, 1), st.floats(1, 100))
    def test_the_feed_is_never_over_the_bits_own_row(
        self, d: float, share: float, depth: float
    ) -> None:
        material = replace(MILD_STEEL, feed_share=share)

        found = feed_for(TWIST, material, Length(d), Length(depth))

        row = next(row for row in TWIST.feed if Length(d) <= row[0])
        assert isinstance(found, Figure) and isinstance(found.value, Feed)
        assert Feed(0) < found.value <= row[1]

    @given(mm, rev, turns, over_one)
    def test_twice_the_feed_takes_half_the_time(
        self, travel: float, f: float, n: float, k: float
    ) -> None:
        time = cutting_time(Length(travel), Feed(f), SpindleSpeed(n)).s

        assert cutting_time(Length(travel), Feed(f * k), SpindleSpeed(n)).s * k == near(time)
        assert cutting_time(Length(travel), Feed(f), SpindleSpeed(n * k)).s * k == near(time)
        assert cutting_time(Length(travel * k), Feed(f), SpindleSpeed(n)).s == near(time * k)

    @given(mm, rev, turns, st.integers(0, 20))
    def test_each_lift_adds_the_same(self, travel: float, f: float, n: float, lifts: int) -> None:
        none = time_figure(Length(travel), Feed(f), SpindleSpeed(n), 0).value
        some = time_figure(Length(travel), Feed(f), SpindleSpeed(n), lifts).value

        assert some.s - none.s == near(3 * lifts, abs=1e-6)  # type: ignore[union-attr]


class TestSizes:
    @given(st.floats(1, 13))
    def test_the_nearest_bit_is_no_further_than_half_a_step(self, d: float) -> None:
        near_size = nearest_sizes(TWIST, Length(d))[0]

        assert abs(near_size.mm - d) <= 0.25 + 1e-9
        assert near_size in TWIST.sizes

    @pytest.mark.parametrize("size", TWIST.sizes)
    def test_a_size_in_the_set_is_its_own_nearest(self, size: Length) -> None:
        assert nearest_sizes(TWIST, size)[0] == size

    @given(st.floats(8.01, 13))
    def test_a_pilot_is_in_the_set_and_between_chisel_edge_and_a_third(self, d: float) -> None:
        bit = replace(TWIST, chisel_edge=True)

        pilots = pilot_plan(MILD_STEEL, bit, Length(d))

        assert all(size in bit.sizes and 0.18 * d <= size.mm <= d / 3 + 1e-9 for size in pilots)

    @pytest.mark.parametrize("screw", SCREWS, ids=lambda screw: screw.name)
    def test_a_screw_is_tapped_under_and_cleared_over_its_outside(self, screw: object) -> None:
        s = screw
        assert s.tapping < s.outside < s.fine < s.medium < s.coarse  # type: ignore[attr-defined]
