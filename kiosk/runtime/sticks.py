"""Work at a stick, in child processes: downloads, and what a package would bring in.

A stick may be slow, so nobody waits for one; progress and the end come through the inbox.
"""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

from kiosk.core.inputs import (
    DownloadEnded,
    DownloadMoved,
    Input,
    PackageRead,
    SheetEnded,
    SheetRead,
)
from kiosk.runtime.settings import Settings

Post = Callable[[Input], None]
Said = dict[str, Any]
WHERE = {"download": "--to", "package": "--from", "sheet": "--to"}
"""What a child is told the stick by; work that is not named needs none."""


class Sticks:
    """Runs one child at a time for each kind of work.

    `looked` has what was read of packages, by their digests: what is taken in is what was shown.
    """

    def __init__(self, settings: Settings, record: Path, post: Post) -> None:
        self._settings, self._record, self._post = settings, record, post
        self._children: list[subprocess.Popen[str]] = []
        self.looked: dict[str, Said] = {}

    @property
    def port(self) -> str:
        """The contact reader's port as it is settled."""
        return self._settings.port

    def stop(self) -> None:
        """End any child."""
        for child in self._children:
            if child.poll() is None:
                child.terminate()

    def download(self, span: str) -> None:
        """Write a download."""
        words = ["--span", span.replace("_", "-")]
        self._begin("download", words, lambda why: DownloadEnded(span, why), self._move, span)

    def look(self) -> None:
        """Read what the stick would bring in, check it, keep a copy."""
        words = self._content()
        self._begin("package", words, lambda why: PackageRead("", 0, (), why), self._read, "")

    def read_sheet(self, sheet: str) -> None:
        """Make a printed sheet to be read."""
        words = [*self._content(), "--sheet", sheet]
        self._begin("preview", words, lambda why: SheetRead(sheet, (), why), self._parts, sheet)

    def write_sheet(self, sheet: str) -> None:
        """Make a printed sheet and put it on the stick."""
        words = [*self._content(), "--sheet", sheet]
        self._begin("sheet", words, SheetEnded, self._written, sheet)

    def _content(self) -> list[str]:
        """What names this kiosk's content."""
        asked = self._settings
        words = ["--machine", asked.machine, "--sequences", str(asked.sequences)]
        words += ["--language", asked.language]
        return words + (["--school", str(asked.school)] if asked.school else [])

    def _begin(
        self,
        name: str,
        words: list[str],
        failed: Callable[[str], Input],
        told: Callable[[str, Said], Input | None],
        about: str,
    ) -> None:
        """Start a child, where it needs a stick for one that is there; `told` makes an input of
        each of its lines.
        """

        def run() -> None:
            place, why = self._place(name)
            if why:
                self._post(failed(why))
                return
            last: Input | None = None
            for said in self._lines([name, *words, *place, "--record", str(self._record)]):
                last = told(about, said)
                if isinstance(last, DownloadMoved):
                    self._post(last)
            over = last is None or isinstance(last, DownloadMoved)
            self._post(failed("failed") if over or last is None else last)

        threading.Thread(target=run, name=name, daemon=True).start()

    def _place(self, name: str) -> tuple[list[str], str]:
        """Where the stick is, or why there is none; the room of downloads is loaded only here."""
        given = self._settings.download_to
        if name not in WHERE:
            return [], ""
        if given:
            return [WHERE[name], str(given)], ""
        from kiosk.export import find_stick

        found, why = find_stick()
        return [WHERE[name], str(found), "--stick"], why

    def _lines(self, words: list[str]) -> Iterator[Said]:
        command = [sys.executable, "-m", "kiosk.cli.child", *words]
        child = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        self._children = [c for c in self._children if c.poll() is None] + [child]
        with child:  # nothing stays open of one that has ended
            for line in child.stdout or ():
                try:
                    said = json.loads(line)
                except ValueError:
                    continue
                if isinstance(said, dict):
                    yield said

    def _move(self, span: str, said: Said) -> Input | None:
        match said:
            case {"done": int(done), "whole": int(whole)}:
                return DownloadMoved(done, whole)
            case {"why": str(why)}:
                return DownloadEnded(span, why)
            case {"first": int(first), "last": int(last), "head": str(head)}:
                return DownloadEnded(span, "", first, last, head)
        return None

    def _parts(self, sheet: str, said: Said) -> Input | None:
        match said:
            case {"parts": list(parts)}:
                return SheetRead(sheet, tuple(map(tuple, parts)))
            case {"why": str(why)}:
                return SheetRead(sheet, (), why)
        return None

    def _written(self, _: str, said: Said) -> Input | None:
        match said:
            case {"done": int(done), "whole": int(whole)}:
                return DownloadMoved(done, whole)
            case {"why": str(why)}:
                return SheetEnded(why)
            case {"folder": str()}:
                return SheetEnded("")
        return None

    def _read(self, _: str, said: Said) -> Input | None:
        match said:
            case {"why": str(why), "lines": list(lines)}:
                return PackageRead("", 0, _pairs(lines), why)
            case {"request": {"package": str(package), "made_us": int(made_us)} as request}:
                self.looked = {package: request}
                return PackageRead(package, made_us, _pairs(said["lines"]))
        return None


def _pairs(lines: list[list[str]]) -> tuple[tuple[str, str], ...]:
    return tuple((key, what) for key, what in lines)
