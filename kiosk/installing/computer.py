"""The computer that is changed: its files below a root, and its own commands."""

from __future__ import annotations

import os
import subprocess
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path


class CannotInstall(Exception):
    """A change could not be made; what was made before it stands in the journal."""


def run(words: list[str]) -> str:
    """What a command prints. Raises `CannotInstall` with its last line if it fails."""
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive", "LC_ALL": "C.UTF-8"}
    try:
        done = subprocess.run(
            words,
            capture_output=True,
            text=True,
            check=False,
            env=environment,
            stdin=subprocess.DEVNULL,
        )
    except OSError as error:
        raise CannotInstall(f"{words[0]}: {error.strerror}") from None
    if done.returncode:
        said = (done.stderr.strip() or done.stdout.strip() or "it said nothing").splitlines()[-1]
        raise CannotInstall(f"{' '.join(words)}: {said}")
    return done.stdout


@dataclass(frozen=True)
class Computer:
    """`root` is / but for tests; `run` runs one command and gives what it prints."""

    root: Path = Path("/")
    run: Callable[[list[str]], str] = run

    def at(self, path: str) -> Path:
        """The place of an absolute path."""
        return self.root / path.lstrip("/")

    @property
    def is_running(self) -> bool:
        """Whether systemd runs it, as sd_booted(3) tells; it does not in a root being prepared."""
        return self.at("/run/systemd/system").is_dir()

    def answers(self, words: list[str]) -> bool:
        """Whether a command ends well."""
        try:
            self.run(words)
        except CannotInstall:
            return False
        return True

    def write(self, path: str, text: str, mode: int) -> None:
        """Write a file whole or not at all, and have it on the disk before going on."""
        place = self.at(path)
        part = place.with_name(place.name + ".part")
        with open(os.open(part, os.O_WRONLY | os.O_CREAT | os.O_TRUNC, mode), "w") as file:
            file.write(text)
            os.fchmod(file.fileno(), mode)
            file.flush()
            os.fsync(file.fileno())
        part.replace(place)
        folder = os.open(place.parent, os.O_RDONLY)
        try:
            os.fsync(folder)
        finally:
            os.close(folder)
