"""Training levels granted, and those that ended on their day or lapsed unused."""

from __future__ import annotations

from dataclasses import dataclass, field, replace

from kiosk.core.events import Entry, LevelGranted, LevelKept, LevelSet
from kiosk.core.kiosk.pupils import PLAIN, Grant, granted
from kiosk.core.report.tally import Tally

KINDS = (LevelGranted, LevelKept, LevelSet)
What = tuple[str, str, str]


@dataclass
class Levels:
    """Each pupil's grants as far as is known. One lapses after `lapses` days without a hole."""

    tally: Tally
    lapses: int
    grants: dict[str, dict[What, Grant]] = field(default_factory=dict)

    def take(self, entry: Entry) -> None:
        """Take in a grant; one that is renewed after it had gone is counted as gone."""
        grant = granted(entry.event, entry.at.day)
        if grant is None:
            return
        mine = self.grants.setdefault(grant.pupil, {})
        if grant.what in mine:
            self._gone(mine[grant.what], entry.at.day)
        mine[grant.what] = grant
        if isinstance(entry.event, LevelGranted | LevelSet):
            self._count("granted" if isinstance(entry.event, LevelGranted) else "listed", grant)

    def used(self, pupil: str, bit: str, day: int) -> None:
        """The pupil drilled a hole with that bit on that day: what still stands lasts longer."""
        mine = self.grants.get(pupil, {})
        bits = bit if any(what[2] == bit for what in mine) else PLAIN
        for what, grant in mine.items():
            if what[2] == bits and grant.used < day and not self._why_gone(grant, day):
                mine[what] = replace(grant, used=day)

    def end(self, day: int) -> None:
        """Count what has ended or lapsed up to that day."""
        for mine in self.grants.values():
            for grant in mine.values():
                self._gone(grant, day)

    def _gone(self, grant: Grant, day: int) -> None:
        why = self._why_gone(grant, day)
        if why:
            self._count(why, grant)

    def _why_gone(self, grant: Grant, day: int) -> str:
        if grant.until and day > grant.until:
            return "ended"
        return "lapsed" if day - grant.used > self.lapses else ""

    def _count(self, of: str, grant: Grant) -> None:
        self.tally.count(of, grant.level.word)
        self.tally.pupils["grants", grant.level.word].add(grant.pupil)
