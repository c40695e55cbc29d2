"""A port that fails in plain words, whichever of pyserial's exceptions was behind it."""

from __future__ import annotations

import errno
import fcntl
import os
import termios
import tty

import pytest
import serial

from hardware.lost import Lost
from hardware.port import Port, open_port


@pytest.fixture
def terminal():
    far, near = os.openpty()
    tty.setraw(near)
    yield far, os.ttyname(near)
    os.close(far)
    os.close(near)


def word_of(act) -> str:
    with pytest.raises(Lost) as lost:
        act()
    return lost.value.word


def test_a_missing_port_is_no_port(tmp_path):
    assert word_of(lambda: open_port(str(tmp_path / "none"))) == "no_port"


def test_a_link_to_a_port_that_went_is_no_port(tmp_path):
    (tmp_path / "port").symlink_to(tmp_path / "gone")

    assert word_of(lambda: open_port(str(tmp_path / "port"))) == "no_port"


@pytest.mark.parametrize("path", ["", "nonsense://"])
def test_what_is_no_path_at_all_is_no_port(path):
    assert word_of(lambda: open_port(path)) == "no_port"


def test_a_plain_file_is_no_port(tmp_path):
    (tmp_path / "file").write_text("no serial port")

    assert word_of(lambda: open_port(str(tmp_path / "file"))) == "no_port"


def test_a_port_that_another_program_holds_is_in_use(terminal):
    _, path = terminal
    held = os.open(path, os.O_RDWR | os.O_NOCTTY)
    fcntl.flock(held, fcntl.LOCK_EX | fcntl.LOCK_NB)

    word = word_of(lambda: open_port(path))
    os.close(held)

    assert word == "in_use"


@pytest.mark.parametrize(
    ("number", "word"),
    [(errno.EACCES, "no_permission"), (errno.EBUSY, "in_use"), (errno.ENXIO, "no_port")],
)
def test_the_system_s_reason_becomes_a_word(monkeypatch, number, word):
    # the tests may run as root, whom no permission stops: so the system call itself refuses
    def refuse(*_):
        raise OSError(number, os.strerror(number))

    monkeypatch.setattr(serial.serialposix.os, "open", refuse)

    assert word_of(lambda: open_port("/dev/ttyUSB0")) == word


def test_bytes_go_both_ways(terminal):
    far, path = terminal
    port = open_port(path)

    port.write(b"ask")
    os.write(far, b"answer")

    assert (os.read(far, 10), port.read(6)) == (b"ask", b"answer")
    port.close()


def test_what_waits_can_be_thrown_away(terminal):
    far, path = terminal
    port = open_port(path)
    os.write(far, b"late")

    port.discard()

    assert port.read(4) == b""
    port.close()


def test_a_far_end_that_takes_nothing_does_not_hold_the_writer(terminal):
    _, path = terminal
    port = open_port(path)

    word = word_of(lambda: port.write(b"x" * 1_000_000))

    assert word == "unplugged"
    port.close()


def test_a_pseudo_terminal_has_no_handshake_lines(terminal):
    port = open_port(terminal[1])

    words = {word_of(port.sense), word_of(lambda: port.feed(True, True))}

    assert words == {"no_lines"}
    port.close()


@pytest.mark.parametrize(
    "act",
    [
        lambda port: port.read(8),
        lambda port: port.write(b"x"),
        lambda port: port.discard(),
        lambda port: port.sense(),
    ],
)
def test_a_pulled_adapter_is_unplugged_whatever_met_it(act):
    far, near = os.openpty()
    tty.setraw(near)
    port = open_port(os.ttyname(near))
    os.close(near)
    os.close(far)

    word = word_of(lambda: act(port))

    assert word == "unplugged"
    port.close()


class Broken:
    """A line whose every call fails with `fault`."""

    def __init__(self, fault: Exception) -> None:
        self.__dict__["fault"] = fault

    def __getattr__(self, name: str):
        raise self.fault

    def __setattr__(self, name: str, value: object) -> None:
        raise self.fault


FAULTS = [
    serial.SerialException("readiness to read but returned no data"),
    serial.SerialTimeoutException("write timeout"),
    OSError(errno.EIO, "Input/output error"),
    termios.error(errno.EIO, "Input/output error"),
    TypeError("'NoneType' object cannot be interpreted as an integer"),
    ValueError("bad file descriptor"),
]


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: type(fault).__name__)
@pytest.mark.parametrize("act", ["read", "write", "discard", "feed", "sense"])
def test_every_fault_of_every_call_is_a_loss(fault, act):
    port = Port(Broken(fault))
    calls = {"read": (1,), "write": (b"x",), "feed": (True, True)}

    assert word_of(lambda: getattr(port, act)(*calls.get(act, ()))) == "unplugged"


@pytest.mark.parametrize("fault", FAULTS, ids=lambda fault: type(fault).__name__)
def test_closing_never_fails(fault):
    Port(Broken(fault)).close()
