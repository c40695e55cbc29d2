"""A school's own folder over the shipped one: what it may do, and that nothing in it raises."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest
import yaml
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

from kiosk.cli.plan import plan_command
from kiosk.content import Loaded, load
from kiosk.content.library import FILES
from kiosk.core.model import Content, Job, Level
from kiosk.core.plan import Plan, compile_plan
from tests.content.test_written import documents

BASE = Path(__file__).parents[2] / "sequences"
SCHOOL = Path(__file__).parent / "school"
README = (BASE / "README.md").read_text("utf-8")
PLACES = (*FILES, "jobs/odd.yaml", "machines/odd.yaml", "recovery/gone.yaml", "languages/en.yaml")


@pytest.fixture(scope="module")
def school() -> Loaded:
    """The invented school's folder over the shipped content."""
    return load(BASE, SCHOOL)


@pytest.fixture(scope="module")
def content(school: Loaded) -> Content:
    """Its content, with its problems shown where there is none."""
    assert school.content is not None, "\n".join(map(str, school.problems))
    return school.content


def plan_of(content: Content, job: Job | None, machine: str, level: Level) -> Plan:
    """The plan of a job's first hole."""
    drill = content.machine(machine)
    assert job is not None and drill is not None
    made = compile_plan(content, drill, job, 0, level)
    assert isinstance(made, Plan), made
    return made


def test_a_school_adds_a_drill_and_a_material_without_touching_code(content: Content) -> None:
    plan = plan_of(content, content.job("plane"), "annexe", Level.SHOWN)

    assert content.machine("drill-1") is not None
    assert dict(plan.values)["material"] == "balsa"
    assert plan.machine == "annexe"


def test_a_school_has_an_adult_look_more_often(content: Content) -> None:
    plan = plan_of(content, content.job("hook_bar"), "drill-1", Level.SUPERVISED)
    signed_off = plan_of(content, content.job("hook_bar"), "drill-1", Level.SIGNED_OFF)

    assert plan.checks_every == "hole"
    assert signed_off.checks_every == "set-up"


def test_a_school_names_further_holes_by_condition(content: Content) -> None:
    bar = content.job("hook_bar")
    assert bar is not None
    brass = Job("brass", "Brass", "brass", bar.work, bar.holes)

    plan = plan_of(content, brass, "drill-1", Level.SIGNED_OFF)

    assert plan.checks_every == "hole"


def test_a_school_lowers_the_size_from_which_an_adult_stands_beside(content: Content) -> None:
    assert content.checks.over.mm == 10.0
    assert content.checks.sheet_under.mm == 3.0


def test_a_new_step_stands_after_the_one_it_names(content: Content) -> None:
    plan = plan_of(content, content.job("hook_bar"), "drill-1", Level.SHOWN)

    ids = [step.id for step in plan.fresh]
    assert ids[ids.index("clothes") + 1] == "apron"


def test_a_shipped_step_in_the_schools_words_keeps_its_place_and_its_controls(
    school: Loaded, content: Content
) -> None:
    shipped = load(BASE).content
    assert shipped is not None

    ids = [step.id for step in content.drilling.steps if step.id != "apron"]

    assert ids == [step.id for step in shipped.drilling.steps]
    assert school.words.say("step.feet.title") == "Inside the yellow line"


def test_a_school_changes_the_words_of_screens_and_steps(school: Loaded) -> None:
    assert "room 12" in school.words.say("idle.no_lesson.say")
    assert school.words.say("step.straight.see") == "The tip does not wander"
    assert school.words.say("step.straight.title") == "Does it run straight?"


def test_a_school_signs_its_own_assessment_and_keeps_every_shipped_hazard(
    content: Content,
) -> None:
    shipped = load(BASE).content
    assert shipped is not None

    hazards = [hazard.id for hazard in content.assessment.hazards]

    assert content.assessment.signed == "2026-09-01"
    assert {h.id for h in shipped.assessment.hazards} < set(hazards)
    assert hazards[-2:] == ["apron_strings", "cold_floor"]


def test_a_problem_of_a_schools_file_names_that_file(tmp_path: Path) -> None:
    school = Path(shutil.copytree(SCHOOL, tmp_path / "ours"))
    text = (school / "drilling.yaml").read_text("utf-8")
    (school / "drilling.yaml").write_text(text.replace("[apron_tied]", "[apron_tide]"), "utf-8")

    loaded = load(BASE, school)

    assert [str(problem) for problem in loaded.problems] == [
        "ours/assessment.yaml:17: no step carries out control measure 'apron_tied';"
        " did you mean 'apron_tide'?"
    ]


def test_a_folder_that_is_not_there_is_told() -> None:
    loaded = load(BASE, BASE / "nowhere")

    assert loaded.content is None
    assert "no such folder" in str(loaded.problems[0])


def test_how_long_things_are_kept_may_lie_in_a_schools_folder_as_well(tmp_path: Path) -> None:
    shutil.copy(BASE / "retention.yaml", tmp_path)

    assert load(BASE, tmp_path).content is not None


def test_plan_prints_the_schools_step_and_how_often_an_adult_looks() -> None:
    options = ["--machine", "drill-1", "--material", "brass", "--work", "bar 40 x 6 x 120 mm"]
    hole = ["--hole", "8 mm through", "--level", "signed off", "--school", str(SCHOOL)]

    result = CliRunner().invoke(plan_command, [*options, *hole])

    assert result.exit_code == 0, result.output
    assert "Tie your apron behind your back." in result.output
    assert "An adult looks before every hole: this school asks for it." in result.output


@pytest.mark.parametrize("name", ["checks.yaml", "drilling.yaml"])
def test_the_short_example_of_the_page_works(name: str, tmp_path: Path) -> None:
    block = next(b for b in README.split("```yaml\n") if b.startswith(f"# {name}: "))
    (tmp_path / name).write_text(block.split("```")[0], "utf-8")

    loaded = load(BASE, tmp_path)

    assert loaded.content is not None, "\n".join(map(str, loaded.problems))


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(PLACES), documents)
def test_a_school_with_any_yaml_loads_or_says_why(
    tmp_path_factory: pytest.TempPathFactory, name: str, document: object
) -> None:
    loads_or_says_why(tmp_path_factory.mktemp("school"), name, yaml.safe_dump(document))


@settings(max_examples=15, deadline=None)
@given(st.sampled_from(PLACES), st.text())
def test_a_school_with_any_text_loads_or_says_why(
    tmp_path_factory: pytest.TempPathFactory, name: str, text: str
) -> None:
    loads_or_says_why(tmp_path_factory.mktemp("school"), name, text)


@settings(max_examples=15, deadline=None)
@given(
    st.sampled_from([p.relative_to(SCHOOL).as_posix() for p in SCHOOL.rglob("*.yaml")]),
    st.integers(0, 1200),
    st.integers(0, 40),
    st.text(max_size=6),
)
def test_the_invented_school_with_a_hole_torn_in_it_loads_or_says_why(
    tmp_path_factory: pytest.TempPathFactory, name: str, start: int, length: int, patch: str
) -> None:
    text = (SCHOOL / name).read_text("utf-8")
    torn = text[:start] + patch + text[start + length :]

    loads_or_says_why(tmp_path_factory.mktemp("school"), name, torn)


def loads_or_says_why(school: Path, name: str, text: str) -> None:
    """Loads the one file as a school's folder; there is content, or there are problems."""
    (school / name).parent.mkdir(exist_ok=True)
    (school / name).write_bytes(text.encode("utf-8", "surrogatepass"))

    loaded = load(BASE, school)

    assert (loaded.content is None) == bool(loaded.problems)
    assert all("\n" not in str(problem) for problem in loaded.problems)
