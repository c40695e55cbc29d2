"""Whether the drill that is asked for is known here, and the kiosk's user could run the program."""

from __future__ import annotations

import os
from collections.abc import Iterator
from pathlib import Path

from kiosk.core.problems import nearest
from kiosk.installing.computer import Computer
from kiosk.installing.wanted import USER, Wanted


def unfit(computer: Computer, wanted: Wanted) -> Iterator[str]:
    """Why the kiosk would not start once it is installed, each with what to do."""
    yield from _machine(wanted)
    yield from _python(wanted.tree)


def _machine(wanted: Wanted) -> Iterator[str]:
    """A machine file of the tree. The school's own come with its folder, in the settings."""
    names = sorted(path.stem for path in (wanted.tree / "sequences" / "machines").glob("*.yaml"))
    if wanted.machine not in names:
        said = f"--machine: {wanted.machine!r}; allowed: {', '.join(names)}"
        advice = nearest(wanted.machine, names)
        more = "a machine file of the school's own is named in the settings after installing"
        yield "; ".join(filter(None, (said, advice, more)))


def _python(tree: Path) -> Iterator[str]:
    """The Python behind .venv lies elsewhere, maybe where only its owner may go."""
    python, told = tree / ".venv" / "bin" / "python", (tree, *tree.parents)
    found = (folder for place in _links(python) for folder in _closed_to_others(place))
    closed = [folder for folder in found if folder not in told]
    if closed:
        yield (
            f"{python} leads to {python.resolve()}, and other users may not use {closed[0]}, so the"
            f" user {USER} can't run it; take the Python of the system: apt-get install python3"
            " python3-venv, take .venv away and run PYTHON=/usr/bin/python3 sh tests/run.sh"
        )


def _links(place: Path) -> Iterator[Path]:
    """The file, and all it leads to by links; nothing where one leads nowhere."""
    if not place.exists():
        return
    yield place
    while place.is_symlink():
        place = Path(os.path.normpath(place.parent / place.readlink()))
        yield place
    yield place.resolve()


def _closed_to_others(place: Path) -> Iterator[Path]:
    """The folders above that others can't enter, the highest first; the file if it can't be run."""
    yield from (one for one in reversed(place.parents) if not one.stat().st_mode & 0o001)
    if not place.lstat().st_mode & 0o001:  # a link is open to all; what it leads to is asked next
        yield place
