"""Contacts on handshake lines, over loop-back ports."""

from __future__ import annotations

import pytest

from hardware import lines
from hardware.lost import Lost
from hardware.port import open_port
from tests.hardware.protocol_contacts import joints


def at_once(_: float) -> None:
    """No wait: a loop-back port's lines follow at once."""


def test_a_plain_loop_back_reads_as_both_contacts_closed():
    port = open_port("loop://")

    levels = lines.look(port, at_once)

    assert levels == ((0, True), (1, True))
    port.close()


@pytest.mark.parametrize("make", [True, False])
@pytest.mark.parametrize("on_break", [True, False])
def test_each_contact_is_read_by_its_own_lines(make, on_break):
    contacts = joints("own")
    contacts.make, contacts.on_break = make, on_break
    port = open_port("contacts://own")

    levels = lines.look(port, at_once)

    assert levels == ((0, make), (1, on_break))
    port.close()


def test_a_line_that_is_high_unfed_counts_for_nothing():
    joints("lifted").lifted = True
    port = open_port("contacts://lifted")

    with pytest.raises(Lost) as lost:
        lines.look(port, at_once)

    assert lost.value.word == "bad_answer"
    port.close()


class Crossed:
    """Lines on which either feed reaches the line named."""

    def __init__(self, cts_by: str, dsr_by: str) -> None:
        self.by, self.fed = (cts_by, dsr_by), {"rts": False, "dtr": False}

    def feed(self, rts: bool, dtr: bool) -> None:
        self.fed = {"rts": rts, "dtr": dtr}

    def sense(self) -> tuple[bool, bool]:
        return self.fed[self.by[0]], self.fed[self.by[1]]


@pytest.mark.parametrize("by", [("dtr", "dtr"), ("rts", "rts"), ("dtr", "rts")])
def test_wires_crossed_between_the_contacts_count_for_nothing(by):
    with pytest.raises(Lost) as lost:
        lines.look(Crossed(*by), at_once)

    assert lost.value.word == "bad_answer"


def test_the_contacts_are_left_unfed_between_looks():
    port = Crossed("rts", "dtr")

    lines.look(port, at_once)

    assert port.fed == {"rts": False, "dtr": False}
