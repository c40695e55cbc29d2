"""What the system starts: `python -m kiosk.updating.starting VERSIONS run --settings FILE`.

It runs from the version that was installed, chooses the one to start, and becomes it. Nothing here
may keep a kiosk from starting: where a choice can't be read or counted, the former version starts.
"""

from __future__ import annotations

import os
import sys
from pathlib import Path
from typing import NoReturn

from kiosk.updating.versions import Chosen, Versions

STARTED_BY = "PILLARSIDE_STARTED_BY"
"""In the environment of the version that was started: the words to be started by again."""


def choose(versions: Versions) -> Chosen:
    """The version to start. One on trial that can't be counted is not tried."""
    try:
        return versions.for_start()
    except OSError as error:
        sys.stderr.write(f"{versions.folder}: {error.strerror}; the former version is started\n")
        now = versions.chosen()
        name = now.former if now.trial or not versions.may_start(now.version) else now.version
        return Chosen(name if versions.may_start(name) else "")


def start(versions: Versions, words: list[str]) -> NoReturn:
    """Become the chosen version; does not return."""
    chosen = choose(versions)
    if chosen.failed:
        sys.stderr.write(f"version {chosen.failed} did not start; gone back to the former one\n")
    python = str(versions.python(chosen.version))
    os.execv(python, [python, "-P", "-m", "kiosk.main", *words])


def running(environment: Path) -> tuple[Versions, str] | None:
    """The versions and this one's name, where `starting` has started it in this `environment`."""
    words = os.environ.get(STARTED_BY, "").split("\n")
    if len(words) < 2:
        return None
    folder = Path(words[-1])
    name = environment.name if environment.parent == folder else ""
    return Versions(folder, Path(words[0]).parent.parent), name


def start_anew(words: list[str]) -> NoReturn:
    """Start again what runs: through `starting` if it was started by it. Does not return."""
    by = os.environ.get(STARTED_BY, "").split("\n")
    if len(by) > 1:
        os.execv(by[0], [by[0], "-P", "-m", "kiosk.updating.starting", by[1], *words])
    os.execv(sys.executable, [sys.executable, *sys.orig_argv[1:]])


if __name__ == "__main__":
    os.environ[STARTED_BY] = f"{sys.executable}\n{sys.argv[1]}"
    start(Versions(Path(sys.argv[1]), Path(sys.prefix)), sys.argv[2:])
