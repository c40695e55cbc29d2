"""The kinds of change: each says itself in a line, knows if it stands, and can be undone.

`make` gives what `undo` needs to know later, as plain words that go into the journal.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Protocol

from kiosk.installing.computer import Computer

Before = dict[str, Any]


class Change(Protocol):
    """One change of the computer."""

    def line(self) -> str:
        """The change in one line."""

    def stands(self, computer: Computer) -> bool:
        """Whether there is nothing to change."""

    def make(self, computer: Computer) -> Before:
        """Make it; what `undo` needs."""

    def undo(self, computer: Computer, before: Before) -> str:
        """Take it back; a line about what had to be left, or nothing."""


@dataclass(frozen=True)
class Packages:
    """Debian packages that must be there. Undone, all go that came with them."""

    names: tuple[str, ...]

    def line(self) -> str:
        return f"install packages: {' '.join(self.names)}"

    def stands(self, computer: Computer) -> bool:
        return all(name in _installed(computer) for name in self.names)

    def make(self, computer: Computer) -> Before:
        there = _installed(computer)
        computer.run(["apt-get", "update", "-q"])
        words = ["apt-get", "install", "-q", "-y", "--no-install-recommends"]
        computer.run([*words, *self.names])
        return {"came": sorted(_installed(computer) - there)}

    def undo(self, computer: Computer, before: Before) -> str:
        came = _installed(computer) & set(before["came"])
        kept = came & _protected(computer)
        if came - kept:
            computer.run(["apt-get", "purge", "-q", "-y", *sorted(came - kept)])
        return f"packages the system protects are left: {' '.join(sorted(kept))}" if kept else ""


def _installed(computer: Computer) -> set[str]:
    return _packages(computer, "${db:Status-Status}", "installed")


def _protected(computer: Computer) -> set[str]:
    """Packages that Debian would take away only by force."""
    essential = _packages(computer, "${Essential}", "yes")
    return essential | _packages(computer, "${Protected}", "yes")


def _packages(computer: Computer, field: str, wanted: str) -> set[str]:
    told = computer.run(["dpkg-query", "-W", "-f", f"{field} ${{Package}}\n"])
    lines = (line.partition(" ") for line in told.splitlines())
    return {name for value, _, name in lines if value == wanted}


@dataclass(frozen=True)
class User:
    """A user of the system's own, who can't log in, in those of the groups that there are."""

    name: str
    home: str
    groups: tuple[str, ...]

    def line(self) -> str:
        return f"make the user {self.name}, in the groups {', '.join(self.groups)}"

    def stands(self, computer: Computer) -> bool:
        return computer.answers(["getent", "passwd", self.name])

    def make(self, computer: Computer) -> Before:
        groups = [name for name in self.groups if computer.answers(["getent", "group", name])]
        words = ["useradd", "--system", "--user-group", "--no-create-home", "--shell"]
        words += ["/usr/sbin/nologin", "--home-dir", self.home]
        computer.run([*words, *(["--groups", ",".join(groups)] if groups else []), self.name])
        return {}

    def undo(self, computer: Computer, before: Before) -> str:
        if self.stands(computer):
            computer.run(["userdel", self.name])
        return ""


@dataclass(frozen=True)
class Folder:
    """A folder, with its owner if it is not root. Undone, it goes if nothing is in it."""

    path: str
    owner: str = ""
    mode: int = 0o755

    def line(self) -> str:
        whose = f", for {self.owner} alone" if self.owner else ""
        return f"make the folder {self.path}{whose}"

    def stands(self, computer: Computer) -> bool:
        return computer.at(self.path).is_dir()

    def make(self, computer: Computer) -> Before:
        computer.at(self.path).mkdir(parents=True, mode=self.mode)
        if self.owner:
            computer.run(["chown", f"{self.owner}:{self.owner}", self.path])
        return {}

    def undo(self, computer: Computer, before: Before) -> str:
        place = computer.at(self.path)
        if not place.is_dir():
            return ""
        if any(place.iterdir()):
            return f"{self.path} is left: there is something in it"
        place.rmdir()
        return ""


@dataclass(frozen=True)
class File:
    """A file with this text. Undone, what stood there before comes back.

    `keep`: a file that is there already belongs to the technician and is never written over.
    """

    path: str
    text: str
    mode: int = 0o644
    keep: bool = False

    def line(self) -> str:
        return f"write {self.path}"

    def stands(self, computer: Computer) -> bool:
        place = computer.at(self.path)
        return place.is_file() and (self.keep or place.read_text("utf-8") == self.text)

    def make(self, computer: Computer) -> Before:
        place = computer.at(self.path)
        before = place.read_text("utf-8") if place.is_file() else None
        computer.write(self.path, self.text, self.mode)
        return {"text": before}

    def undo(self, computer: Computer, before: Before) -> str:
        place = computer.at(self.path)
        if not place.is_file():
            return ""
        if self.keep and place.read_text("utf-8") != self.text:
            return f"{self.path} is left: it was changed by hand"
        if before["text"] is None:
            place.unlink()
        else:
            computer.write(self.path, before["text"], self.mode)
        return ""


@dataclass(frozen=True)
class Unit:
    """A unit that starts with the computer."""

    name: str

    def line(self) -> str:
        return f"have {self.name} start with the computer"

    def stands(self, computer: Computer) -> bool:
        return computer.answers(["systemctl", "is-enabled", "--quiet", self.name])

    def make(self, computer: Computer) -> Before:
        computer.run(["systemctl", "enable", self.name])
        if computer.is_running:
            computer.run(["systemctl", "daemon-reload"])
        return {}

    def undo(self, computer: Computer, before: Before) -> str:
        if computer.is_running:
            computer.answers(["systemctl", "stop", self.name])
        computer.run(["systemctl", "disable", self.name])
        return ""


@dataclass(frozen=True)
class Mounted:
    """A partition mounted by a unit that is there, its root folder its user's own."""

    path: str
    unit: str
    owner: str

    def line(self) -> str:
        return f"mount {self.path} by {self.unit}, for {self.owner} alone"

    def stands(self, computer: Computer) -> bool:
        return not computer.is_running or computer.answers(["mountpoint", "-q", self.path])

    def make(self, computer: Computer) -> Before:
        computer.run(["systemctl", "start", self.unit])
        computer.run(["chown", f"{self.owner}:{self.owner}", self.path])
        computer.run(["chmod", "750", self.path])
        return {}

    def undo(self, computer: Computer, before: Before) -> str:
        return f"{self.path} keeps its partition; the record on it is left"


@dataclass(frozen=True)
class Masked:
    """A unit that nothing may start, such as a restart by three keys."""

    name: str

    def line(self) -> str:
        return f"let nothing start {self.name}"

    def stands(self, computer: Computer) -> bool:
        return computer.at(f"/etc/systemd/system/{self.name}").is_symlink()

    def make(self, computer: Computer) -> Before:
        computer.run(["systemctl", "mask", self.name])
        return {}

    def undo(self, computer: Computer, before: Before) -> str:
        computer.run(["systemctl", "unmask", self.name])
        return ""
