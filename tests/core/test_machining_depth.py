"""Depth, feed, lifting and fitting: what they work out, and when they refuse."""

from __future__ import annotations

from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining import (
    Figure,
    StopSetting,
    feed_for,
    fits,
    lift_plan,
    point_length,
    stop_setting,
)
from kiosk.core.machining.writing import written
from kiosk.core.model import (
    Work,
)
from kiosk.core.units import Angle, Feed, Length
from tests.core.machining_shop import (
    ACRYLIC,
    BAR,
    DRILL,
    FORSTNER,
    MILD_STEEL,
    PINE,
    TWIST,
    refused,
)


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

    def test_a_hole_too_shallow_for_full_width_is_refused(self) -> None:
        answer = refused(stop_setting(Length(0.1), FORSTNER, Length(20), Length(18)))

        assert answer.wrong.startswith("too shallow")
        assert answer.nearest == "0.5 mm deep"

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


@pytest.mark.parametrize("diameter", [3.0, 4.5, 6.0, 8.0, 10.0, 13.0])
@pytest.mark.parametrize("depth", [5.0, 8.25, 12.0, 30.0])
def test_depth_reached_and_point_as_they_are_shown_add_up_to_the_stop(
    diameter: float, depth: float
) -> None:
    found = stop_setting(Length(depth), TWIST, Length(diameter), Length(45))

    assert isinstance(found, StopSetting)
    numbers = [each.value for each in (found.reached, found.point, found.stop)]
    reached, point, stop = (float(written(n).split(" ")[0]) for n in numbers)
    assert reached + point == pytest.approx(stop)
    assert 0 <= depth - reached < 0.6
