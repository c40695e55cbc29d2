"""Every fault the simulator can make: the right word on the screen and in the record.

One kiosk for all of them, composed as for a school, without a window. A fault is ordered by the
same words as in a script.
"""

from __future__ import annotations

import errno
import os
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
import serial

from hardware.port import open_port
from hardware.simulator.answers import ANSWER_FAULTS
from hardware.simulator.script import ACTS, WIRES, act_of
from tests.runtime.at_the_wires import WIRING, AtTheWires, at_the_wires

OFF = ("off", "settled")

# fault, what the head says, what the idle screen says, what the record says of the isolator
FAULTS = [
    ("wire off 0 1", "fault", "its two contacts disagree", [("fault", "discrepancy")]),
    ("shorted 0 1", "fault", "its two contacts disagree", [("fault", "discrepancy")]),
    ("wire off 1", "fault", "its two contacts disagree", [("fault", "discrepancy")]),
    ("shorted 0", "fault", "its two contacts disagree", [("fault", "discrepancy")]),
    ("swap", "on", "", [("on", "settled")]),
    ("unplug", "unknown", "the adapter was pulled out", [("unknown", "unplugged")]),
    ("answer silent", "unknown", "does not answer", [("unknown", "silent")]),
    ("answer late", "unknown", "does not answer", [("unknown", "silent")]),
    ("answer crc_error", "unknown", "gives wrong answers", [("unknown", "bad_answer")]),
    ("answer wrong_unit", "unknown", "gives wrong answers", [("unknown", "bad_answer")]),
    ("answer wrong_function", "unknown", "gives wrong answers", [("unknown", "bad_answer")]),
    ("answer wrong_length", "unknown", "gives wrong answers", [("unknown", "bad_answer")]),
    ("answer babble", "unknown", "gives wrong answers", [("unknown", "bad_answer")]),
    ("answer refused", "unknown", "has no such input", [("unknown", "refused")]),
]
RIGHTED = {"swap": "swap", "unplug": "plug"}
BORNE = ["bounce", "answer echo"]


@pytest.fixture(scope="module")
def kiosk(tmp_path_factory: pytest.TempPathFactory) -> Iterator[AtTheWires]:
    with at_the_wires(tmp_path_factory.mktemp("wires")) as running:
        yield running


@pytest.fixture
def sound(kiosk: AtTheWires) -> AtTheWires:
    """The kiosk with everything in order and the record looked at so far."""
    for words in ("plug", "answer right", "sound 0 1 2", "quick hand", "isolator off"):
        act_of(words)(kiosk.drill, kiosk.unit)
    kiosk.word("off")
    kiosk.told()
    return kiosk


@pytest.mark.parametrize(("fault", "head", "line", "recorded"), FAULTS, ids=lambda x: str(x)[:24])
def test_a_fault_has_its_word_on_the_screen_and_in_the_record(
    sound: AtTheWires, fault: str, head: str, line: str, recorded: list[tuple[str, str]]
) -> None:
    act_of(fault)(sound.drill, sound.unit)
    view = sound.word(head)
    begins = fault.split()[0]
    righted = RIGHTED.get(fault, "answer right" if begins == "answer" else "sound 0 1")
    act_of(righted)(sound.drill, sound.unit)
    after = sound.word("off")

    assert any(line in said for said in view.lines) or not line
    assert not any("ontact" in said for said in after.lines)
    assert view.head.isolator_word == f"Isolator {head}"
    assert sound.told() == [*recorded, OFF]


@pytest.mark.parametrize("fault", BORNE)
def test_a_fault_that_is_borne_changes_no_word(sound: AtTheWires, fault: str) -> None:
    act_of(fault)(sound.drill, sound.unit)
    asked = sound.unit.questions
    view = sound.see(lambda v: sound.unit.questions >= asked + 12, "twelve more questions")

    assert view.head.isolator == "off"
    assert sound.told() == []


def test_a_slow_hand_is_on_and_never_a_fault(sound: AtTheWires) -> None:
    act_of("slow hand")(sound.drill, sound.unit)
    act_of("isolator on")(sound.drill, sound.unit)
    sound.word("on")

    assert sound.told() == [("on", "settled")]


def test_one_stuck_contact_is_a_fault_once_the_handle_is_turned(sound: AtTheWires) -> None:
    act_of("stuck 0")(sound.drill, sound.unit)
    act_of("isolator on")(sound.drill, sound.unit)
    view = sound.word("fault")

    assert "its two contacts disagree" in view.lines[-1]
    assert sound.told() == [("fault", "discrepancy")]


def test_two_stuck_contacts_say_what_they_said_which_no_evaluation_can_find(
    sound: AtTheWires,
) -> None:
    act_of("stuck 0 1")(sound.drill, sound.unit)
    act_of("isolator on")(sound.drill, sound.unit)
    asked = sound.unit.questions
    view = sound.see(lambda v: sound.unit.questions >= asked + 8, "eight more questions")

    assert view.head.isolator == "off"
    assert sound.told() == []


def test_a_port_that_moves_is_lost_once_and_found_under_its_path(sound: AtTheWires) -> None:
    before = os.readlink(sound.unit.port)

    act_of("move")(sound.drill, sound.unit)
    sound.word("unknown")
    sound.word("off")

    assert os.readlink(sound.unit.port) != before
    assert sound.told() == [("unknown", "unplugged"), OFF]


def test_no_fault_of_the_simulator_is_left_out() -> None:
    tried = {fault for fault, *_ in FAULTS} | set(BORNE) | {"slow hand", "stuck 0", "move"}
    begun = {words.rstrip("0123456789 ") for words in tried}
    drill = ("isolator", "press", "room", "guard", "extraction", "quick", "answer right", "plug")
    faults = {words for words in ACTS if not words.startswith(drill)} | set(WIRES) - {"sound"}

    assert faults <= begun
    assert {f"answer {fault}" for fault in ANSWER_FAULTS} <= begun


# --- the port itself -----------------------------------------------------------------------------


def test_a_port_that_is_not_there_is_said(tmp_path: Path) -> None:
    with at_the_wires(tmp_path, port=str(tmp_path / "none")) as kiosk:
        view = kiosk.see(lambda v: "no adapter is at the port" in v.lines[-1], "the line")

        assert view.head.isolator == "unknown"
        assert kiosk.told() == [("unknown", "no_port")]


def test_a_port_without_handshake_lines_is_said(tmp_path: Path) -> None:
    isolator = tuple(one for one in WIRING.inputs if one[0] == "isolator")
    lines = replace(WIRING, reader="lines", inputs=isolator)
    with at_the_wires(tmp_path, lines) as kiosk:
        kiosk.see(lambda v: "has no handshake lines" in v.lines[-1], "the line")

        assert kiosk.told() == [("unknown", "no_lines")]


def test_a_port_that_another_program_holds_is_said_and_read_when_free(tmp_path: Path) -> None:
    with at_the_wires(tmp_path) as kiosk:
        kiosk.word("off")
        kiosk.unit.unplug()
        kiosk.word("unknown")
        kiosk.unit.plug()
        other = open_port(kiosk.unit.port)
        kiosk.see(lambda v: "another program holds the port" in v.lines[-1], "the line")
        other.close()
        kiosk.word("off")

        assert kiosk.told() == [OFF, ("unknown", "unplugged"), ("unknown", "in_use"), OFF]


def test_a_port_that_may_not_be_opened_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    # the tests may run as root, whom no permission stops: so the system call itself refuses
    opened = os.open

    def refuse(path: str, *rest: int, **named: int) -> int:
        if str(path).endswith("port"):
            raise OSError(errno.EACCES, os.strerror(errno.EACCES))
        return opened(path, *rest, **named)

    monkeypatch.setattr(serial.serialposix.os, "open", refuse)
    with at_the_wires(tmp_path) as kiosk:
        kiosk.see(lambda v: "may not open the port" in v.lines[-1], "the line")

        assert kiosk.told() == [("unknown", "no_permission")]
