"""What a kiosk needs of its computer, in the order in which it is made.

Raspberry Pi OS and Debian 12 and 13. The screen runs alone under a small compositor, as a user
of its own who can't log in; see DEVELOPERS.md for what was weighed.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from string import Template

from kiosk.installing.changes import Change, File, Folder, Masked, Mounted, Packages, Unit, User
from kiosk.installing.computer import Computer

USER = "pillarside"
DATA = "/var/lib/pillarside"
SETTINGS_FOLDER = "/etc/pillarside"
SETTINGS = f"{SETTINGS_FOLDER}/settings.yaml"
JOURNAL = "/var/lib/pillarside-installed.json"
STICKS = "/media/pillarside"
UNITS = "/etc/systemd/system"
MOUNT = "var-lib-pillarside.mount"  # systemd.mount(5): a mount's unit is named by its place
GROUPS = ("dialout", "video", "render", "input", "audio", "tty")
PACKAGES = ("cage", "xwayland", "dbus", "libpam-systemd", "udev")
FILES = Path(__file__).parent / "files"


@dataclass(frozen=True)
class Wanted:
    """What is settled at installing: the tree of the program, the drill, its port, the panel.

    `partition` is the label of the record's own partition; empty: it has none.
    """

    tree: Path
    machine: str = "drill-1"
    port: str = ""
    panel: str = "7inch"
    partition: str = ""


def all_changes(wanted: Wanted) -> tuple[Change, ...]:
    """Every change, in order; what one needs stands before it."""
    return (
        Packages(PACKAGES),
        User(USER, DATA, GROUPS),
        Folder(DATA, USER, 0o750),
        *_own_partition(wanted),
        Folder(SETTINGS_FOLDER),
        Folder(STICKS),
        File(SETTINGS, _text(wanted, "settings.yaml"), keep=True),
        File(f"{SETTINGS_FOLDER}/stopped.txt", _text(wanted, "stopped.txt")),
        *_placed(wanted),
        Masked("ctrl-alt-del.target"),
        Unit("pillarside-clock.service"),
        Unit("pillarside.service"),
    )


def _own_partition(wanted: Wanted) -> Iterator[Change]:
    """What mounts the record's own partition, before anything is written to its place."""
    if wanted.partition:
        yield File(f"{UNITS}/{MOUNT}", _text(wanted, "data.mount"))
        yield Unit(MOUNT)
        yield Mounted(DATA, MOUNT, USER)


def _placed(wanted: Wanted) -> Iterator[Change]:
    """The files that the system itself reads."""
    for path, name in (
        ("/etc/udev/rules.d/70-pillarside.rules", "70-pillarside.rules"),
        ("/etc/systemd/journald.conf.d/pillarside.conf", "journald.conf"),
        ("/etc/sysctl.d/70-pillarside.conf", "sysctl.conf"),
        (f"{UNITS}/pillarside.service", "pillarside.service"),
        (f"{UNITS}/pillarside-stopped.service", "pillarside-stopped.service"),
        (f"{UNITS}/pillarside-clock.service", "pillarside-clock.service"),
    ):
        yield Folder(str(Path(path).parent))
        yield File(path, _text(wanted, name))


def _text(wanted: Wanted, name: str) -> str:
    written = Template((FILES / name).read_text("utf-8"))
    port = f"port: {wanted.port}" if wanted.port else "# port: /dev/serial/by-id/..."
    return written.substitute(
        tree=wanted.tree,
        user=USER,
        data=DATA,
        settings=SETTINGS,
        settings_folder=SETTINGS_FOLDER,
        machine=wanted.machine,
        panel=wanted.panel,
        label=wanted.partition,
        port=port,
    )


def refusals(computer: Computer, wanted: Wanted) -> Iterator[str]:
    """Why this computer or this tree will not do, each with what to do."""
    if not computer.at("/etc/debian_version").is_file():
        yield "this is neither Debian nor Raspberry Pi OS; nothing is known of its packages"
    if not (wanted.tree / ".venv" / "bin" / "python").exists():
        yield f"{wanted.tree}: there is no .venv; run sh tests/run.sh there first"
    label = computer.at(f"/dev/disk/by-label/{wanted.partition}")
    if wanted.partition and not label.exists():
        yield (
            f"there is no partition with the label {wanted.partition}; make one on the card with"
            f" mkfs.ext4 -L {wanted.partition} /dev/... (all that is on it is lost)"
        )
    closed = [p for p in (wanted.tree, *wanted.tree.parents) if not p.stat().st_mode & 0o001]
    if closed:
        yield (
            f"{closed[-1]}: other users may not go in, so the user {USER} can't run the program;"
            " move the program to /opt/pillarside and set it up there"
        )
