"""Starts the real kiosk as a process of its own, with an invented roster and issued PINs."""

from __future__ import annotations

import os
import re
import signal
import subprocess
import sys
from dataclasses import dataclass
from pathlib import Path

from kiosk.runtime.settings import Settings
from kiosk.runtime.start import FIRST_TECHNICIAN, start

TREE = Path(__file__).resolve().parent.parent
ROSTER = TREE / "demo" / "roster" / "roster.csv"
ADULTS = (("Ms Invented", "teacher"), ("Mr Invented", "technician"))


@dataclass(frozen=True)
class Card:
    """What an adult was given on paper: a PIN, and spare codes for when it has to wait."""

    pin: str
    codes: tuple[str, ...]


def issue_pins(record: Path) -> dict[str, str]:
    """Issue a PIN to each invented adult; by their names."""
    return {name: card.pin for name, card in issue_cards(record).items()}


def issue_cards(record: Path) -> dict[str, Card]:
    """Issue PIN and codes to each invented adult by the command a technician would use.

    The kiosk's first start makes the record, so it is started once with no screen.
    """
    if not record.exists():
        start(Settings(record=record)).stop()
    cards = {name: _issue(record, name, role) for name, role in reversed(ADULTS)}
    first = ["adult", "revoke", FIRST_TECHNICIAN, "--record", str(record)]
    subprocess.run(command(*first), capture_output=True, check=True, cwd=TREE)
    return cards


def _issue(record: Path, name: str, role: str) -> Card:
    words = ["adult", "issue", "--name", name, "--role", role, "--record", str(record)]
    told = subprocess.run(command(*words), capture_output=True, text=True, check=True, cwd=TREE)
    found = re.search(r"PIN +(\d{3}) (\d{3})", told.stdout)
    if found is None:
        raise RuntimeError(f"no PIN in: {told.stdout}")
    codes = re.findall(r"(\d{5}) (\d{5})", told.stdout)
    return Card("".join(found.groups()), tuple(map("".join, codes)))


def command(*words: str) -> list[str]:
    """The console command as a list, by this very Python."""
    return [sys.executable, "-m", "kiosk.main", *words]


class KioskProcess:
    """The kiosk on a display, reading `port`, keeping `record` and a log of what was shown.

    What it writes to its error stream goes into the file `errors`.
    """

    def __init__(
        self,
        display: str,
        record: Path,
        shown: Path,
        port: str,
        *,
        panel: str = "7inch",
        language: str = "en",
        download_to: Path | None = None,
        boot: str = "",
        school: Path | None = None,
        errors: Path | None = None,
    ) -> None:
        words = ["run", "--record", str(record), "--roster", str(ROSTER), "--port", port]
        words += ["--panel", panel, "--language", language, "--shown", str(shown)]
        words += ["--download-to", str(download_to)] if download_to else []
        words += ["--boot", boot] if boot else []
        words += ["--school", str(school)] if school else []
        self._command, self._display, self._errors = command(*words), display, errors
        self._process = self._switch_on()

    def _switch_on(self) -> subprocess.Popen[bytes]:
        with open(self._errors or os.devnull, "ab") as errors:
            return subprocess.Popen(
                self._command,
                cwd=TREE,
                env={**os.environ, "DISPLAY": self._display},
                stdout=subprocess.DEVNULL,
                stderr=errors,
            )

    def cut(self) -> None:
        """The power goes: the process ends at once, with no chance to say goodbye."""
        self._process.send_signal(signal.SIGKILL)
        self._process.wait(10)

    def cut_and_start(self) -> None:
        """The power goes and comes back."""
        self.cut()
        self._process = self._switch_on()

    def end(self) -> int:
        """Ask it to end in order; returns its exit code."""
        if self._process.poll() is None:
            self._process.send_signal(signal.SIGTERM)
        return self._process.wait(15)

    @property
    def runs(self) -> bool:
        """Whether the process is still there."""
        return self._process.poll() is None
