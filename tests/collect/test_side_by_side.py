"""Downloads taken in by several processes: the same as by one, and a fault of any is told."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest
from click.testing import CliRunner

from kiosk.cli import group, side_by_side
from kiosk.cli.gathered import gathered
from kiosk.store.collected import CollectFault, Database
from tests.collect.drills import Card
from tests.collect.many import kiosk, plant, weeks
from tests.collect.server import Server
from tests.collect.test_many_kiosks import asked

pytestmark = pytest.mark.collect


@pytest.fixture
def several(monkeypatch: pytest.MonkeyPatch) -> None:
    """Two processes, however few the lines and the cores."""
    monkeypatch.setattr(side_by_side, "WORTH", 100)
    monkeypatch.setattr(side_by_side.os, "cpu_count", lambda: 2)


def test_what_may_bear_on_each_other_stays_together_and_in_order(tmp_path: Path) -> None:
    first, anew = Card(log="a" * 32, machine="drill 1"), Card(log="c" * 32, machine="drill 1")
    other = Card(log="b" * 32, machine="drill 2")
    for turn, card in enumerate((first, other, anew)):
        card.used(20).taken(tmp_path / str(turn), 1, 10)
        card.taken(tmp_path / f"{turn} later", 11, 20)

    lots = side_by_side.lots_of(gathered([tmp_path]))

    said = [[(one.of.log[0], one.of.first) for one in lot] for lot in lots]
    assert sorted(said) == [[("a", 1), ("a", 11), ("c", 1), ("c", 11)], [("b", 1), ("b", 11)]]


def test_several_processes_name_and_take_in_what_one_does(
    server: Server, several: None, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    planted, both = plant(tmp_path, 12, 300), server.database()
    words = ["collect", str(tmp_path), "--into"]

    by_two = CliRunner().invoke(group, [*words, both])
    again = CliRunner().invoke(group, [*words, both])
    monkeypatch.setattr(side_by_side, "WORTH", 10**9)
    by_one = CliRunner().invoke(group, [*words, server.database()])

    assert sorted(by_two.output.splitlines()) == sorted(by_one.output.splitlines())
    assert " 0 lines new" in again.output
    assert asked(both) == (planted.lines, planted.lines, 0, 0)


def test_progress_of_all_processes_is_told_and_adds_up(
    server: Server, several: None, tmp_path: Path
) -> None:
    for number in range(4):
        weeks(tmp_path, kiosk(number), 300)
    database, moves = Database(server.database()), list[int]()
    database.bring_up()

    outcomes = list(side_by_side.taken(database, gathered([tmp_path]), "", moves.append))

    assert sum(moves) == sum(outcome.new for outcome in outcomes) == 1200


def test_a_server_killed_under_several_processes_is_told_and_the_rest_goes_in_after(
    victim: Server,
    several: None,
    tmp_path: Path,
    full: bool,
    sum_up: Callable[[str], None],
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    kills = 10 if full else 1
    planted = plant(tmp_path, 8, 10_000)
    monkeypatch.setattr(side_by_side, "LOOK_S", 0.005)
    found, said = gathered([tmp_path]), set[str]()

    for number in range(kills):
        database = Database(victim.database())
        database.bring_up()
        at = [planted.lines * (number + 1) // (2 * kills + 2)]
        move = killing(victim.stop, at)
        try:
            done = list(side_by_side.taken(database, found, "", move))
        except CollectFault as fault:
            said.add(fault.why)
        assert not at, f"{len(done)} were in before it was killed"
        victim.start()
        list(side_by_side.taken(database, found, "", int))

        address = database.url.render_as_string(hide_password=False)
        assert asked(address) == (planted.lines, planted.lines, 0, 0)

    assert said == {"away"}
    sum_up(f"collect: the server killed {kills} times under several processes; nothing lost")


def killing(kill: Callable[[], None], at: list[int]) -> Callable[[int], None]:
    """Progress that kills the server once so many lines are told of; `at` is empty then."""
    told = [0]

    def move(lines: int) -> None:
        told[0] += lines
        if at and told[0] >= at[0]:
            at.clear()
            kill()

    return move
