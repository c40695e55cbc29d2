"""Bad numbers: each gets one clear refusal, and none becomes a number on a screen."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from math import inf, nan

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kiosk.core.machining import (
    Refused,
    StopSetting,
    choose_groove,
    clamp_force,
    cutting_speed,
    cutting_time,
    deep_shares,
    fits,
    largest_at,
    point_length,
    power_of,
    pull_of,
    rated_torque,
    rpm,
    stop_setting,
    thrust_of,
    torque_of,
)
from kiosk.core.model import Reach, Work
from kiosk.core.units import (
    Angle,
    CuttingSpeed,
    Feed,
    Length,
    Power,
    Pressure,
    SpindleSpeed,
    Torque,
)
from tests.core.machining_shop import BAR, DRILL, MILD_STEEL, TWIST, refused

BAD = (0.0, -1.0, nan, inf, -inf)
LONG = replace(TWIST, reach=(Reach(Length(13), Length(133), Length(87)),))
LOW = replace(DRILL, table_nearest=Length(50), table_furthest=Length(300), stroke=Length(500))

# Every sum that takes plain quantities, with one of them bad.
SUMS: dict[str, Callable[[float], object]] = {
    "rpm of a diameter": lambda x: rpm(CuttingSpeed(25), Length(x)),
    "rpm of a cutting speed": lambda x: rpm(CuttingSpeed(x), Length(8)),
    "cutting speed of a diameter": lambda x: cutting_speed(SpindleSpeed(800), Length(x)),
    "cutting speed of a spindle": lambda x: cutting_speed(SpindleSpeed(x), Length(8)),
    "largest diameter": lambda x: largest_at(CuttingSpeed(25), SpindleSpeed(x)),
    "point of a diameter": lambda x: point_length(Length(x), Angle(118)),
    "point of an angle": lambda x: point_length(Length(8), Angle(x)),
    "deep hole": lambda x: deep_shares(Length(20), Length(x)),
    "time of a travel": lambda x: cutting_time(Length(x), Feed(0.1), SpindleSpeed(800)),
    "time of a feed": lambda x: cutting_time(Length(10), Feed(x), SpindleSpeed(800)),
    "torque": lambda x: torque_of(Pressure(2000), Feed(0.1), Length(x)),
    "thrust": lambda x: thrust_of(24000, Feed(x), Length(8)),
    "power": lambda x: power_of(Torque(x), SpindleSpeed(800)),
    "rated torque": lambda x: rated_torque(Power(370), SpindleSpeed(x)),
    "pull": lambda x: pull_of(Torque(5), Length(x)),
    "clamp force": lambda x: clamp_force(Torque(5), Length(50), x),
}


@pytest.mark.parametrize("sum_of", SUMS)
@pytest.mark.parametrize("number", BAD)
def test_a_sum_never_takes_a_bad_number(sum_of: str, number: float) -> None:
    with pytest.raises(ValueError, match=r"must be over 0|is not a number|lies over 0"):
        SUMS[sum_of](number)


@pytest.mark.parametrize("number", [*BAD, 1e9])
def test_a_bad_diameter_is_refused_with_the_nearest_that_works(number: float) -> None:
    answers = (
        fits(DRILL, MILD_STEEL, TWIST, Length(number), BAR, None),
        choose_groove(DRILL, MILD_STEEL, TWIST, Length(number)),
        stop_setting(Length(5), TWIST, Length(number), Length(18)),
    )

    for answer in answers:
        assert "diameter" in refused(answer).wrong
        assert refused(answer).nearest
        assert "nan" not in str(answer) and "inf" not in str(answer)


@pytest.mark.parametrize("number", [*BAD, 1e9])
def test_a_bad_depth_is_refused(number: float) -> None:
    whole = fits(DRILL, MILD_STEEL, TWIST, Length(8), BAR, Length(number))
    stop = stop_setting(Length(number), TWIST, Length(8), Length(18))

    assert "depth" in refused(whole).wrong
    assert "depth" in refused(stop).wrong


@pytest.mark.parametrize("number", [*BAD, 1e9])
@pytest.mark.parametrize("side", ["width", "thickness", "length"])
def test_bad_work_is_refused_and_its_side_named(side: str, number: float) -> None:
    work = replace(BAR, **{side: Length(number)})

    answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(8), work, None))

    assert side in answer.wrong
    assert answer.nearest


def test_an_excess_is_said_with_how_much() -> None:
    answer = refused(
        fits(DRILL, MILD_STEEL, TWIST, Length(8), replace(BAR, width=Length(4000)), None)
    )

    assert str(answer) == (
        "a width of 4000 mm is 1000 mm over what a drill can meet; nearest: 3000 mm"
    )


def test_work_thicker_than_the_table_goes_down_is_refused_by_how_much() -> None:
    post = Work("block", Length(100), Length(250), Length(120))
    clamped = replace(LOW, holding=("clamps",))

    answer = refused(fits(clamped, MILD_STEEL, LONG, Length(10), post, Length(20)))

    assert "needs 368 mm below the chuck, the table goes down 300 mm, 68 mm short" in answer.wrong
    assert answer.nearest == "work 182 mm thick or less"
    assert (
        fits(
            clamped, MILD_STEEL, LONG, Length(10), replace(post, thickness=Length(182)), Length(20)
        )
        is None
    )


def test_work_that_fits_only_on_the_bare_table_is_refused_in_a_vice() -> None:
    block = Work("block", Length(80), Length(182), Length(120))
    thinner = replace(block, thickness=Length(147))

    answer = refused(fits(LOW, MILD_STEEL, LONG, Length(10), block, Length(20)))

    assert "block 182 mm thick in a vice 35 mm high under a 10 mm twist bit" in answer.wrong
    assert "needs 335 mm below the chuck, the table goes down 300 mm, 35 mm short" in answer.wrong
    assert answer.nearest == "work 147 mm thick or less"
    assert fits(LOW, MILD_STEEL, LONG, Length(10), thinner, Length(20)) is None


def test_a_hole_deeper_than_the_flute_is_refused_by_how_much() -> None:
    bar = replace(BAR, thickness=Length(90), width=Length(60))

    answer = refused(fits(LOW, MILD_STEEL, LONG, Length(10), bar, None))

    assert answer.wrong == "a 10 mm twist bit has 87 mm of flute, the hole needs 93 mm, 6 mm more"
    assert answer.nearest == "84 mm deep, or a longer bit"


def test_work_wider_than_the_throat_is_refused_by_how_much() -> None:
    board = Work("sheet", Length(400), Length(6), Length(600))

    answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(8), board, None))

    assert "the column stands 150 mm from the bit, 50 mm less" in answer.wrong
    assert answer.nearest == "work 300 mm across or less"


def test_a_tube_with_a_wall_that_cannot_be_is_refused() -> None:
    tube = Work("tube", Length(20), Length(20), Length(120), wall=Length(12))

    answer = refused(fits(DRILL, MILD_STEEL, TWIST, Length(6), tube, None))

    assert str(answer) == "a tube 20 mm across has no wall of 12 mm; nearest: under 10 mm"


def test_a_hole_saw_only_goes_through() -> None:
    saw = replace(TWIST, name="hole saw", through_only=True)

    answer = refused(fits(DRILL, MILD_STEEL, saw, Length(8), BAR, Length(3)))

    assert str(answer) == "a hole saw goes right through, not 3 mm deep; nearest: through"


def test_a_step_drill_is_refused_in_thick_work_by_how_much() -> None:
    step = replace(TWIST, name="step drill", thickest=Length(4))

    answer = refused(fits(DRILL, MILD_STEEL, step, Length(8), BAR, None))

    assert "up to 4 mm thick, this is 6 mm, 2 mm more" in answer.wrong


@given(st.floats(), st.floats(), st.floats())
def test_whatever_is_asked_the_answer_is_a_setting_or_a_refusal(
    depth: float, diameter: float, thickness: float
) -> None:
    answer = stop_setting(Length(depth), TWIST, Length(diameter), Length(thickness))

    assert isinstance(answer, StopSetting | Refused)
    assert "nan" not in str(answer) and "inf" not in str(answer)
