"""Slow work: PINs in a worker thread, downloads in a child process, commands from outside."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from collections.abc import Callable, Iterable, Mapping
from pathlib import Path
from typing import Any

from kiosk.core.inputs import (
    DownloadEnded,
    DownloadMoved,
    EraseAsked,
    Input,
    PurgeReady,
)
from kiosk.core.kiosk import Kiosk
from kiosk.people import (
    BY,
    NotPossible,
    Office,
    RosterGroup,
    adult_to_issue,
    group_from_plain,
    take_in,
    to_erase,
)
from kiosk.runtime.doorkeeper import Doorkeeper
from kiosk.runtime.inbox import Command
from kiosk.store import Begin, Record

Post = Callable[[Input | Command], None]
LATER_S = 30.0


class Runners(Doorkeeper):
    """Runs errands for the loop; every result is posted to its inbox."""

    def __init__(
        self,
        record: Record,
        pepper: bytes,
        post: Post,
        download_to: Path | None,
        names_changed: Callable[[], None],
        machine: str = "",
        today: Callable[[], int] = lambda: 0,
    ) -> None:
        super().__init__(record, pepper, post)
        self._download_to, self._names_changed = download_to, names_changed
        self.machine, self.today = machine, today
        self._stopping = threading.Event()
        self._child: subprocess.Popen[str] | None = None

    def stop(self) -> None:
        """End the worker and any child."""
        self._stopping.set()
        super().stop()
        if self._child is not None and self._child.poll() is None:
            self._child.terminate()

    # --- downloads ------------------------------------------------------------------------------

    def download(self, span: str) -> None:
        """Write a download in a child process; progress and the end come through the inbox."""
        threading.Thread(target=self._download, args=(span,), name="download", daemon=True).start()

    def _download(self, span: str) -> None:
        """Find where it goes. The room of downloads is loaded here, and not at each start."""
        from kiosk.export import Stick, find_stick

        to, why = Stick(self._download_to) if self._download_to else find_stick()
        if to is None:
            self._post(DownloadEnded(span, why))
        else:
            self._download_in_child(span, to)

    def _download_in_child(self, span: str, to: Path) -> None:
        words = ["download", "--record", str(self._record.path), "--to", str(to)]
        words += ["--span", span.replace("_", "-"), *([] if self._download_to else ["--stick"])]
        command = [sys.executable, "-m", "kiosk.cli.child", *words]
        self._child = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        ended = DownloadEnded(span, "failed")
        assert self._child.stdout is not None
        for line in self._child.stdout:
            given = _told(span, line)
            if isinstance(given, DownloadEnded):
                ended = given
            elif given is not None:
                self._post(given)
        self._child.wait()
        self._post(ended)

    # --- commands ---------------------------------------------------------------------------------

    def carry_out(self, request: dict[str, Any], kiosk: Kiosk) -> tuple[Input | None, Any]:
        """The input a command leads to, and what to answer once it is recorded."""
        office = Office(self._record, kiosk, self.machine, max(self.today(), kiosk.adults.day))
        done = office.carry_out(request)
        if done is not None:
            if done[0] is not None:
                self._post(Command({"do": "names_changed"}, _nobody_waits))
            return done
        match request:
            case {"do": "downloaded", "span": str(span), "first": int(first), "last": int(last)}:
                ended = DownloadEnded(span, "", first, last, str(request.get("head", "")))
                return ended, {"ok": True}
            case {"do": "erase", "what": str(what), "named": str(named)}:
                return self._erase(kiosk, what, named)
            case {"do": "roster", "groups": list(groups), "names": bool(names)}:
                return self._roster([group_from_plain(g) for g in groups], names)
            case {"do": "notes"}:
                return None, {"ok": True, "notes": [list(n) for n in self._record.known_notes()]}
            case {"do": "names_changed"}:
                self._names_changed()
                return None, {"ok": True}
            case {"do": "ping"}:
                return None, {"ok": True}
        return None, {"ok": False, "why": f"unknown command {request.get('do')!r}"}

    def _erase(self, kiosk: Kiosk, what: str, named: str) -> tuple[Input | None, Any]:
        found = to_erase(self._record, kiosk, what, named)
        if isinstance(found, NotPossible):
            return None, {"ok": False, "why": found.why}
        self._post(Command({"do": "names_changed"}, _nobody_waits))  # taken once it is written
        return EraseAsked(what, found, "asked"), {"ok": True}

    def _roster(self, groups: list[RosterGroup], names: bool) -> tuple[Input | None, Any]:
        """Take a roster in: kept apart at once, told to the record, shown once it is written."""
        told = take_in(self._record, groups, names, BY)
        self._post(Command({"do": "names_changed"}, _nobody_waits))
        return told, {"ok": True}

    def name_adult(self, name: str, role: str, kiosk: Kiosk) -> str:
        """Keep the name of a new adult; the reference, or nothing if it can't be."""
        adult = adult_to_issue(self._record.adults(), kiosk.adults, name, role)
        if isinstance(adult, NotPossible):
            return ""
        self._record.keep_adult(adult, self._record.pin_hash(adult.ref) or "")
        self._names_changed()
        return adult.ref

    # --- what was kept long enough ----------------------------------------------------------------

    def tidy(
        self, days: Mapping[str, int], roster: Iterable[str], after_s: float = LATER_S
    ) -> None:
        """In child processes: look through the whole record, then take away what was kept enough.

        It waits until the start is long over, and gives way to everything else. A record found
        damaged is only marked so; the next start sets it aside.
        """
        asked = json.dumps({"days": dict(days), "roster": list(roster)})
        threading.Thread(
            target=self._look_and_tidy, args=(asked, after_s), name="tidy", daemon=True
        ).start()

    def _look_and_tidy(self, asked: str, after_s: float) -> None:
        if self._stopping.wait(after_s):
            return
        said = self._quietly("look-through", "")
        if said.get("why") == "damaged":
            self._record.doubt(said["text"])
            sys.stderr.write(f"{said['text']}\n")
            return
        told = self._quietly("tidy", asked)
        for what, ref in told.get("erase", []):
            self._post(EraseAsked(what, ref, "retention"))
        if told.get("begin"):
            first, prev, base = told["begin"]
            purged = self._record.prepare(Begin(first, prev, bytes.fromhex(base)))
            self._post(PurgeReady(purged.first, purged.last, purged.head))

    def _quietly(self, name: str, asked: str) -> dict[str, Any]:
        """The one answer of a child that nobody waits for."""
        words = ["nice", "-n", "19", sys.executable, "-m", "kiosk.cli.child", name]
        words += ["--record", str(self._record.path)]
        done = subprocess.run(words, input=asked, capture_output=True, text=True, check=False)
        answer: dict[str, Any] = json.loads(done.stdout) if done.stdout.strip() else {}
        return answer


def _nobody_waits(_: dict[str, Any]) -> None:
    """The answer to a command that the kiosk gave itself."""


def _told(span: str, line: str) -> Input | None:
    """What one line of the child says."""
    try:
        said = json.loads(line)
    except ValueError:
        return None
    match said:
        case {"done": int(done), "whole": int(whole)}:
            return DownloadMoved(done, whole)
        case {"why": str(why)}:
            return DownloadEnded(span, why)
        case {"first": int(first), "last": int(last), "head": str(head)}:
            return DownloadEnded(span, "", first, last, head)
    return None
