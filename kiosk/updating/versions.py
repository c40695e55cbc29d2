"""The versions on this computer, and which one is started: one small file, replaced whole.

The version that was installed lies in the program's own tree and is never touched. Those that came
by stick lie beside the record, each an environment of its own. A new one is on trial until its
screen has stood for a while; one that does not get so far twice makes way for the former one.
"""

from __future__ import annotations

import json
import os
from dataclasses import asdict, dataclass, replace
from pathlib import Path

CHOSEN, WHOLE = "chosen.json", "whole"
TRIES = 2
"""So many starts of a version on trial may end before it has stood: one may be a loss of power."""


@dataclass(frozen=True)
class Chosen:
    """Which version is started: the name of its folder; empty for the one that was installed.

    `former` is what ran before it. While it is on trial, `tries` counts its starts; `failed` names
    the version that made way for this one.
    """

    version: str = ""
    former: str = ""
    trial: bool = False
    tries: int = 0
    failed: str = ""


class Versions:
    """The folder of versions; `base` is the environment that was installed."""

    def __init__(self, folder: Path, base: Path) -> None:
        self.folder, self.base = folder, base

    def python(self, name: str) -> Path:
        """The interpreter of a version."""
        return (self.folder / name if name else self.base) / "bin" / "python"

    def may_start(self, name: str) -> bool:
        """Whether a version is whole and its interpreter is there."""
        if not name:
            return True
        return (self.folder / name / WHOLE).is_file() and os.access(self.python(name), os.X_OK)

    def chosen(self) -> Chosen:
        """What is chosen now; what can't be read is the version that was installed."""
        try:
            said = json.loads((self.folder / CHOSEN).read_text("utf-8"))
            found = Chosen(**said)
        except (OSError, ValueError, TypeError):
            return Chosen()
        plain = isinstance(found.version, str) and isinstance(found.former, str)
        return found if plain and type(found.tries) is int else Chosen()

    def names(self) -> tuple[str, ...]:
        """Every folder that is here, whole or not."""
        if not self.folder.is_dir():
            return ()
        return tuple(sorted(p.name for p in self.folder.iterdir() if p.is_dir()))

    # --- what changes ----------------------------------------------------------------------------

    def try_out(self, name: str) -> None:
        """Have `name` started from now on, on trial; what runs now is the way back."""
        self._write(Chosen(name, self._standing().version, trial=True))

    def confirm(self, name: str) -> None:
        """The screen of `name` stands: its trial is over."""
        now = self.chosen()
        if now.trial and now.version == name:
            self._write(Chosen(name, now.former))

    def back(self) -> Chosen:
        """Go back to the former version by hand, or from one that did not start."""
        now = self.chosen()
        former = now.former if self.may_start(now.former) else ""
        back = Chosen(former, failed=now.version)
        self._write(back)
        return back

    def for_start(self) -> Chosen:
        """What is to be started now; a start on trial is counted before it is made."""
        now = self.chosen()
        if not self.may_start(now.version) or (now.trial and now.tries >= TRIES):
            return self.back()
        if now.trial:
            now = replace(now, tries=now.tries + 1)
            self._write(now)
        return now

    def _standing(self) -> Chosen:
        """What would be started, without counting it."""
        now = self.chosen()
        return now if self.may_start(now.version) and not now.trial else Chosen(now.former)

    def _write(self, chosen: Chosen) -> None:
        """Replace the file whole, and have it on the card before going on."""
        part = self.folder / f"{CHOSEN}.part"
        with part.open("w", encoding="utf-8") as file:
            json.dump(asdict(chosen), file)
            file.flush()
            os.fsync(file.fileno())
        part.replace(self.folder / CHOSEN)
        sync_folder(self.folder)


def sync_folder(folder: Path) -> None:
    """Write a folder's own entries through to the card."""
    handle = os.open(folder, os.O_RDONLY | os.O_DIRECTORY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)
