"""Serial ports as the system knows them: their stable paths, and whether those will stay unique.

Paths under `/dev/serial/by-id/` follow an adapter from socket to socket, but only where it has a
serial number of its own; those under `by-path/` name the socket. Sources: the kernel's sysfs and
the links that udev's rule 60-serial makes.
"""

from __future__ import annotations

import re
from collections import Counter
from dataclasses import dataclass
from pathlib import Path

DEV, SYS = Path("/dev"), Path("/sys/class/tty")
NAMES = re.compile(r"tty(USB|ACM|AMA)\d+")

Identity = tuple[str, ...]


@dataclass(frozen=True)
class FoundPort:
    """One port: its device and stable paths, empty where there is none.

    `serial` is the adapter's serial number. `alone` is false where another adapter would have
    the same path by id, so that the path leads now to one and now to the other.
    """

    device: str
    by_id: str = ""
    by_path: str = ""
    serial: str = ""
    alone: bool = True

    @property
    def stable(self) -> str:
        """The path to hand to the kiosk: by id if that is sure to be unique, else by path."""
        sure = self.by_id if self.alone and self.serial else ""
        return sure or self.by_path or (self.by_id if self.alone else "") or self.device

    @property
    def warnings(self) -> tuple[str, ...]:
        """What to know of it, one short sentence each."""
        found = []
        if self.by_id and not self.serial:
            found.append("The adapter has no serial number: keep it in this socket.")
        if not self.alone:
            found.append("Two adapters have the same path by id: it is refused, use by-path.")
        if not (self.by_id or self.by_path):
            found.append("It has no stable path: its number may change at the next start.")
        return tuple(found)


def find_ports(dev: Path = DEV, sys: Path = SYS) -> tuple[FoundPort, ...]:
    """Every port a contact unit may hang on, by device name."""
    names = sorted(p.name for p in dev.glob("tty*") if NAMES.fullmatch(p.name))
    identities = {name: _identity(sys / name / "device") for name in names}
    counts = Counter(identity for identity in identities.values() if identity)
    by_id, by_path = _links(dev / "serial" / "by-id"), _links(dev / "serial" / "by-path")
    return tuple(
        FoundPort(
            device=str(dev / name),
            by_id=by_id.get(name, ""),
            by_path=by_path.get(name, ""),
            serial=identities[name][2] if identities[name] else "",
            alone=counts[identities[name]] <= 1,
        )
        for name in names
    )


def refused(path: str, ports: tuple[FoundPort, ...]) -> str:
    """Why a path must not be used, in one sentence; empty if nothing speaks against it."""
    twins = [port for port in ports if not port.alone]
    if "/by-id/" in path and any(path == port.by_id for port in twins):
        paths = ", ".join(port.by_path or port.device for port in twins)
        return f"{path} stands for two adapters; use one of: {paths}"
    return ""


def _links(folder: Path) -> dict[str, str]:
    """Device name to the link that leads to it."""
    if not folder.is_dir():
        return {}
    return {link.resolve().name: str(link) for link in sorted(folder.iterdir())}


def _identity(device: Path) -> Identity:
    """What udev makes a path by id of: maker, model, serial, interface, port; empty: not USB."""
    place = device.resolve()
    port, interface = _said(place / "port_number"), ""
    for folder in (place, *place.parents):
        interface = interface or _said(folder / "bInterfaceNumber")
        if (folder / "idVendor").exists():
            maker, model = _said(folder / "idVendor"), _said(folder / "idProduct")
            return maker, model, _said(folder / "serial"), interface, port
    return ()


def _said(file: Path) -> str:
    try:
        return file.read_text("utf-8", errors="replace").strip()
    except OSError:
        return ""
