"""Scripts of acts and faults: read line by line, played on time, and live from a keyboard."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest

from hardware.simulator import SimulatedDrill, SimulatedUnit
from hardware.simulator.answers import ANSWER_FAULTS
from hardware.simulator.script import ACTS, NotAnAct, act_of, play, read_script
from kiosk.core.model import Reading
from tests.hardware.following import DRILL, Following

ROOT = Path(__file__).parents[2]
LESSON = """
# a drill is switched on, run and switched off
0    isolator on
1.5  press start     # the starter pulls in
4    press stop
4    wire off 0 1
5.25 sound 0 1
"""


def test_a_script_is_read_with_its_times():
    acts = read_script(LESSON)

    assert [(act.at, act.words) for act in acts] == [
        (0.0, "isolator on"),
        (1.5, "press start"),
        (4.0, "press stop"),
        (4.0, "wire off 0 1"),
        (5.25, "sound 0 1"),
    ]


@pytest.mark.parametrize(
    ("script", "said"),
    [
        ("soon isolator on", "line 1: 'soon' is no number of seconds"),
        ("1 isolator on\n0.5 plug", "line 2: 0.5 s does not come after 1 s"),
        ("0 isolator sideways", "line 1: 'isolator sideways' is no act; allowed: isolator on"),
        ("0 wire off left", "line 1: 'wire off left' is no act"),
        ("nan plug", "line 1: nan s does not come after 0 s"),
    ],
)
def test_a_wrong_line_is_told_with_its_number_and_what_is_allowed(script, said):
    with pytest.raises(NotAnAct) as wrong:
        read_script(script)

    assert str(wrong.value).startswith(said)


@pytest.fixture
def unit():
    drill = SimulatedDrill()
    with SimulatedUnit(drill.levels) as plugged:
        plugged.drill = drill
        yield plugged


def test_a_script_is_played_on_time_and_leaves_the_drill_as_it_says(unit):
    waits = []

    play(read_script(LESSON), unit.drill, unit, waits.append)

    assert waits == [0.0, 1.5, 2.5, 0.0, 1.25]
    assert (unit.drill.state.knob, unit.drill.state.starter_in) == ("on", False)
    assert unit.wires.peek()[0] is True


def test_every_fault_of_an_answer_has_its_act():
    assert {f"answer {fault}" for fault in ANSWER_FAULTS} <= set(ACTS)


@pytest.mark.parametrize("words", sorted(ACTS))
def test_every_act_can_be_done_and_the_unit_is_still_there_to_be_plugged_in(unit, words):
    act_of(words)(unit.drill, unit)

    act_of("plug")(unit.drill, unit)
    assert unit.is_plugged


def test_a_scripted_run_is_followed_by_a_reader(unit):
    script = "0 isolator on\n0 press start\n0 answer crc_error\n0 answer right\n0 move"

    with Following(DRILL, unit.port) as follow:
        play(read_script(script), unit.drill, unit)
        follow.until_told(Reading.ON)
        follow.until_told(Reading.ON, "starter")


def test_the_simulator_is_played_live_from_a_keyboard():
    command = [sys.executable, "-m", "hardware.simulator"]
    typed = "isolator on\npress start\ndance\nshorted 1\n"

    done = subprocess.run(
        command, input=typed, capture_output=True, text=True, cwd=ROOT, timeout=60, check=True
    )

    lines = done.stdout.splitlines()
    assert lines[0].startswith("port: /")
    assert "starter_in=True" in lines[2]
    assert lines[3].startswith("'dance' is no act")
    assert lines[4].endswith("closed at the unit: [0, 1, 2, 3, 4]")


def test_a_script_that_is_not_there_is_one_line():
    command = [sys.executable, "-m", "hardware.simulator", "no-such-script"]

    done = subprocess.run(command, capture_output=True, text=True, cwd=ROOT, timeout=60)

    assert done.returncode == 2
    assert len(done.stdout.splitlines()) == 1
