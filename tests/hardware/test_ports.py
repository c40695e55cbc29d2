"""Ports as the system knows them, on an invented tree of devices."""

from __future__ import annotations

from pathlib import Path

import pytest

from hardware.ports import FoundPort, find_ports, refused


class System:
    """An invented `/dev` and `/sys/class/tty`."""

    def __init__(self, root: Path) -> None:
        self.dev, self.sys, self.root = root / "dev", root / "class", root
        for folder in ("by-id", "by-path"):
            (self.dev / "serial" / folder).mkdir(parents=True)

    def plug(self, name: str, socket: str, serial: str = "", by_id: str = "") -> None:
        """An adapter in a USB socket; its link by id replaces an equal one, as udev's does."""
        usb = self.root / "devices" / socket
        place = usb / "interface" / name
        place.mkdir(parents=True)
        (usb / "idVendor").write_text("1a86\n")
        (usb / "idProduct").write_text("7523\n")
        if serial:
            (usb / "serial").write_text(serial + "\n")
        (usb / "interface" / "bInterfaceNumber").write_text("00\n")
        (place / "port_number").write_text("0\n")
        (self.sys / name).mkdir(parents=True)
        (self.sys / name / "device").symlink_to(place)
        (self.dev / name).write_text("")
        self._link("by-path", f"usb-{socket}", name)
        if by_id:
            self._link("by-id", by_id, name)

    def _link(self, folder: str, name: str, device: str) -> None:
        link = self.dev / "serial" / folder / name
        link.unlink(missing_ok=True)
        link.symlink_to(self.dev / device)

    def ports(self) -> tuple[FoundPort, ...]:
        return find_ports(self.dev, self.sys)


@pytest.fixture
def system(tmp_path):
    return System(tmp_path)


def test_an_adapter_with_a_serial_number_is_used_by_id(system):
    system.plug("ttyUSB0", "1-1", "AB12", "usb-adapter_AB12-if00-port0")

    (port,) = system.ports()

    assert port.stable == str(system.dev / "serial" / "by-id" / "usb-adapter_AB12-if00-port0")
    assert (port.serial, port.warnings) == ("AB12", ())


def test_an_adapter_without_one_is_warned_of_and_used_by_path(system):
    system.plug("ttyUSB0", "1-1", "", "usb-adapter-if00-port0")

    (port,) = system.ports()

    assert port.stable.endswith("by-path/usb-1-1")
    assert port.warnings == ("The adapter has no serial number: keep it in this socket.",)


def test_two_equal_paths_by_id_are_refused_and_the_other_paths_named(system):
    for at in (0, 1):
        system.plug(f"ttyUSB{at}", f"1-{at}", "", "usb-adapter-if00-port0")
    by_id = str(system.dev / "serial" / "by-id" / "usb-adapter-if00-port0")

    ports = system.ports()

    assert [port.alone for port in ports] == [False, False]
    assert all(port.stable.startswith(str(system.dev / "serial" / "by-path")) for port in ports)
    said = refused(by_id, ports)
    assert "two adapters" in said and "by-path/usb-1-0" in said and "by-path/usb-1-1" in said
    assert refused(ports[0].by_path, ports) == ""


def test_two_equal_serial_numbers_are_refused_too(system):
    for at in (0, 1):
        system.plug(f"ttyUSB{at}", f"1-{at}", "0001", "usb-adapter_0001-if00-port0")

    assert [port.alone for port in system.ports()] == [False, False]


def test_two_adapters_with_numbers_of_their_own_are_both_used_by_id(system):
    for at in (0, 1):
        system.plug(f"ttyUSB{at}", f"1-{at}", f"N{at}", f"usb-adapter_N{at}-if00-port0")

    assert all("/by-id/" in port.stable for port in system.ports())


def test_a_port_on_the_board_has_no_stable_path_and_says_so(system):
    (system.dev / "ttyAMA0").write_text("")
    (system.dev / "tty1").write_text("")

    (port,) = system.ports()

    assert port.stable == port.device == str(system.dev / "ttyAMA0")
    assert port.warnings == ("It has no stable path: its number may change at the next start.",)


def test_a_system_without_any_port_has_none(tmp_path):
    assert find_ports(tmp_path / "dev", tmp_path / "class") == ()
