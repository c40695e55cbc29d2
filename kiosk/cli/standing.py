"""Content as it stands at one kiosk: its files, what came by stick, what was set and made there.

A printed sheet is made from it, so that it says what the screens say.
"""

from __future__ import annotations

import json
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from itertools import count
from pathlib import Path
from typing import Any

from kiosk.content import load
from kiosk.core.kiosk import EMPTY, Kiosk, Shop, replay
from kiosk.core.kiosk.fitted import fitted
from kiosk.core.model import Content, Job, Machine, Roster
from kiosk.core.words import Words
from kiosk.export.sheets import FOR_ONE_MACHINE, PAPERS, Asked, NoSheet, page_of, pdf_of
from kiosk.export.sheets.carrying import put_on_stick
from kiosk.store import ReadOnlyRecord, school_of

STEPS = 4
"""Of a sheet for a stick: its page, its PDF, and each of the two written and read back."""

SET_THERE = ("job_made", "job_hole_added", "job_dropped", "datum_set")
"""Kinds of event that stand in place of files, or beside them."""


@dataclass(frozen=True)
class Standing:
    """What a sheet can be made from. `school` is the school's own folder, None where none is."""

    content: Content
    words: Words
    school: Path | None
    set_there: Kiosk = EMPTY

    def at(self, machine: Machine) -> Shop:
        """The workshop at one machine, with what was set and made at its screen."""
        return fitted(Shop(self.content, machine, Roster(), ""), self.set_there)

    def seen_at(self, machine: str) -> Mapping[str, Any]:
        """What `commission` kept of this machine; nothing where it has not been run."""
        path = (self.school or Path()) / "commissioning" / f"{machine}.json"
        if self.school is None or not path.is_file():
            return {}
        try:
            found = json.loads(path.read_text(encoding="utf-8"))
        except (OSError, ValueError) as error:
            raise NoSheet(f"{path}: {error}; run commission again") from error
        return found if isinstance(found, dict) else {}


def standing(record: Path | None, sequences: Path, school: Path | None, language: str) -> Standing:
    """How content stands at the kiosk whose record this is; the files alone without one.

    Raises NoSheet for mistakes in the files, RecordFault for a record that can't be read.
    """
    kept = EMPTY
    if record is not None and record.is_file():
        with ReadOnlyRecord(record) as opened:
            school = school_of(record, opened.taken_in()) or school
            kept = replay(opened.of_kinds(*SET_THERE), opened.begin.kiosk())
    loaded = load(sequences, school, language)
    if loaded.content is None:
        raise NoSheet("; ".join(str(problem) for problem in loaded.problems[:1]))
    return Standing(loaded.content, loaded.words, school, kept)


def asked_of(here: Standing, kind: str, machine: Machine | None, job: str, paper: str) -> Asked:
    """What a sheet of that kind is made from. Raises NoSheet where there is no such job."""
    if machine is None or kind not in FOR_ONE_MACHINE:
        return Asked(here.content, here.words, paper=paper)
    shop = here.at(machine)
    seen = here.seen_at(machine.id) if kind == "commissioning" else {}
    asked = Asked(shop.content, here.words, shop.machine, None, paper, seen)
    return replace(asked, job=_job(shop.content, job)) if kind == "card" else asked


@dataclass(frozen=True)
class Sheet:
    """A sheet as the screen asks for it: a kind, and with it a paper or a card's job."""

    record: Path
    sequences: Path
    school: Path | None
    machine: str
    language: str
    sheet: str

    def page(self) -> str:
        """The sheet's page. Raises NoSheet, RecordFault."""
        kind, _, more = self.sheet.partition(" ")
        here = standing(self.record, self.sequences, self.school, self.language)
        machine = here.content.machine(self.machine)
        paper = more if more in PAPERS else PAPERS[0]
        return page_of(kind, asked_of(here, kind, machine, more, paper))

    def to_stick(self, to: Path, say: Callable[..., None], is_stick: bool) -> Path:
        """Its page and its PDF on a stick; the folder there. Raises DownloadFault too."""
        steps = count(1)

        def moved() -> None:
            say(done=next(steps), whole=STEPS)

        page = self.page()
        moved()
        files = {f"{self.name}.html": page.encode(), f"{self.name}.pdf": pdf_of(page)}
        moved()
        return put_on_stick(to, files, moved, is_stick)

    @property
    def name(self) -> str:
        """What its files are called."""
        kind, _, more = self.sheet.partition(" ")
        machine = self.machine if kind in FOR_ONE_MACHINE else ""
        return "-".join(part for part in (kind, machine, more) if part)


def _job(content: Content, name: str) -> Job:
    found = [j for j in content.jobs if name.lower() in (j.id.lower(), j.name.lower())]
    if not found:
        known = ", ".join(job.id for job in content.jobs)
        raise NoSheet(f"no job is called {name!r}; there are {known}")
    return found[0]
