"""`pillarside pack`: puts together what a stick brings in, and checks it before it leaves."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from importlib.metadata import version
from pathlib import Path

import click

from kiosk.cli.check import SEQUENCES
from kiosk.cli.looking import revoked_in, roster_in
from kiosk.cli.options import stick_to_write
from kiosk.clock import Clock
from kiosk.content import load
from kiosk.content.retention import load_retention
from kiosk.core.problems import Problem
from kiosk.export import DownloadFault, write_package
from kiosk.export.package import MOST_BYTES, MOST_FILES, REVOKED, SCHOOL, is_schools, may_be_in
from kiosk.people import is_workbook

FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)


@click.command("pack")
@click.option("--roster", type=FILE, help="The roster, with levels: a workbook or CSV file.")
@click.option("--revoked", type=FILE, help="Adults to be let in no more: one name a line.")
@click.option("--school", type=FOLDER, help="The school's own folder: jobs, machines and the rest.")
@click.option(
    "--to",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="The folder it goes into. Without it, the stick that is put in.",
)
def pack_command(
    roster: Path | None, revoked: Path | None, school: Path | None, to: Path | None
) -> None:
    """Put roster, revoked adults and the school's own folder on a stick, for the kiosks to take in.

    What is given is put in whole; what is not given stays at the kiosks as it is. With one mistake
    nothing is written.
    """
    if roster is None and revoked is None and school is None:
        raise click.UsageError("give one or more of --roster, --revoked, --school")
    files = _files(roster, revoked, school)
    _stop_at(_mistakes(files, school))
    try:
        software = f"pillarside {version('pillarside')}"
        where = to or stick_to_write()
        made = write_package(where, files, Clock().now(), software, mounted=to is None)
    except DownloadFault as fault:
        raise click.ClickException(str(fault)) from fault
    click.echo(f"Written and read back: {len(files)} files")
    click.echo(str(made))


def _mistakes(files: Mapping[str, bytes], school: Path | None) -> tuple[Problem, ...]:
    """Whatever would have it refused at any kiosk."""
    found = (*roster_in(files)[1], *revoked_in(files)[1])
    if school:
        found += load(SEQUENCES, school).problems + load_retention(SEQUENCES, school)[1]
    return found


def _stop_at(problems: Iterable[Problem]) -> None:
    lines = [str(problem) for problem in problems]
    for line in lines:
        click.echo(line, err=True)
    if lines:
        raise click.ClickException(f"mistakes: {len(lines)}; nothing was written")


def _files(roster: Path | None, revoked: Path | None, school: Path | None) -> dict[str, bytes]:
    """All files by their names in the package."""
    files: dict[str, bytes] = {}
    if roster:
        data = roster.read_bytes()
        files["roster.xlsx" if is_workbook(data) else "roster.csv"] = data
    if revoked:
        files[REVOKED] = revoked.read_bytes()
    for path in sorted(school.rglob("*.y*ml")) if school else ():
        name = f"{SCHOOL}/{path.relative_to(school).as_posix()}"
        if not may_be_in(name):
            allowed = "letters, digits, _ and - before .yaml, at most one folder deep"
            raise click.ClickException(f"{path}: a name that no kiosk takes; allowed: {allowed}")
        files[name] = path.read_bytes()
    if school and not any(map(is_schools, files)):
        raise click.ClickException(f"{school}: there is no .yaml file in it")
    if len(files) > MOST_FILES or sum(map(len, files.values())) > MOST_BYTES:
        raise click.ClickException(f"too much; allowed: {MOST_FILES} files, {MOST_BYTES} bytes")
    return files
