"""`plan` and `check` as a technician meets them."""

from __future__ import annotations

from io import StringIO
from pathlib import Path

import pytest
from click.testing import CliRunner
from rich.console import Console

from kiosk.cli.check import check_command
from kiosk.cli.plan import plan_command
from kiosk.cli.plan_page import print_plan
from kiosk.content import Loaded
from kiosk.core.model import Level
from kiosk.core.plan import Plan, compile_plan

GOLDEN = Path(__file__).parent / "golden"
RIGHT = {
    "--machine": "drill-1",
    "--material": "mild steel",
    "--work": "bar 40 x 6 x 120 mm",
    "--hole": "8 mm through",
    "--level": "supervised",
}


def run_plan(**changed: str) -> tuple[int, str]:
    """The exit code and output of `plan` with some options changed."""
    options = RIGHT | {f"--{name}": value for name, value in changed.items()}
    result = CliRunner().invoke(plan_command, [part for pair in options.items() for part in pair])
    return result.exit_code, result.output


def test_the_plan_of_the_hook_bar_reads_as_it_always_did(shipped: Loaded) -> None:
    content = shipped.content
    assert content is not None
    job = content.job("hook_bar")
    assert job is not None
    plan = compile_plan(content, content.machines[0], job, 0, Level.SHOWN)
    assert isinstance(plan, Plan)
    page = StringIO()

    print_plan(Console(file=page, width=100), plan, job, "fresh", content, shipped.words)

    assert page.getvalue() == (GOLDEN / "hook_bar_shown.txt").read_text("utf-8")


def test_plan_prints_the_steps_with_numbers_working_and_source() -> None:
    code, page = run_plan()

    assert code == 0
    assert "An adult looks once a session" in page
    assert "An adult puts the belt on groove 4 from the top." in page
    assert "1021 rpm at most" in " ".join(page.split())
    assert "US Navy training manual 14345" in page
    assert "not a" not in page.lower() or "\x1b" not in page


@pytest.mark.parametrize(
    ("option", "value", "said"),
    [
        (
            "machine",
            "dril-1",
            "--machine: 'dril-1'; allowed: drill-1, drill-2, drill-3; did you mean 'drill-1'?",
        ),
        ("material", "mild stell", "did you mean 'mild steel'?"),
        ("work", "bra 40 x 6 x 120 mm", "--work: 'bra'; allowed: bar, sheet"),
        ("work", "bar 40 x 6", "allowed: a shape and width x thickness x length"),
        ("hole", "8 through", "--hole: '8' has no unit; allowed: a length such as 6 mm"),
        (
            "hole",
            "big",
            "--hole: 'big'; allowed: 8 mm through, 10 mm x 30 mm deep, 5/16 in through",
        ),
        ("hole", "8.3 mm through", "there is no 8.3 mm twist bit in the set; nearest: 8.5, 8 mm"),
        ("level", "supervise", "did you mean 'supervised'?"),
        ("bit", "twits", "--bit: 'twits'; allowed: twist"),
    ],
)
def test_bad_input_to_plan_is_one_clear_line(option: str, value: str, said: str) -> None:
    code, page = run_plan(**{option: value})

    assert code == 1
    assert said in page
    assert len(page.strip().splitlines()) == 1


@pytest.mark.parametrize(
    ("material", "hole", "bit"),
    [
        ("pine", "10 mm x 30 mm deep", "lip-and-spur bit"),
        ("MDF", "8 mm, 5 mm deep", "lip-and-spur"),
    ],
)
def test_plan_takes_the_usual_bit_for_the_material(material: str, hole: str, bit: str) -> None:
    code, page = run_plan(material=material, hole=hole, work="block 60 x 45 x 120 mm")

    assert code == 0
    assert bit in page.splitlines()[0]
    assert "Set the depth stop" in page


def test_check_counts_what_it_tried_and_finds_nothing_wrong(tmp_path: Path) -> None:
    result = CliRunner().invoke(check_command, ["--school", str(tmp_path), "--shapes", "1"])

    assert result.exit_code == 0
    assert "machines 3, materials 21" in result.output
    assert ", shapes 1, states " in result.output
    assert result.output.rstrip().endswith("Nothing is wrong.")


def test_check_shows_a_mistake_and_fails(tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "tag.yaml").write_text("nmae: Tag\n", "utf-8")

    result = CliRunner().invoke(check_command, ["--school", str(tmp_path)])

    assert result.exit_code == 1
    assert "jobs/tag.yaml:1: unknown key 'nmae'" in result.output
    assert "did you mean 'name'?" in result.output


def test_check_shows_a_job_that_this_drill_cannot_do(tmp_path: Path) -> None:
    (tmp_path / "jobs").mkdir()
    (tmp_path / "jobs" / "ring.yaml").write_text(
        "name: Ring\nmaterial: mild_steel\nwork: bar 60 x 6 x 120 mm\nholes:\n"
        "  - {id: big, bit: twist, diameter: 16 mm, depth: through}\n",
        "utf-8",
    )

    result = CliRunner().invoke(check_command, ["--school", str(tmp_path)])

    assert result.exit_code == 1
    assert "jobs/ring.yaml: hole 1 (big): a twist bit goes from 1 mm to 13 mm" in result.output
    assert "1 problem." in result.output


def test_check_shows_a_place_in_a_text_that_nothing_fills(sequences: Path) -> None:
    path = sequences / "drilling.yaml"
    text = path.read_text("utf-8")
    path.write_text(text.replace("Hang the chuck key", "Hang {depth} the key", 1), "utf-8")
    for language in ("cy", "pl", "uk"):  # they would lack the place too, and be told first
        (sequences / "languages" / f"{language}.yaml").unlink()

    result = CliRunner().invoke(check_command, ["--sequences", str(sequences)])

    assert result.exit_code == 1
    assert "nothing fills {depth} in step.key.say" in result.output
