"""The machining sums: what they choose, how they show it, and when they refuse."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining import (
    Figure,
    GrooveChoice,
    Refused,
    StopSetting,
    band_of,
    choose_groove,
    cutting_speed,
    feed_for,
    fits,
    largest_at,
    lift_plan,
    plate_doubts,
    point_length,
    pupils_limit,
    rpm,
    speed_figures,
    speeds_of,
    stop_setting,
)
from kiosk.core.model import (
    BitKind,
    Habit,
    Machine,
    Material,
    Pulley,
    Pulleys,
    SpeedBand,
    Wiring,
    Work,
)
from kiosk.core.units import Angle, CuttingSpeed, Duration, Feed, Length, Power, SpindleSpeed

TWIST = BitKind(
    id="twist",
    name="twist bit",
    smallest=Length(1),
    largest=Length(13),
    point=Angle(118),
    top_speed=SpindleSpeed(4000),
    floor_speed=SpindleSpeed(250),
    sizes=tuple(Length(half / 2) for half in range(2, 27)),
    families=("metal", "wood", "plastic"),
    feed=(
        (Length(3.2), Feed(0.025)),
        (Length(6.4), Feed(0.05)),
        (Length(12.7), Feed(0.1)),
    ),
    source="US Navy training manual no. 14345, Holding the Work",
)
FORSTNER = replace(
    TWIST,
    id="forstner",
    name="Forstner bit",
    smallest=Length(15),
    largest=Length(35),
    point=Angle(180),
    sizes=(Length(20), Length(25), Length(35)),
    families=("wood",),
    shank=Length(10),
    feed=(),
)
MILD_STEEL = Material(
    id="mild-steel",
    name="mild steel",
    family="metal",
    bands=(SpeedBand("twist", 20, 37, "US Navy training manual no. 14345"),),
    marking="centre punch",
    swarf="curls",
    dust=False,
    fluid="cutting fluid",
)
PINE = replace(
    MILD_STEEL,
    id="pine",
    name="pine",
    family="wood",
    bands=(SpeedBand("twist", 50, 122, "a"), SpeedBand("forstner", 50, 90, "b")),
)
ACRYLIC = replace(
    MILD_STEEL,
    id="acrylic",
    name="acrylic",
    family="plastic",
    bands=(SpeedBand("twist", 15, 40, "c"),),
    brittle=True,
    lift_every=Length(5),
)
DRILL = Machine(
    id="drill-1",
    name="Drill 1",
    invented=True,
    speeds=tuple(SpindleSpeed(each) for each in (2500, 1600, 1000, 800, 500)),
    pulleys=None,
    chuck_capacity=Length(13),
    keyed_chuck=True,
    stroke=Length(60),
    throat=Length(150),
    motor=Power(370),
    depth_stop=True,
    extraction="none",
    habit=Habit.DAY_END,
    run_down=Duration(4),
    wiring=Wiring(),
    pre_use=(),
    holding=("vice", "clamps"),
)
BAR = Work("bar", Length(40), Length(6), Length(120))


def chosen(machine: Machine, material: Material, bit: BitKind, mm: float) -> GrooveChoice:
    choice = choose_groove(machine, material, bit, Length(mm))
    assert isinstance(choice, GrooveChoice)
    return choice


def refused(answer: object) -> Refused:
    assert isinstance(answer, Refused)
    return answer


class TestSpeeds:
    def test_pupils_stay_in_the_lower_third_of_the_band(self) -> None:
        band = SpeedBand("twist", 20, 38, "x")

        limit = pupils_limit(band)

        assert limit.m_per_min == pytest.approx(26)

    @pytest.mark.parametrize(
        ("mm", "groove", "speed"),
        [(1, 1, 2500), (5, 2, 1600), (8, 3, 1000), (10, 4, 800), (13, 5, 500)],
    )
    def test_the_fastest_groove_inside_is_chosen_counted_from_the_top(
        self, mm: float, groove: int, speed: float
    ) -> None:
        choice = chosen(DRILL, MILD_STEEL, TWIST, mm)

        assert (choice.groove, choice.speed.rpm) == (groove, speed)

    def test_the_order_of_the_grooves_does_not_matter(self) -> None:
        upside_down = replace(DRILL, speeds=DRILL.speeds[::-1])

        choice = chosen(upside_down, MILD_STEEL, TWIST, 8)

        assert (choice.groove, choice.speed.rpm) == (3, 1000)

    def test_the_working_shows_the_sum_and_the_groove(self) -> None:
        choice = chosen(DRILL, MILD_STEEL, TWIST, 8)

        assert choice.figure == Figure(
            "speed",
            SpindleSpeed(1000),
            "1000 × 25.7 m/min / (π × 8 mm) = 1021 rpm at most; groove 3 gives 1000 rpm",
            "US Navy training manual no. 14345",
        )

    def test_the_bits_own_top_speed_holds_it_back(self) -> None:
        slow_bit = replace(TWIST, top_speed=SpindleSpeed(900))

        choice = chosen(DRILL, MILD_STEEL, slow_bit, 3)

        assert choice.speed.rpm == 800
        assert "this bit 900 rpm at most" in choice.figure.working

    def test_a_machine_whose_slowest_groove_is_too_fast_is_refused_with_a_size_that_works(
        self,
    ) -> None:
        fast = replace(DRILL, speeds=(SpindleSpeed(2500), SpindleSpeed(800)))

        answer = refused(choose_groove(fast, MILD_STEEL, TWIST, Length(13)))

        assert answer.wrong == (
            "not on this machine: a 13 mm twist bit in mild steel wants 628 rpm at most, "
            "and the slowest groove gives 800 rpm, 172 rpm more"
        )
        assert answer.nearest == "a 10 mm twist bit"
        assert chosen(fast, MILD_STEEL, TWIST, 10).speed.rpm == 800

    def test_without_a_set_of_sizes_the_refusal_names_the_limit(self) -> None:
        loose = replace(TWIST, sizes=())
        fast = replace(DRILL, speeds=(SpindleSpeed(800),))

        answer = refused(choose_groove(fast, MILD_STEEL, loose, Length(13)))

        assert answer.nearest == "10.2 mm or less at 800 rpm"

    def test_grooves_under_the_floor_of_the_bit_are_refused(self) -> None:
        small_bits = replace(TWIST, floor_speed=SpindleSpeed(1200))
        slow = replace(DRILL, speeds=(SpindleSpeed(800), SpindleSpeed(500)))

        answer = refused(choose_groove(slow, MILD_STEEL, small_bits, Length(3)))

        assert "wants 1200 rpm to 2723 rpm, and the grooves give 500, 800 rpm" in answer.wrong

    def test_a_floor_over_the_limit_is_said_as_such(self) -> None:
        grabbing = replace(TWIST, floor_speed=SpindleSpeed(700))

        answer = refused(choose_groove(DRILL, MILD_STEEL, grabbing, Length(13)))

        assert "grabs under 700 rpm, over its limit of 628 rpm" in answer.wrong
        assert answer.nearest == "a 10 mm twist bit"

    def test_a_bit_without_a_published_speed_is_refused(self) -> None:
        answer = refused(band_of(MILD_STEEL, FORSTNER))

        assert str(answer) == (
            "no published cutting speed for a Forstner bit in mild steel; "
            "nearest: a bit with one: twist"
        )

    @given(st.floats(1, 300), st.floats(0.5, 60))
    def test_spindle_speed_and_cutting_speed_undo_each_other(self, v: float, d: float) -> None:
        back = cutting_speed(rpm(CuttingSpeed(v), Length(d)), Length(d))

        assert back.m_per_min == pytest.approx(v)

    @given(st.floats(1, 13))
    def test_a_chosen_speed_never_exceeds_the_lower_third(self, mm: float) -> None:
        answer = choose_groove(DRILL, MILD_STEEL, TWIST, Length(mm))

        if isinstance(answer, GrooveChoice):
            edge = pi * mm * answer.speed.rpm / 1000
            assert edge <= 20 + 17 / 3 + 1e-9
            assert answer.speed >= TWIST.floor_speed

    def test_the_largest_bit_at_a_speed_runs_at_that_cutting_speed(self) -> None:
        largest = largest_at(CuttingSpeed(25), SpindleSpeed(800))

        assert cutting_speed(SpindleSpeed(800), largest).m_per_min == pytest.approx(25)

    @pytest.mark.parametrize("mm", [0, -3])
    def test_a_diameter_of_nought_or_less_is_an_error(self, mm: float) -> None:
        with pytest.raises(ValueError, match="a diameter must be over 0 mm"):
            rpm(CuttingSpeed(30), Length(mm))


class TestBelts:
    PULLEYS = Pulleys(
        SpindleSpeed(1400),
        Pulley((Length(120), Length(90), Length(60))),
        Pulley((Length(60), Length(90), Length(120))),
    )

    def test_the_top_groove_comes_first(self) -> None:
        speeds = speeds_of(self.PULLEYS)

        assert [speed.rpm for speed in speeds] == [2800, 1400, 700]

    def test_each_groove_shows_its_working(self) -> None:
        figures = speed_figures(self.PULLEYS)

        assert figures[2].working == "1400 rpm × 60 mm / 120 mm = 700 rpm without slip"

    def test_a_plate_within_ten_per_cent_raises_no_doubt(self) -> None:
        plate = (SpindleSpeed(2600), SpindleSpeed(1300), SpindleSpeed(640))

        assert plate_doubts(plate, self.PULLEYS) == ()

    def test_a_plate_further_off_is_questioned_groove_by_groove(self) -> None:
        plate = (SpindleSpeed(2800), SpindleSpeed(1400), SpindleSpeed(500))

        doubts = plate_doubts(plate, self.PULLEYS)

        assert doubts == ("groove 3: the plate says 500 rpm, the pulleys give 700 rpm",)

    def test_pulleys_with_unlike_grooves_are_an_error(self) -> None:
        short = replace(self.PULLEYS, spindle=Pulley((Length(60),)))

        with pytest.raises(ValueError, match="3 grooves, the spindle pulley 1"):
            speeds_of(short)

    def test_a_correction_that_leaves_no_pulley_is_an_error(self) -> None:
        tiny = Pulleys(
            SpindleSpeed(1400), Pulley((Length(5),)), Pulley((Length(60),)), "outside", Length(5.6)
        )

        with pytest.raises(ValueError, match="leaves no diameter"):
            speeds_of(tiny)


class TestDepth:
    def test_the_stop_is_depth_and_point_rounded_towards_the_thicker_floor(self) -> None:
        setting = stop_setting(Length(12), TWIST, Length(8), Length(18))

        assert isinstance(setting, StopSetting)
        assert setting.stop.value == Length(14)
        assert setting.floor == Length(4)
        assert setting.stop.working == (
            "12 mm + 2.4 mm point = 14.4 mm, set 14 mm: the floor stays thicker"
        )
        assert setting.point.working == "8 mm / 2 / tan 59° = 2.4 mm"

    def test_a_setting_on_the_half_millimetre_is_not_rounded(self) -> None:
        setting = stop_setting(Length(12.5), FORSTNER, Length(20), Length(18))

        assert isinstance(setting, StopSetting)
        assert setting.stop.value == Length(12.5)
        assert setting.stop.working == "12.5 mm + 0 mm point = 12.5 mm"

    def test_a_point_that_would_come_through_is_refused_with_a_depth_that_works(self) -> None:
        answer = refused(stop_setting(Length(12), TWIST, Length(8), Length(14)))

        assert answer.wrong == (
            "the point would come through: 12 mm + 2.4 mm point = 14.4 mm, "
            "0.4 mm more than the work's 14 mm"
        )
        assert answer.nearest == "11 mm deep"
        assert isinstance(stop_setting(Length(11), TWIST, Length(8), Length(14)), StopSetting)

    def test_less_floor_than_the_scale_can_tell_is_refused(self) -> None:
        answer = refused(stop_setting(Length(12), TWIST, Length(8), Length(14.6)))

        assert "0.2 mm under the work's 14.6 mm" in answer.wrong

    def test_work_too_thin_for_any_part_way_hole_can_only_go_through(self) -> None:
        answer = refused(stop_setting(Length(1), TWIST, Length(10), Length(3)))

        assert answer.nearest == "right through"

    @pytest.mark.parametrize("depth", [0, -1, 0.05])
    def test_a_hole_too_shallow_for_full_width_is_refused(self, depth: float) -> None:
        answer = refused(stop_setting(Length(depth), TWIST, Length(8), Length(18)))

        assert answer.wrong.startswith("too shallow")

    @given(st.floats(0.5, 40), st.floats(1, 13), st.floats(1, 50))
    def test_a_setting_never_leaves_less_floor_than_half_a_millimetre(
        self, depth: float, bit: float, thickness: float
    ) -> None:
        answer = stop_setting(Length(depth), TWIST, Length(bit), Length(thickness))

        if isinstance(answer, StopSetting):
            assert isinstance(answer.stop.value, Length)
            exact = depth + point_length(Length(bit), TWIST.point).mm
            assert 0 <= exact - answer.stop.value.mm + 1e-5 < 0.5 + 2e-5
            assert answer.floor.mm >= 0.5 - 1e-5
            assert (answer.stop.value.mm * 2).is_integer()

    @pytest.mark.parametrize("degrees", [0, -10, 181])
    def test_a_point_angle_that_cannot_be_is_an_error(self, degrees: float) -> None:
        with pytest.raises(ValueError, match="a point angle lies over 0°"):
            point_length(Length(8), Angle(degrees))


class TestFeed:
    @pytest.mark.parametrize(("mm", "feed"), [(3, 0.025), (3.2, 0.025), (8, 0.1), (12.7, 0.1)])
    def test_the_row_that_holds_the_diameter_gives_the_feed(self, mm: float, feed: float) -> None:
        figure = feed_for(TWIST, MILD_STEEL, Length(mm))

        assert isinstance(figure, Figure)
        assert figure.value == Feed(feed)
        assert figure.source == TWIST.source

    def test_over_the_last_row_it_refuses_and_names_the_row(self) -> None:
        answer = refused(feed_for(TWIST, MILD_STEEL, Length(13)))

        assert str(answer) == "no published feed for a 13 mm twist bit; nearest: 12.7 mm or less"

    def test_a_bit_with_no_table_has_no_feed(self) -> None:
        assert refused(feed_for(FORSTNER, PINE, Length(20))).nearest == ""

    def test_a_bit_not_for_the_material_has_no_feed(self) -> None:
        assert refused(feed_for(FORSTNER, MILD_STEEL, Length(20))).nearest == "wood"


class TestLifting:
    def test_a_shallow_hole_in_a_material_without_lifts_is_drilled_in_one(self) -> None:
        assert lift_plan(MILD_STEEL, TWIST, Length(8), Length(6)) == ()

    def test_a_material_that_wants_lifts_gets_them_at_its_own_distance(self) -> None:
        lifts = lift_plan(ACRYLIC, TWIST, Length(8), Length(12))

        assert lifts == (Length(5), Length(10))

    def test_over_three_diameters_it_lifts_at_three_and_every_further_one(self) -> None:
        lifts = lift_plan(MILD_STEEL, TWIST, Length(4), Length(22))

        assert lifts == (Length(12), Length(16), Length(20))

    @given(st.floats(1, 13), st.floats(0.5, 60), st.floats(0, 10))
    def test_no_stretch_is_longer_than_three_diameters(
        self, mm: float, depth: float, every: float
    ) -> None:
        material = replace(MILD_STEEL, lift_every=Length(every if every > 1 else 0))

        lifts = lift_plan(material, TWIST, Length(mm), Length(depth))

        end = depth + point_length(Length(mm), TWIST.point).mm
        stops = [0.0, *(lift.mm for lift in lifts), end]
        stretches = [b - a for a, b in pairwise(stops)]
        assert max(stretches) <= 3 * mm + 0.5 + 1e-6
        assert min(stretches) > 0


class TestFitting:
    def test_an_ordinary_hole_fits(self) -> None:
        assert fits(DRILL, MILD_STEEL, TWIST, Length(8), BAR, None) is None

    def test_a_bit_for_another_material_is_refused(self) -> None:
        answer = refused(fits(DRILL, MILD_STEEL, FORSTNER, Length(20), BAR, None))

        assert str(answer) == "a Forstner bit is not for mild steel; nearest: for wood"

    def test_a_diameter_out_of_range_names_the_nearest_end(self) -> None:
        answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(18), BAR, None))

        assert str(answer) == (
            "a twist bit goes from 1 mm to 13 mm, not 18 mm; nearest: a 13 mm twist bit"
        )

    def test_a_size_not_in_the_set_names_its_neighbours_and_the_error(self) -> None:
        answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(8.2), BAR, None))

        assert answer.nearest == "8, 8.5 mm, 0.2 mm under"

    def test_a_thin_shank_carries_a_wide_bit_in_the_chuck(self) -> None:
        board = Work("sheet", Length(100), Length(18), Length(200))

        assert fits(DRILL, PINE, FORSTNER, Length(35), board, Length(10)) is None

    def test_a_shank_over_the_chuck_is_refused_by_how_much(self) -> None:
        small = replace(DRILL, chuck_capacity=Length(10))

        answer = refused(fits(small, MILD_STEEL, TWIST, Length(12), BAR, None))

        assert "the chuck takes 10 mm" in answer.wrong
        assert "2 mm more" in answer.wrong

    def test_a_stroke_too_short_says_how_deep_it_can_go(self) -> None:
        thick = replace(BAR, thickness=Length(80))

        answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(10), thick, Length(70)))

        assert answer.wrong.endswith("needs 73 mm of travel, the spindle has 60 mm, 13 mm short")
        assert answer.nearest == "57 mm deep"

    def test_a_through_hole_needs_the_thickness_point_and_overrun(self) -> None:
        just = replace(BAR, thickness=Length(54.9))
        over = replace(BAR, thickness=Length(55.1))

        assert fits(DRILL, MILD_STEEL, TWIST, Length(10), just, None) is None
        assert refused(fits(DRILL, MILD_STEEL, TWIST, Length(10), over, None))

    def test_brittle_sheet_wants_two_diameters_to_the_edge(self) -> None:
        sheet = Work("sheet", Length(45), Length(5), Length(100))

        assert fits(DRILL, ACRYLIC, TWIST, Length(8), sheet, None) is None
        answer = refused(fits(DRILL, ACRYLIC, TWIST, Length(9.5), sheet, None))

        assert "acrylic wants 19 mm from hole to edge" in answer.wrong
        assert answer.nearest == "a hole under 9 mm, or wider work"

    def test_a_hole_as_wide_as_the_work_is_refused(self) -> None:
        strip = replace(BAR, width=Length(10))

        answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(10), strip, None))

        assert "the work is 10 mm across" in answer.wrong
