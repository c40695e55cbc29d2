"""One download into the database: judged, placed, copied, all in one transaction.

The lines go in by COPY, each only after it was judged, and count only once the last one's hash is
the head that was named: else all of it is undone, and the download is set aside with the reason.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from hashlib import sha256
from itertools import islice
from typing import Any

from sqlalchemy import Connection, delete, insert, select, update
from sqlalchemy.dialects.postgresql import insert as upsert

from kiosk.store.collected import asking
from kiosk.store.collected.copying import COPY, copy_rows
from kiosk.store.collected.keeping import TELLING, keep_aside, obey
from kiosk.store.collected.lines import Judge, Refused
from kiosk.store.collected.standing import (
    Branch,
    Share,
    Side,
    Standing,
    Stretch,
    joined,
    name_of_fork,
    standing,
)
from kiosk.store.collected.tables import (
    branches,
    downloads,
    remarks,
    stretches,
)
from kiosk.store.collected.values import Download, Outcome, Remark, Row

TEXT_OF_FORK = {
    "changed": "line {at} is there in other words, of the same moment: one of the two was changed",
    "cloned": "two cards go on from line {at} under one record: one is a clone of the other",
    "put_back": "from line {at} it went another way before: the card was put back to an older copy",
    "fork": "from line {at} there are two histories; the clocks can't tell which was first",
}

Lines = Callable[[], Iterable[bytes]]
Progress = Callable[[int], None]


class Taking:
    """Takes downloads in over one connection. `site` is the school they are filed under."""

    def __init__(
        self, connection: Connection, site: str = "", progress: Progress = lambda lines: None
    ) -> None:
        self._connection, self._site, self._progress = connection, site, progress
        self._bodies: set[bytes] = set()

    def take(self, of: Download, lines: Lines) -> Outcome:
        """Take one download in, or set it aside; one transaction either way.

        `lines` gives its lines anew each time it is called, each with its line feed. Errors of
        the database come as its own; then nothing of the download was kept.
        """
        known = self._known(of)
        if known is not None:
            return known
        try:
            with self._connection.begin():
                asking.lock(self._connection, of.log)
                return self._taken(of, lines)
        except Refused as refused:
            with self._connection.begin():
                self._aside(of, lines, refused.remark)
            return Outcome(of, refused=refused.remark)

    def refuse(self, of: Download, why: str) -> Outcome:
        """Set a download aside whose list or files can't even be read."""
        remark = Remark("broken", of.log, of.first, of.last, why)
        with self._connection.begin():
            self._aside(of, tuple, remark)
        return Outcome(of, refused=remark)

    def _known(self, of: Download) -> Outcome | None:
        """What came of the very same download before; None if it is new."""
        with self._connection.begin():
            there = select(downloads.c.key).where(downloads.c.key == of.key)
            if self._connection.execute(there).first() is None:
                return None
            told = tuple(self._filed(of))
        self._progress(of.count)
        return Outcome(of, there=of.count, remarks=told)

    def _aside(self, of: Download, lines: Lines, remark: Remark) -> None:
        keep_aside(self._connection, of, lines, remark)
        self._progress(of.count)

    # --- one transaction --------------------------------------------------------------------------

    def _taken(self, of: Download, lines: Lines) -> Outcome:
        connection = self._connection
        known = asking.branches_of(connection, of.log)
        stands = standing(
            of, known, _Hashes(of, lines), lambda b, seq: asking.ours(connection, b, seq)
        )
        told = [*self._new_log(of)] if not known else [*self._filed(of), *self._put_back(of)]
        if stands.forks_at and stands.branch:
            told.append(self._fork(of, stands, stands.branch, lines))
        number = self._branch(of, stands)
        shares = [s._replace(number=s.number or number) for s in stands.shares]
        telling = self._copy(of, lines, shares)
        self._keep_stretches(shares, _ends(of, shares, lines))
        told.extend(obey(connection, of.log, telling))
        new = sum(s.last - s.first + 1 for s in shares)
        self._note(of, new, told)
        return Outcome(of, new, of.count - new, remarks=tuple(told))

    def _branch(self, of: Download, stands: Standing) -> int:
        """The number of the branch that the download belongs to, made if there is none yet."""
        if stands.branch is not None and not stands.forks_at:
            return stands.branch.number
        parent = stands.branch
        row = {
            "log": of.log,
            "parent": parent.number if parent else None,
            "begins": stands.forks_at or 1,
            "kept_from": parent.kept_from if parent else 1,
            "site": self._site,
            "machine": of.machine,
        }
        made = insert(branches).values(**row).returning(branches.c.number)
        return int(self._connection.execute(made).scalar_one())

    def _copy(self, of: Download, lines: Lines, shares: list[Share]) -> list[Row]:
        """Judge every line and copy those that are new; the ones that tell of more.

        They go to the server from a thread of the driver's, while the next are judged.
        """
        telling: list[Row] = []
        driver: Any = self._connection.connection.driver_connection
        cursor = driver.cursor()
        with cursor.copy(COPY) as copy:
            batches = self._watched(of, lines(), telling)
            copy_rows(copy.write, _placed(batches, shares))
        return telling

    def _watched(
        self, of: Download, lines: Iterable[bytes], telling: list[Row]
    ) -> Iterator[list[Row]]:
        """The judged rows, with progress told; those that tell of more are kept apart."""
        for batch in Judge(of, self._bodies).batches(lines):
            yield batch
            telling += [row for row in batch if row.kind in TELLING]
            self._progress(len(batch))

    def _keep_stretches(self, shares: list[Share], ends: dict[int, str]) -> None:
        """What is there now, in as few stretches as there can be."""
        for number in {share.number for share in shares}:
            asked = select(stretches).where(stretches.c.number == number)
            there = [Stretch(*row) for row in self._connection.execute(asked)]
            added = [
                Stretch(s.number, s.first, s.last, ends[s.first - 1], ends[s.last])
                for s in shares
                if s.number == number
            ]
            self._connection.execute(delete(stretches).where(stretches.c.number == number))
            rows = [stretch._asdict() for stretch in joined((*there, *added))]
            self._connection.execute(insert(stretches), rows)

    def _note(self, of: Download, new: int, told: list[Remark]) -> None:
        row = {
            "key": of.key,
            "log": of.log,
            "first": of.first,
            "last": of.last,
            "made_us": of.made_us,
            "quality": of.quality,
            "name": of.name,
            "new": new,
        }
        self._connection.execute(insert(downloads).values(**row))
        for remark in told:
            put = upsert(remarks).values(**remark._asdict()).on_conflict_do_nothing()
            self._connection.execute(put)

    # --- what is to be known ----------------------------------------------------------------------

    def _new_log(self, of: Download) -> Iterator[Remark]:
        """A drill that has a log already begins another: its card was made anew, or renewed."""
        others = asking.others_of(self._connection, of.log, self._site, of.machine)
        if others:
            before = ", ".join(other[:8] for other in others)
            text = f"{of.machine} had record {before} before: its card was made anew"
            yield Remark("made_anew", of.log, of.first, of.first, text)

    def _filed(self, of: Download) -> Iterator[Remark]:
        """File a log that has no school yet; one that has stays where it is, and that is said."""
        if not self._site:
            return
        own = branches.c.log == of.log
        self._connection.execute(
            update(branches).where(own, branches.c.site == "").values(site=self._site)
        )
        found = self._connection.execute(select(branches.c.site).where(own)).scalars()
        for site in sorted({*found} - {self._site}):
            text = f"is filed under {site} already, and stays there"
            yield Remark("other_school", of.log, of.first, of.last, text)

    def _put_back(self, of: Download) -> Iterator[Remark]:
        """A later download that ends earlier: the card was put back and has not gone on yet."""
        end = asking.later_end(self._connection, of)
        if end:
            text = f"ends at line {of.last}, an earlier download at {end}: the card was put back"
            yield Remark("put_back", of.log, of.last + 1, end, text)

    def _fork(self, of: Download, stands: Standing, branch: Branch, lines: Lines) -> Remark:
        """The name of a fork; raises Refused where a line was changed."""
        at = stands.forks_at
        last = min(of.last, at)
        theirs = asking.row_of(self._connection, branch, at if branch.holder(at) else branch.last)
        end = asking.row_of(self._connection, branch, branch.last)
        mine, last_row = _rows_at(of, lines, last, of.last)
        what = "fork"
        if theirs and end:
            machine = asking.site_and_machine(self._connection, branch.number)[1]
            what = name_of_fork(Side(mine, last_row, of.machine), Side(theirs, end, machine))
        remark = Remark(what, of.log, at, of.last, TEXT_OF_FORK[what].format(at=at))
        if what == "changed":
            raise Refused(remark)
        return remark


class _Hashes:
    """The hashes of a download's lines by number, looked up in its file one at a time."""

    def __init__(self, of: Download, lines: Lines) -> None:
        self._of, self._lines = of, lines
        self._known = {of.first - 1: of.prev, of.last: of.head}

    def __call__(self, seq: int) -> str:
        if seq not in self._known:
            line = next(islice(self._lines(), seq - self._of.first, None), b"\n")
            self._known[seq] = sha256(line[:-1]).hexdigest()
        return self._known[seq]


def _placed(batches: Iterable[list[Row]], shares: list[Share]) -> Iterator[tuple[int, list[Row]]]:
    """The rows that are new, each lot with the branch that it is new to."""
    for batch in batches:
        begins = batch[0].seq
        for share in shares:
            new = batch[max(share.first - begins, 0) : max(share.last + 1 - begins, 0)]
            if new:
                yield share.number, new


def _ends(of: Download, shares: list[Share], lines: Lines) -> dict[int, str]:
    """The hashes before and at the end of what is new."""
    hashes = _Hashes(of, lines)
    return {seq: hashes(seq) for s in shares for seq in (s.first - 1, s.last)}


def _rows_at(of: Download, lines: Lines, first: int, last: int) -> tuple[Row, Row]:
    """Two rows of a download, which must be sound."""
    found = {row.seq: row for row in Judge(of).rows(lines()) if row.seq in (first, last)}
    return found[first], found[last]
