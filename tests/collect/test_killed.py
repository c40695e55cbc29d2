"""The server killed at any moment of a collection and of the feed: nothing lost, nothing twice."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from functools import partial
from pathlib import Path
from random import Random

import pytest

from kiosk.cli.gathered import Gathered, gathered
from kiosk.core.events import StepDone
from kiosk.store import ReadOnlyRecord, Record
from kiosk.store.collected import Collected, CollectFault, Database, Feed, Taking, feeding, take_fed
from tests.collect.many import plant
from tests.collect.server import Server
from tests.collect.test_many_kiosks import asked
from tests.recording import Playing

pytestmark = [pytest.mark.collect, pytest.mark.timeout(3600)]

SEED = 20_261_128


def dying(one: Gathered, at: int, kill: Callable[[], None]) -> Iterator[bytes]:
    """A download's lines, with the server killed before one of them."""
    for number, line in enumerate(one.lines()):
        if number == at:
            kill()
        yield line


def take(
    into: str,
    found: list[Gathered],
    doomed: int = -1,
    at: int = -1,
    kill: Callable[[], None] = bool,
) -> None:
    """Take all in; the server is killed before line `at` of download `doomed`."""
    with Database(into).session() as connection:
        taking = Taking(connection)
        for number, one in enumerate(found):
            place = at if number == doomed else -1
            if place > one.of.count:
                kill()
            lines = one.lines if place < 0 else partial(dying, one, place, kill)
            taking.refuse(one.of, one.wrong) if one.wrong else taking.take(one.of, lines)


def test_a_collection_goes_on_where_the_server_was_killed(
    victim: Server, tmp_path: Path, full: bool, sum_up: Callable[[str], None]
) -> None:
    random, kills = Random(SEED), 25 if full else 2
    planted = plant(tmp_path, 8, 800)
    into = victim.database()
    Database(into).bring_up()
    found, done, said = gathered([tmp_path]), 0, set[str]()

    while done < kills:
        doomed, at = random.randrange(len(found)), random.choice((0, 1, random.randrange(210), 999))
        try:
            take(into, found, doomed, at, victim.stop)
        except CollectFault as fault:
            said.add(fault.why)
            done += 1
            victim.start()
        else:
            into = victim.database()  # all of it was in: begin again with nothing
            Database(into).bring_up()

    take(into, found)
    assert said == {"away"}
    assert asked(into) == (planted.lines, planted.lines, 0, 0)
    sum_up(f"collect: the server killed {done} times in a collection; nothing lost, nothing twice")


def test_the_feed_goes_on_where_the_server_was_killed(
    victim: Server,
    tmp_path: Path,
    full: bool,
    sum_up: Callable[[str], None],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    random, kills = Random(SEED), 25 if full else 2
    record = Record.open(tmp_path / "record.sqlite")
    playing, into = Playing(record), victim.database()
    Database(into).bring_up()
    monkeypatch.setattr(feeding, "BATCH", 5)
    feed, done, said = Dying(record.path, Database(into)), 0, set[str]()

    while done < kills:
        playing.happens(*(StepDone(f"step{n}", "pupil") for n in range(40)))
        feed.before, feed.after = (random.randrange(8), 99)[:: random.choice((1, -1))]
        feed.kill = victim.stop
        try:
            feed.send()
        except CollectFault as fault:
            said.add(fault.why)
        victim.start()
        done += 1

    Feed(record.path, Database(into)).send()
    with Database(into).session() as connection:
        outcomes = list(take_fed(connection, Taking(connection)))
        collected = Collected(connection)
        lines = [line for log in collected.logs() for line in collected.lines(log)]
    record.close()
    with ReadOnlyRecord(record.path) as read:
        recorded = [line.bytes for line in read.lines(1, read.head[0])]
    assert said == {"away"}
    assert lines == recorded
    assert not [one for one in outcomes if one.refused]
    sum_up(f"collect: the server killed {done} times under the feed; nothing lost, nothing twice")


class Dying(Feed):
    """A feed whose server is killed before or after the place of one batch is kept."""

    before, after = 99, 99
    kill: Callable[[], None] = staticmethod(lambda: None)

    def _keep(self, log: str, seq: int) -> None:
        if self.before == 0:
            self.kill()
            raise CollectFault("away", "killed before its place was kept")
        super()._keep(log, seq)
        if self.after == 0:
            self.kill()
        self.before, self.after = self.before - 1, self.after - 1
