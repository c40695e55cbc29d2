"""Slow work: PINs in a worker thread, downloads in a child process, commands from outside."""

from __future__ import annotations

import json
import subprocess
import sys
import threading
from collections.abc import Callable, Iterable, Mapping
from contextlib import suppress
from typing import Any

from kiosk.core.inputs import DownloadEnded, EraseAsked, Input, PackageIn, PurgeReady
from kiosk.core.kiosk import Kiosk, Looked
from kiosk.people import (
    BY,
    NotPossible,
    Office,
    RosterGroup,
    about_levels,
    adult_to_issue,
    group_from_plain,
    package_in,
    take_in,
    to_erase,
)
from kiosk.runtime.doorkeeper import Doorkeeper
from kiosk.runtime.inbox import Command
from kiosk.runtime.sticks import Sticks
from kiosk.store import Begin, Record, RecordFault, copies

Post = Callable[[Input | Command], None]
LATER_S = 30.0


class Runners(Doorkeeper):
    """Runs errands for the loop; every result is posted to its inbox."""

    def __init__(
        self,
        record: Record,
        pepper: bytes,
        post: Post,
        sticks: Sticks,
        names_changed: Callable[[], None],
        machine: str = "",
        today: Callable[[], int] = lambda: 0,
        looked: Callable[[tuple[Looked, ...]], None] = lambda found: None,
    ) -> None:
        super().__init__(record, pepper, post)
        self._looked = looked
        self._sticks, self._names_changed = sticks, names_changed
        self.machine, self.today = machine, today
        self._stopping = threading.Event()
        self.anew = threading.Event()

    def stop(self) -> None:
        """End the worker and any child."""
        self._stopping.set()
        super().stop()
        self._sticks.stop()

    def restart(self) -> None:
        """A technician asked for it: whoever runs the kiosk ends it and starts it anew."""
        self.anew.set()

    # --- at a stick -------------------------------------------------------------------------------

    def download(self, span: str) -> None:
        """Write a download; progress and the end come through the inbox."""
        self._sticks.download(span)

    def look_at_stick(self) -> None:
        """Read what the stick would bring in; the answer comes as `PackageRead`."""
        self._sticks.look()

    def take_package(self, package: str, by: str) -> None:
        """Take in what was looked at, as a command would; it comes through the inbox."""
        request = self._sticks.looked.get(package, {"package": package, "made_us": 0})
        self._post(Command({**request, "do": "take_in", "by": by}, _nobody_waits))

    def read_sheet(self, sheet: str) -> None:
        """Make a printed sheet to be read; the answer comes as `SheetRead`."""
        self._sticks.read_sheet(sheet)

    def write_sheet(self, sheet: str) -> None:
        """Put a printed sheet on the stick; progress and the end come through the inbox."""
        self._sticks.write_sheet(sheet)

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
            case {"do": "levels_out" | "levels_in"}:
                return about_levels(self._record.groups(), kiosk, request)
            case {"do": "take_in", "package": str(), "made_us": int()}:
                return self._take_in(kiosk, request)
            case {"do": "notes"}:
                return None, {"ok": True, "notes": [list(n) for n in self._record.known_notes()]}
            case {"do": "names_changed"}:
                self._names_changed()
                return None, {"ok": True}
            case {"do": "computer", "found": list(found)}:
                self._looked(tuple(Looked(*one) for one in found))
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

    def _take_in(self, kiosk: Kiosk, request: dict[str, Any]) -> tuple[Input, Any]:
        """All of a package, or nothing; refused where its copy on the card is not whole."""
        package, by = request["package"], str(request.get("by", BY))
        parts = request.get("parts", ())
        wrong = "" if parts else "the stick was not read"
        if "school" in parts:
            from kiosk.export import amiss  # loaded here, and not at each start

            wrong = amiss(copies(self._record.path) / package)
        if wrong:
            return PackageIn(by, package, request["made_us"], why="card"), _no(wrong)
        try:
            told, answer = package_in(self._record, kiosk, request, by)
        except RecordFault as fault:
            return PackageIn(by, package, request["made_us"], why="card"), _no(str(fault))
        self._post(Command({"do": "names_changed"}, _nobody_waits))
        return told, answer

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
        """In child processes: look at the computer and through the record, take away what is old.

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
        found = self._quietly("selftest", "", "--port", self._sticks.port).get("found", [])
        self._post(Command({"do": "computer", "found": found}, _nobody_waits))
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
        self._clear_copies()

    def _clear_copies(self) -> None:
        """Take away copies of packages that nothing goes by."""
        from kiosk.export import clear_copies

        with suppress(RecordFault):  # there is a next start
            taken = {one.package for one in self._record.taken_in()}
            clear_copies(copies(self._record.path), taken | self._sticks.looked.keys())

    def _quietly(self, name: str, asked: str, *more: str) -> dict[str, Any]:
        """The one answer of a child that nobody waits for."""
        words = ["nice", "-n", "19", sys.executable, "-m", "kiosk.cli.child", name]
        words += ["--record", str(self._record.path), *more]
        done = subprocess.run(words, input=asked, capture_output=True, text=True, check=False)
        answer: dict[str, Any] = json.loads(done.stdout) if done.stdout.strip() else {}
        return answer


def _no(why: str) -> dict[str, Any]:
    return {"ok": False, "why": why}


def _nobody_waits(_: dict[str, Any]) -> None:
    """The answer to a command that the kiosk gave itself."""
