"""Speeds: the groove that is chosen, how it is shown, and when there is none."""

from __future__ import annotations

from dataclasses import replace
from math import pi

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining import (
    Figure,
    GrooveChoice,
    band_of,
    choose_groove,
    cutting_speed,
    largest_at,
    plate_doubts,
    pupils_limit,
    rpm,
    speed_figures,
    speeds_of,
)
from kiosk.core.model import (
    Pulley,
    Pulleys,
    SpeedBand,
)
from kiosk.core.units import CuttingSpeed, Length, SpindleSpeed
from tests.core.machining_shop import DRILL, FORSTNER, MILD_STEEL, TWIST, chosen, refused


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
            "1000 × (20 + (37 - 20) / 3) m/min / (π × 8 mm) = 1021 rpm at most; "
            "groove 3 gives 1000 rpm",
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
        with pytest.raises(ValueError, match="the diameter must be over 0, found"):
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
