"""`pillarside collect`: downloads of many drills into one database."""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from itertools import chain
from pathlib import Path
from typing import TYPE_CHECKING

import click
from rich.console import Console
from rich.progress import Progress

from kiosk.cli.counting import counted
from kiosk.cli.gathered import Gathered, gathered, incomplete
from kiosk.cli.plan import refuse
from kiosk.export import manifest

if TYPE_CHECKING:
    from kiosk.store.collected import Collected, Database, Outcome

NOWHERE = "nothing to collect: name folders of downloads, or --fed for what kiosks sent in"
ANEW = "; take it at the kiosk again"
LONGER = "; take a longer span at that kiosk, as --term"
ADDRESS = "postgresql+psycopg://NAME@HOST/DATABASE, with libpq's options such as ?sslmode="


@click.command("collect")
@click.argument("folders", nargs=-1, type=click.Path(exists=True, path_type=Path))
@click.option("--into", required=True, metavar="URL", help=ADDRESS)
@click.option("--fed", is_flag=True, help="Take in what kiosks have sent by themselves, too.")
@click.option("--site", default="", help="The school that new drills are filed under.")
def collect_command(folders: tuple[Path, ...], into: str, site: str, fed: bool) -> None:
    """Take downloads into a database: FOLDERS are downloads, or folders of such.

    The same again adds nothing. Each download goes in whole, or is set aside with the reason; gaps,
    forks, cards put back, cloned or made anew are named. Ends with 1 if one was set aside or is not
    whole.
    """
    if not folders and not fed:
        refuse(NOWHERE)
    found, passed = gathered(folders), incomplete(folders)
    for folder in passed:
        click.echo(f"passed over: {folder}: no {manifest.NAME} in it, so no whole download{ANEW}")
    if folders and not found:
        refuse(f"{folders[0]}: no download in there; name a folder with a {manifest.NAME}")
    sys.exit(1 if _collect(_database(into), found, site, fed) or passed else 0)


def _database(into: str) -> Database:
    """The database, with its tables brought up; ends the command if it can't be had."""
    from kiosk.store.collected import CollectFault, Database

    try:
        database = Database(into)
        database.bring_up()
    except CollectFault as fault:
        refuse(str(fault))
    return database


@contextmanager
def opened_database(address: str) -> Iterator[Collected]:
    """A collected database to read; ends the command with plain words if that can't be."""
    from kiosk.store.collected import Collected, CollectFault, Database

    try:
        with Database(address).session() as connection:
            yield Collected(connection)
    except CollectFault as fault:
        refuse(str(fault))


def _collect(database: Database, found: list[Gathered], site: str, fed: bool) -> int:
    """Take all in and say what came of it; how many were set aside."""
    from kiosk.cli.side_by_side import taken
    from kiosk.store.collected import Collected, CollectFault, Taking, take_fed

    console, counts = Console(highlight=False, soft_wrap=True), Counter[str]()
    try:
        with _bar(found) as move, database.session() as connection:
            sent = take_fed(connection, Taking(connection, site, move)) if fed else ()
            for outcome in chain(taken(database, found, site, move), sent):
                _tell(console, outcome)
                counts["set aside" if outcome.refused else "taken in"] += 1
                counts["new"] += outcome.new
                counts["there"] += outcome.there
            _tell_gaps(console, Collected(connection))
    except CollectFault as fault:
        _sum_up(console, counts)
        refuse(str(fault))
    _sum_up(console, counts)
    return counts["set aside"]


def _tell(console: Console, outcome: Outcome) -> None:
    """Say what is to be known of one download, a line each."""
    if outcome.refused:
        what = outcome.refused.what.replace("_", " ")
        text = f"set aside: {outcome.download.name}: {what}: {outcome.refused.text}{ANEW}"
        console.print(text, markup=False)
    for remark in outcome.remarks:
        what, of = remark.what.replace("_", " "), _of(remark.log, outcome.download.machine)
        console.print(f"{what}: {of}: {remark.text}", markup=False)


def _tell_gaps(console: Console, collected: Collected) -> None:
    machines = {one.log: one.machine for one in collected.logs()}
    for gap in collected.gaps():
        of = _of(gap.log, machines.get(gap.log, ""))
        console.print(f"gap: {of}: {gap.text}{LONGER}", markup=False)


def _of(log: str, machine: str) -> str:
    """A record by its beginning, and whose it is."""
    return f"record {log[:8]}" + (f" of {machine}" if machine else "")


def _sum_up(console: Console, counts: Counter[str]) -> None:
    downloads, lines = counted(counts["taken in"], "download"), counted(counts["new"], "line")
    console.print(
        f"{downloads} taken in, {counts['set aside']} set aside; "
        f"{lines} new, {counts['there']} there already or kept long enough"
    )


@contextmanager
def _bar(found: list[Gathered]) -> Iterator[Callable[[int], None]]:
    """A progress bar over all lines, where somebody looks on."""
    console = Console(stderr=True)
    whole = sum(max(0, one.of.count) for one in found)
    with Progress(console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task("lines", total=whole)
        yield lambda lines: bar.advance(task, lines)
