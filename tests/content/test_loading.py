"""The shipped content, a school's folder over it, and what files must agree on."""

from __future__ import annotations

import shutil
from collections.abc import Callable
from pathlib import Path

from kiosk.content import Loaded, load
from kiosk.content.standing import TROUBLES
from kiosk.core.model import Content, Habit
from kiosk.core.units import Length, SpindleSpeed


def content_of(loaded: Loaded) -> Content:
    """The content, with its problems shown where there is none."""
    assert loaded.content is not None, "\n".join(map(str, loaded.problems))
    return loaded.content


def test_the_shipped_content_has_no_problem_and_no_doubt(shipped: Loaded) -> None:
    content = content_of(shipped)

    assert shipped.problems == shipped.doubts == ()
    assert len(content.materials) >= 4
    assert len(content.bits) >= 3
    assert len(content.jobs) >= 3
    assert {s.id for s in content.recoveries} == set(TROUBLES)


def test_the_shipped_machine_says_how_it_is_wired(shipped: Loaded) -> None:
    machine = content_of(shipped).machine("drill-1")

    assert machine is not None
    assert machine.habit is Habit.BIT_AND_BELT
    inputs = dict(machine.wiring.inputs)
    assert (inputs["isolator"].make, inputs["isolator"].on_break) == (0, 1)
    assert (inputs["starter"].make, inputs["starter"].on_break) == (2, None)
    assert machine.wiring.times.debounce.s == 0.05


def test_everything_shipped_as_an_example_says_that_it_is_invented(shipped: Loaded) -> None:
    content = content_of(shipped)

    assert all(machine.invented for machine in content.machines)
    assert all(job.invented for job in content.jobs)
    assert content.assessment.invented


def test_a_language_without_a_file_leaves_the_words_of_the_sequences(sequences: Path) -> None:
    shutil.rmtree(sequences / "languages", ignore_errors=True)

    loaded = load(sequences)

    assert content_of(loaded)
    assert loaded.words.say("step.key.see") == "The key hangs on its hook"


def test_a_language_file_comes_over_the_words_of_the_sequences(sequences: Path) -> None:
    folder = sequences / "languages"
    folder.mkdir(exist_ok=True)
    (folder / "xx.yaml").write_text('step.key.see: klucz\ndecimal: ","\nempty: ""\n', "utf-8")

    words = load(sequences, language="xx").words

    assert words.say("step.key.see") == "klucz"
    assert words.number(Length(6.5)) == "6,5\u00a0mm"
    assert words.texts["empty"] == ""


def test_a_school_replaces_files_by_name_and_entries_by_key(tmp_path: Path) -> None:
    base = Path(__file__).parents[2] / "sequences"
    school = tmp_path / "school"
    (school / "jobs").mkdir(parents=True)
    job = (base / "jobs" / "hook_bar.yaml").read_text("utf-8")
    (school / "jobs" / "hook_bar.yaml").write_text(job.replace("Hook bar", "Our bar"), "utf-8")
    materials = (base / "materials.yaml").read_text("utf-8").split("aluminium:")[0]
    (school / "materials.yaml").write_text(materials.replace("8 mm", "4 mm"), "utf-8")

    content = content_of(load(base, school))

    bar, steel = content.job("hook_bar"), content.material("mild_steel")
    assert bar is not None and bar.name == "Our bar"
    assert steel is not None and steel.lift_every == Length(4.0)
    assert content.job("pen_block") and content.material("pine")


def test_a_plate_that_its_pulleys_do_not_bear_out_is_a_doubt(
    changed: Callable[[str, str, str], Loaded],
) -> None:
    loaded = changed("machines/drill-1.yaml", "1200 rpm", "1500 rpm")

    assert loaded.content is not None
    assert len(loaded.doubts) == 1
    assert "groove 3" in str(loaded.doubts[0])


def test_speeds_come_from_the_pulleys_where_there_is_no_plate(
    changed: Callable[[str, str, str], Loaded],
) -> None:
    loaded = changed(
        "machines/drill-1.yaml", "speeds: [2600 rpm, 1800 rpm, 1200 rpm, 810 rpm, 500 rpm]\n", ""
    )

    speeds = content_of(loaded).machines[0].speeds
    assert speeds[0] == SpindleSpeed(2630.0)  # 1420 x 100 / 54
    assert len(speeds) == 5


def test_a_missing_file_is_one_problem(sequences: Path) -> None:
    (sequences / "drilling.yaml").unlink()

    loaded = load(sequences)

    assert [str(p) for p in loaded.problems] == [
        "sequences/drilling.yaml: no such file; put it back"
    ]


def test_an_empty_folder_is_told_and_does_not_raise(tmp_path: Path) -> None:
    loaded = load(tmp_path)

    assert loaded.content is None
    assert len(loaded.problems) == 2
