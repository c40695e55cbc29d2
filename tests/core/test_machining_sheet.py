"""The technician's sheet, the machine's own chart, and how a drive is set and drawn."""

from __future__ import annotations

from dataclasses import replace

import pytest

from kiosk.core.machining import (
    Figure,
    GrooveChoice,
    Refused,
    belt_diameters,
    belt_values,
    choose_groove,
    plate_doubts,
    positions_of,
    setting_of,
    size_figure,
    slip_torque,
    speed_chart,
    speed_figures,
    speeds_of,
    table_gap,
    working_sheet,
)
from kiosk.core.machining.chart import chart_sizes
from kiosk.core.machining.edges import end_figure
from kiosk.core.model import BitKind, Cutting, Machine, Pulley, Pulleys, Reach, Work
from kiosk.core.units import Force, Length, Pressure, SpindleSpeed, Torque
from tests.core.machining_shop import (
    ACRYLIC,
    BAR,
    DRILL,
    FORSTNER,
    MILD_STEEL,
    PINE,
    TWIST,
    chosen,
    refused,
)

STEEL = replace(
    MILD_STEEL,
    cutting=Cutting(Pressure(1350), 0.21, 0.1, "insert maker", 24000),
    fluid_kind="soluble oil",
)
BIT = replace(TWIST, chisel_edge=True, reach=(Reach(Length(13), Length(133), Length(87)),))
GROOVES = Pulley(tuple(Length(float(mm)) for mm in (90, 75, 60, 45)))
IDLER = Pulley(tuple(Length(float(mm)) for mm in (60, 75, 90, 105)))
SPINDLE = Pulley(tuple(Length(float(mm)) for mm in (120, 105, 90, 75)))
THREE = Pulleys(SpindleSpeed(1420), GROOVES, SPINDLE, idler=IDLER)
TWO_BELTS = replace(
    DRILL,
    drive="two belts",
    pulleys=THREE,
    positions=positions_of(THREE),
    speeds=speeds_of(THREE),
    belt_slip=Force(220),
)


def sheet(
    machine: Machine = DRILL, bit: BitKind = BIT, mm: float = 10, work: Work = BAR
) -> dict[str, Figure]:
    """The figures of the sheet by name."""
    choice = chosen(machine, STEEL, bit, mm)
    answers = working_sheet(machine, STEEL, bit, Length(mm), work, None, choice)
    return {each.name: each for each in answers if isinstance(each, Figure)}


class TestSheet:
    def test_it_holds_every_sum_there_is_for_a_steel_bar(self) -> None:
        assert set(sheet()) == {
            "bit",
            "pilot",
            "cutting speed",
            "holding",
            "end",
            "edge",
            "table height",
            "break-through",
            "time",
            "torque",
            "thrust",
            "power",
            "drive torque",
            "pull",
            "clamp force",
            "swarf",
            "fluid",
        }

    def test_every_figure_has_a_value_one_line_of_working_and_a_source(self) -> None:
        for figure in sheet().values():
            assert figure.value
            assert figure.working and "\n" not in figure.working
            assert figure.source

    def test_the_pull_comes_from_the_stall_where_that_is_more_than_the_cut(self) -> None:
        figures = sheet()

        drive, torque = figures["drive torque"].value, figures["torque"].value
        assert isinstance(drive, Torque) and isinstance(torque, Torque)
        assert drive > torque
        assert figures["pull"].working.startswith("11 N m / 60 mm = 184 N at the end")

    def test_the_pull_comes_from_the_cut_where_the_drive_gives_less(self) -> None:
        weak = replace(
            DRILL,
            pulleys=Pulleys(SpindleSpeed(1400), GROOVES, GROOVES),
            speeds=tuple(SpindleSpeed(float(n)) for n in (2500, 1600, 1000, 800)),
            belt_slip=Force(10),
        )

        figures = sheet(weak)

        assert figures["drive torque"].working.startswith("belt slips at 10 N × 45 mm / 2")
        cut = figures["torque"].value
        assert isinstance(cut, Torque)
        assert figures["pull"].working.startswith(f"{cut.nm * 1.5:.1f} N m / 60 mm")

    def test_what_nobody_published_is_said_and_not_made_up(self) -> None:
        choice = chosen(DRILL, PINE, FORSTNER, 20)
        board = Work("sheet", Length(100), Length(18), Length(200))

        answers = working_sheet(DRILL, PINE, FORSTNER, Length(20), board, Length(10), choice)

        missing = [str(each) for each in answers if isinstance(each, Refused)]
        assert "no published feed for a Forstner bit" in missing
        assert any(
            line.startswith("the length of a 20 mm Forstner bit is not known") for line in missing
        )

    def test_a_tapping_size_is_named_as_such(self) -> None:
        set_of = replace(BIT, sizes=(*BIT.sizes, Length(6.8)))

        figures = sheet(bit=set_of, mm=6.8)

        assert (
            figures["tapping size"].working
            == "M8: 8 mm - 1.25 mm pitch is about 6.75 mm, tabled 6.8 mm"
        )

    def test_plastic_and_wood_take_no_pilot(self) -> None:
        choice = chosen(DRILL, ACRYLIC, BIT, 10)

        answers = working_sheet(DRILL, ACRYLIC, BIT, Length(10), BAR, None, choice)

        assert not [each for each in answers if isinstance(each, Figure) and each.name == "pilot"]

    @pytest.mark.parametrize(("throat", "said"), [(50, "the column stops it"), (150, "a stop")])
    def test_it_says_whether_the_column_stops_the_works_end(self, throat: float, said: str) -> None:
        found = end_figure(replace(DRILL, throat=Length(throat)), BAR)

        assert found.value == Length(60)
        assert said in found.working

    def test_the_table_height_adds_up_in_its_working(self) -> None:
        found = table_gap(DRILL, BIT, Length(10), BAR, is_through=True)

        assert isinstance(found, Figure)
        assert found.working == (
            "108 mm bit + 10 mm clear + 6 mm work + 18 mm scrap + 35 mm vice"
            " = 177 mm below the chuck"
        )

    def test_under_clamps_the_table_leaves_no_room_for_a_vice(self) -> None:
        clamped = replace(DRILL, holding=("clamps",))

        found = table_gap(clamped, BIT, Length(10), BAR, is_through=True)

        assert isinstance(found, Figure)
        assert found.working == (
            "108 mm bit + 10 mm clear + 6 mm work + 18 mm scrap = 142 mm below the chuck"
        )
        assert "vice" not in found.source

    def test_a_vice_that_nobody_measured_counts_as_a_high_one_and_that_is_said(self) -> None:
        unmeasured = replace(DRILL, vice_bed=None)

        found = table_gap(unmeasured, BIT, Length(10), BAR, is_through=True)

        assert isinstance(found, Figure)
        assert "+ 40 mm vice, not measured = 182 mm below the chuck" in found.working
        assert found.source.endswith("; vice common practice")

    def test_the_nearest_size_and_its_error_are_said(self) -> None:
        found = size_figure(TWIST, Length.from_inches(5 / 16))

        assert isinstance(found, Figure)
        assert (found.value, found.working) == (Length(8), "nearest in the set, 0.1 mm over")


class TestDeepHoles:
    def test_a_deep_hole_in_metal_takes_a_slower_groove_and_says_so(self) -> None:
        choice = choose_groove(DRILL, MILD_STEEL, TWIST, Length(8), Length(42))

        assert isinstance(choice, GrooveChoice)
        assert choice.speed.rpm == 500
        assert "× 0.7 at 5.2 diameters deep = 715 rpm at most" in choice.figure.working
        assert "Metal Drilling Reference Guide" in choice.figure.source

    def test_in_wood_the_lifts_do_it(self) -> None:
        deep = choose_groove(DRILL, PINE, TWIST, Length(8), Length(42))

        assert deep == choose_groove(DRILL, PINE, TWIST, Length(8))


class TestDrives:
    def test_four_grooves_and_an_idler_give_twelve_speeds(self) -> None:
        assert len(TWO_BELTS.speeds) == 12
        assert (1, 1) not in TWO_BELTS.positions

    def test_the_working_goes_over_both_belts(self) -> None:
        figure = speed_figures(THREE, ((4, 1),))[0]

        assert figure.name == "speed of grooves 4 and 1"
        assert figure.working == (
            "1420 rpm × 45 mm / 105 mm × 60 mm / 120 mm = 304 rpm without slip"
        )

    def test_a_choice_names_both_belts(self) -> None:
        choice = chosen(TWO_BELTS, MILD_STEEL, TWIST, 13)

        assert choice.figure.working.endswith("; belts on grooves 4 and 3 give 609 rpm")
        assert TWO_BELTS.speeds[choice.groove - 1] == choice.speed

    def test_the_drawing_gets_both_grooves_and_all_three_pulleys(self) -> None:
        values = dict(belt_values(TWO_BELTS, 12))

        assert (values["groove"], values["second_groove"]) == TWO_BELTS.positions[11] == (4, 3)
        assert values["motor_1"] == Length(90)
        assert values["idler_4"] == Length(105)
        assert values["spindle_4"] == Length(75)

    def test_the_slip_counts_at_the_spindles_pulley(self) -> None:
        assert belt_diameters(TWO_BELTS, 12) == tuple(map(Length, (45, 105, 90, 90)))
        assert slip_torque(TWO_BELTS, 12) == Torque(220 * 90 / 2000)
        assert slip_torque(DRILL, 1) is None

    def test_a_plate_of_two_belts_is_questioned_at_its_grooves(self) -> None:
        plate = (SpindleSpeed(304), SpindleSpeed(600))

        doubts = plate_doubts(plate, THREE, ((4, 1), (4, 2)))

        assert doubts == ("grooves 4 and 2: the plate says 600 rpm, the pulleys give 435 rpm",)

    def test_an_idler_with_other_grooves_is_an_error(self) -> None:
        with pytest.raises(ValueError, match="the idler has 1 grooves, the others 4"):
            speeds_of(replace(THREE, idler=Pulley((Length(60),))))

    def test_a_dial_is_set_by_its_mark_and_refused_below_it(self) -> None:
        marks = tuple(SpindleSpeed(float(n)) for n in range(1200, 650, -50))
        dial = replace(DRILL, drive="dial", speeds=marks)

        assert setting_of(dial, 1) == "the dial"
        assert dict(belt_values(dial, 1)) == {"slowest": marks[-1], "fastest": marks[0]}
        answer = refused(choose_groove(dial, MILD_STEEL, TWIST, Length(13)))
        assert "the slowest mark gives 700 rpm, 72 rpm more" in answer.wrong


class TestChart:
    def test_a_cell_is_the_groove_that_a_plan_would_take(self) -> None:
        chart = speed_chart(DRILL, (MILD_STEEL, PINE), TWIST)

        for row in chart.rows:
            for size, cell in zip(chart.diameters, row.cells, strict=True):
                choice = choose_groove(DRILL, row.material, TWIST, size)
                assert cell == (choice if isinstance(choice, GrooveChoice) else None)

    def test_a_cell_is_blank_where_the_machine_cannot(self) -> None:
        fast = replace(DRILL, speeds=(SpindleSpeed(2500), SpindleSpeed(1600)))

        row = speed_chart(fast, (MILD_STEEL,), TWIST).rows[0]

        assert row.cells[0] is not None
        assert row.cells[-1] is None

    def test_it_has_no_row_for_what_the_bit_is_not_for(self) -> None:
        assert [
            row.material.id for row in speed_chart(DRILL, (MILD_STEEL, PINE), FORSTNER).rows
        ] == ["pine"]

    def test_a_long_set_is_cut_to_the_usual_sizes_with_its_ends(self) -> None:
        sizes = chart_sizes(TWIST)

        assert [size.mm for size in sizes] == [1, 2, 3, 4, 5, 6, 8, 10, 12, 13]
