"""What was collected, for reports: each log's lines as they came, and what is missing of it."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import NamedTuple

from sqlalchemy import Connection, select

from kiosk.store.collected import asking
from kiosk.store.collected.standing import gaps
from kiosk.store.collected.tables import aside, branches, events, remarks, stretches
from kiosk.store.collected.values import Remark
from kiosk.store.reading import first_within

PAGE = 4000


class CollectedLog(NamedTuple):
    """One drill's log: `count` lines are there, those of every branch counted."""

    log: str
    site: str
    machine: str
    numbers: tuple[int, ...]
    count: int


@dataclass(frozen=True)
class Collected:
    """The collected database read over one connection."""

    connection: Connection

    def logs(self) -> tuple[CollectedLog, ...]:
        """All logs, by site and machine."""
        counts: dict[int, int] = {}
        for row in self.connection.execute(select(stretches)):
            counts[row.number] = counts.get(row.number, 0) + row.last - row.first + 1
        found: dict[str, CollectedLog] = {}
        for row in self.connection.execute(select(branches).order_by(branches.c.number)):
            known = found.get(row.log) or CollectedLog(row.log, row.site, row.machine, (), 0)
            numbers = (*known.numbers, row.number)
            count = known.count + counts.get(row.number, 0)
            found[row.log] = known._replace(numbers=numbers, count=count)
        return tuple(sorted(found.values(), key=lambda one: (one.site, one.machine, one.log)))

    def lines(self, of: CollectedLog, span_us: int = 0) -> Iterator[bytes]:
        """The lines of a log without line ends, a page at a time; each branch after its parent.

        With a span, of each branch only the shortest stretch that holds its last `span_us`.
        """
        for number in of.numbers:
            first = first_within(self._backwards(number), span_us) if span_us else 1
            yield from self._lines(number, first)

    def _backwards(self, number: int) -> Iterator[tuple[int, int, int]]:
        """Number, wall clock and its quality of each line of a branch, the last first."""
        asked = (
            select(events.c.seq, events.c.wall_us, events.c.quality)
            .where(events.c.number == number)
            .order_by(events.c.seq.desc())
        )
        yield from ((row.seq, row.wall_us, row.quality) for row in self.connection.execute(asked))

    def _lines(self, number: int, first: int) -> Iterator[bytes]:
        seq = first - 1
        while True:
            asked = (
                select(events.c.seq, events.c.bytes)
                .where(events.c.number == number, events.c.seq > seq)
                .order_by(events.c.seq)
                .limit(PAGE)
            )
            page = self.connection.execute(asked).all()
            if not page:
                return
            yield from (bytes(row.bytes) for row in page)
            seq = page[-1].seq

    def gaps(self) -> tuple[Remark, ...]:
        """Lines that were never collected, log by log."""
        told = []
        for log in self.logs():
            for branch in asking.branches_of(self.connection, log.log):
                for first, last in gaps(branch):
                    text = f"lines {first} to {last} were never collected"
                    told.append(Remark("gap", log.log, first, last, text))
        return tuple(dict.fromkeys(told))

    def remarks(self) -> tuple[Remark, ...]:
        """All that was remarked when it was collected."""
        asked = select(
            remarks.c.what, remarks.c.log, remarks.c.first, remarks.c.last, remarks.c.text
        ).order_by(remarks.c.log, remarks.c.first)
        return tuple(Remark(*row) for row in self.connection.execute(asked))

    def aside(self) -> tuple[Remark, ...]:
        """What was set aside, with the reason."""
        asked = select(aside.c.what, aside.c.log, aside.c.seq, aside.c.seq, aside.c.text)
        return tuple(Remark(*row) for row in self.connection.execute(asked.order_by(aside.c.at)))
