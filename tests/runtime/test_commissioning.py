"""Commissioning at a simulated drill over a pseudo-terminal: what is accepted, found and kept."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest

from hardware.ports import FoundPort
from hardware.simulator import SimulatedDrill, SimulatedUnit
from kiosk.content import load
from kiosk.core.model import ContactPair
from kiosk.runtime.commissioning.command import Task, commission
from kiosk.runtime.commissioning.sheet import sheet_path
from kiosk.runtime.settings import TREE
from tests.runtime.technician import Technician

SEQUENCES = TREE / "sequences"
ALL = (
    ("isolator", ContactPair(0, 1)),
    ("starter", ContactPair(2)),
    ("spindle", ContactPair(3)),
    ("guard", ContactPair(4)),
    ("extraction", ContactPair(5)),
)


class Bench:
    """A drill, its unit, the school's folder, and the technician."""

    def __init__(self, school: Path) -> None:
        self.drill = SimulatedDrill(run_down=1.0)
        self.unit = SimulatedUnit(self.drill.levels, functions=(1, 2, 3))
        self.school = school
        self.person = Technician(self.drill)

    def commission(self, **task: object) -> int:
        task = {"port": self.unit.port, **task}
        made = Task("drill-1", self.school, SEQUENCES, **task)  # type: ignore[arg-type]
        return commission(made, self.person, lambda: ())

    @property
    def told(self) -> str:
        return "\n".join(self.person.said)

    @property
    def inputs(self) -> dict[str, ContactPair]:
        content = load(SEQUENCES, self.school).content
        assert content is not None
        return dict(content.machine("drill-1").wiring.inputs)

    @property
    def written(self) -> bool:
        return (self.school / "machines").exists() or sheet_path(self.school, "drill-1").exists()


@pytest.fixture
def bench(tmp_path):
    made = Bench(tmp_path / "school")
    with made.unit:
        yield made


def test_every_contact_is_seen_in_each_state_and_written_with_the_sheet_s_values(bench):
    code = bench.commission(inputs=ALL)

    sheet = json.loads(sheet_path(bench.school, "drill-1").read_text("utf-8"))
    assert code == 0, bench.told
    assert bench.inputs == dict(ALL)
    assert {(s["input"], s["state"]) for s in sheet["seen"]} == {
        (name, state) for name, _ in ALL for state in ("off", "on")
    }
    assert sheet["port"] == bench.unit.port
    assert 800 <= sheet["run_down_ms"] <= 1500  # it turns on for 1.0 s, looked at 5 times a second
    assert f"--port {bench.unit.port}" in bench.told


def test_the_raw_levels_are_shown_as_they_move(bench):
    bench.commission(inputs=ALL[:1])

    assert {"0 open   1 closed", "0 closed   1 open"} <= bench.person.shown


def test_exchanged_wires_are_found_and_put_right_at_the_box(bench):
    bench.unit.wires.swap()

    class Wireman(Technician):
        def say(self, text: str) -> None:
            super().say(text)
            if "exchanged" in text:
                bench.unit.wires.swap()

    bench.person = Wireman(bench.drill)
    code = bench.commission(inputs=ALL[:1])

    assert "0 is closed, 1 is open: the two wires are exchanged." in bench.told
    assert (code, bench.inputs) == (0, dict(ALL[:1]))


def test_exchanged_wires_are_put_right_in_the_file_by_x(bench):
    bench.unit.wires.swap()
    bench.person.types = ["", "x"]

    code = bench.commission(inputs=ALL[:1])

    assert (code, bench.inputs) == (0, {"isolator": ContactPair(1, 0)})


def test_numbers_exchanged_in_the_file_are_found_too(bench):
    bench.person.types = ["", "q"]

    code = bench.commission(inputs=(("isolator", ContactPair(1, 0)),))

    assert "the two wires are exchanged" in bench.told
    assert (code, bench.written) == (1, False)


@pytest.mark.parametrize(
    ("fault", "said"),
    [
        (lambda wires: wires.take_off(0, 1), "neither. A wire is off"),
        (lambda wires: wires.short(0, 1), "both at once. A short"),
    ],
)
def test_a_wire_off_or_a_short_is_not_accepted(bench, fault, said):
    fault(bench.unit.wires)
    bench.person.types = ["", "q"]

    code = bench.commission(inputs=ALL[:1])

    assert said in bench.told
    assert (code, bench.written) == (1, False)


def test_a_stuck_contact_is_not_accepted_because_it_must_be_seen_in_each_state(bench):
    bench.unit.wires.stick(0, 1)
    bench.person.types = ["", "", "q"]

    code = bench.commission(inputs=ALL[:1])

    assert "Seen: isolator off." in bench.told
    assert "Seen: isolator on." not in bench.told
    assert code == 1


def test_an_input_on_another_s_wire_is_found(bench):
    bench.person.types = ["", "", "", "l"]

    bench.commission(inputs=(ALL[0], ("starter", ContactPair(0))))

    assert "0 is closed: the wrong way round" in bench.told
    assert bench.inputs == dict(ALL[:1])


def test_an_input_may_be_left_out(bench):
    bench.person.types = ["", "", "l"]

    code = bench.commission(inputs=ALL[:2])

    assert (code, bench.inputs) == (0, dict(ALL[:1]))
    assert "starter: left out" in bench.told


def test_what_the_machine_file_says_is_where_it_begins(bench):
    code = bench.commission()

    assert code == 0
    assert bench.inputs == dict(ALL[:2])
    assert [r.split(":")[0] for r in bench.person.requests] == ["isolator"] * 2 + ["starter"] * 3


def test_a_unit_with_registers_only_is_commissioned_by_function_three(bench):
    assert bench.commission(inputs=ALL[:1], function=3) == 0
    content = load(SEQUENCES, bench.school).content
    assert content.machine("drill-1").wiring.function == 3


def test_no_is_no(bench):
    bench.person.answers = {"Write it?": "no"}

    assert bench.commission(inputs=ALL[:1]) == 1
    assert not bench.written


def test_a_missing_port_is_said_in_plain_words_and_nothing_is_accepted(bench):
    bench.person.types = ["", "q"]

    code = bench.commission(inputs=ALL[:1], port="/dev/serial/by-id/usb-not-there")

    assert "Not accepted: Contacts: no adapter is at the port." in bench.told
    assert code == 1


TWINS = tuple(
    FoundPort(f"/dev/ttyUSB{n}", "/dev/serial/by-id/usb-x", f"/dev/serial/by-path/{n}", "", False)
    for n in (0, 1)
)


def test_two_equal_paths_by_id_are_refused_before_anything_else(bench):
    task = Task("drill-1", bench.school, SEQUENCES, port="/dev/serial/by-id/usb-x")

    code = commission(task, bench.person, lambda: TWINS)

    assert code == 1
    assert "stands for two adapters; use one of: /dev/serial/by-path/0" in bench.told
    assert bench.person.requests == []


def test_an_adapter_without_a_serial_number_is_warned_of_in_the_sheet_too(bench):
    found = FoundPort("/dev/ttyUSB9", "/dev/serial/by-id/usb-x", bench.unit.port, "")
    task = Task("drill-1", bench.school, SEQUENCES, inputs=ALL[:1])

    code = commission(task, bench.person, lambda: (found,))

    sheet = json.loads(sheet_path(bench.school, "drill-1").read_text("utf-8"))
    assert code == 0
    assert sheet["port"] == bench.unit.port
    assert sheet["warnings"] == ["The adapter has no serial number: keep it in this socket."]


def test_an_unknown_machine_is_one_line_with_the_known_ones(bench):
    code = commission(Task("drill-9", bench.school, SEQUENCES), bench.person, lambda: ())

    assert code == 2
    assert bench.told.startswith("no machine 'drill-9'; there are: drill-1")


def test_the_command_walks_through_it_at_a_keyboard(bench):
    words = ["--school", str(bench.school), "--port", bench.unit.port, "--input", "isolator=0,1"]
    command = [sys.executable, "-m", "kiosk.main", "commission", *words]
    with subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True, cwd=TREE
    ) as run:
        assert run.stdin and run.stdout
        lines = []
        for line in run.stdout:
            lines.append(line.strip())
            if "Turn the isolator to I." in line:
                bench.drill.turn_isolator(True)
            if "Not accepted" in line or line.strip() in ("0 open   1 closed", "0 closed   1 open"):
                run.stdin.write("\n")
                run.stdin.flush()
            if "Write it?" in line:
                run.stdin.write("yes\n")
                run.stdin.flush()

    assert run.returncode == 0, "\n".join(lines)
    assert bench.inputs == dict(ALL[:1])
