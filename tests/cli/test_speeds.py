"""`speeds`, and what `plan` adds with --working and --inches, as a technician meets them."""

from __future__ import annotations

import pytest
from click.testing import CliRunner

from kiosk.cli.plan import plan_command
from kiosk.cli.speeds import speeds_command

PLAN = {
    "--machine": "drill-1",
    "--material": "mild steel",
    "--work": "bar 60 x 6 x 120 mm",
    "--hole": "8 mm through",
    "--level": "supervised",
}


def run_plan(*flags: str, **changed: str) -> tuple[int, str]:
    """The exit code and output of `plan` with some options changed, spaces as single ones."""
    options = PLAN | {f"--{name}": value for name, value in changed.items()}
    words = [*(part for pair in options.items() for part in pair), *flags]
    result = CliRunner().invoke(plan_command, words)
    return result.exit_code, " ".join(result.output.split())


def run_speeds(*words: str) -> tuple[int, list[str]]:
    """The exit code and lines of `speeds`."""
    result = CliRunner().invoke(speeds_command, list(words))
    return result.exit_code, result.output.splitlines()


def row(lines: list[str], chart: str, name: str) -> str:
    """One row of one chart."""
    after = lines[lines.index(chart) :]
    return next(line for line in after if line.startswith(f"{name} "))


def test_the_chart_gives_groove_and_speed_by_material_and_diameter() -> None:
    code, lines = run_speeds("--machine", "drill-1")

    assert code == 0
    assert lines[0] == "Drill 1: speed chart for pupils"
    assert row(lines, "Twist bit", "diameter, mm").split()[2:] == "1 2 3 4 5 6 8 10 12 13".split()
    assert row(lines, "Twist bit", "mild steel").endswith("4 810   4 810   5 500   5 500")


def test_a_cell_is_blank_where_the_machine_cannot() -> None:
    lines = run_speeds("--machine", "drill-1", "--bit", "hole_saw")[1]

    assert row(lines, "Hole saw", "mild steel").split()[2:] == ["5", "500"]


def test_two_belts_show_two_grooves_and_a_dial_only_its_mark() -> None:
    belts = run_speeds("--machine", "drill-2", "--bit", "twist")[1]
    dial = run_speeds("--machine", "drill-3", "--bit", "twist")[1]

    assert "4-1: 300" in belts[2]
    assert row(belts, "Twist bit", "mild steel").endswith("3-2 680   4-3 610")
    assert row(dial, "Twist bit", "mild steel").endswith("650   600")


def test_the_chart_shows_inches_when_asked() -> None:
    lines = run_speeds("--machine", "drill-1", "--bit", "twist", "--inches")[1]

    assert row(lines, "Twist bit", "inches").split()[-1] == "0.512"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("--machine", "dril-2"), "allowed: drill-1, drill-2, drill-3; did you mean 'drill-2'?"),
        (("--machine", "drill-1", "--bit", "twits"), "--bit: 'twits'; allowed: twist, plastics"),
    ],
)
def test_bad_input_to_speeds_is_one_clear_line(words: tuple[str, ...], said: str) -> None:
    code, lines = run_speeds(*words)

    assert code == 1
    assert len(lines) == 1
    assert said in lines[0]


def test_working_adds_the_technicians_figures_and_where_they_come_from() -> None:
    code, page = run_plan("--working")

    assert code == 0
    assert "For the technician" in page
    for name in ("time", "torque", "thrust", "power", "pull", "clamp force", "table height"):
        assert f" {name} " in page
    assert "from: insert maker's table of cutting pressures" in page


def test_without_working_no_newton_is_shown() -> None:
    page = run_plan()[1]

    assert "For the technician" not in page
    assert " N:" not in page and "N m" not in page


def test_lengths_are_shown_in_inches_as_well_when_asked() -> None:
    page = run_plan("--inches")[1]

    assert "8 mm (0.315 in) twist bit" in page


@pytest.mark.parametrize(
    ("hole", "work"),
    [
        ("1/4 in through", "bar 60 x 6 x 120 mm"),
        ("8 mm through", "bar 2 1/2 x 1/4 x 5 in"),
        ("8 mm through", "round bar 1 x 6 in"),
        ("M8 tapping through", "bar 60 x 6 x 120 mm"),
        ("M8 clearance x 4 mm deep", "bar 60 x 12 x 120 mm"),
    ],
)
def test_inches_and_screws_may_be_typed(hole: str, work: str) -> None:
    code, page = run_plan(hole=hole, work=work)

    assert code == (1 if hole.startswith("1/4") else 0), page
    if hole.startswith("1/4"):
        assert "no 6.35 mm twist bit in the set; nearest: 6.5, 6 mm, 0.15 mm over" in page


@pytest.mark.parametrize(
    ("changed", "said"),
    [
        ({"hole": "0 mm through"}, "--hole: '0 mm'; allowed: more than 0 mm"),
        ({"hole": "-8 mm through"}, "allowed: a length such as 6 mm"),
        ({"hole": "nan mm through"}, "allowed: a length such as 6 mm"),
        ({"hole": "1e9 mm through"}, "allowed: a length such as 6 mm"),
        ({"hole": "999999 mm through"}, "is 999899 mm over what a drill can meet; nearest: 100 mm"),
        ({"hole": "eight mm through"}, "allowed: a length such as 6 mm"),
        ({"hole": "8 through"}, "'8' has no unit"),
        ({"hole": "8 kg through"}, "unit 'kg'; allowed: a length such as 6 mm"),
        ({"hole": "1/0 in through"}, "allowed: a length such as 6 mm"),
        ({"hole": "M7 tapping through"}, "no screw 'M7' is known; nearest: M2, M2.5, M3"),
        ({"work": "bar 60 x 0 x 120 mm"}, "--work: '0 mm'; allowed: more than 0 mm"),
        ({"work": "bar 60 x 6 x 120"}, "allowed: a shape and width x thickness x length"),
        ({"work": "bar 60 x 6 mm"}, "for a bar: width x thickness x length"),
        ({"work": "tube 25 x 300 mm"}, "for a tube: diameter x wall x length"),
        ({"work": "block 90 x 390 x 120 mm", "hole": "8 mm x 20 mm deep"}, "the table goes down"),
        ({"machine": "drill-3", "hole": "12 mm through"}, "the chuck takes 10 mm"),
        ({"bit": "hole_saw", "hole": "25 mm through"}, "340 rpm at most, and the slowest groove"),
    ],
)
def test_a_bad_number_is_refused_in_one_line(changed: dict[str, str], said: str) -> None:
    code, page = run_plan(**changed)

    assert code == 1
    assert said in page
    assert page.startswith("Error: ")
