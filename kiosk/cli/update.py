"""`pillarside update`: a newer version from a stick, tried first; and back to the former one."""

from __future__ import annotations

import os
import sys
from importlib.metadata import version
from pathlib import Path

import click

from kiosk.cli.options import default_record, stick_to_read
from kiosk.content.settings import read_settings
from kiosk.installing.wanted import DATA, SETTINGS
from kiosk.updating.package import Fits, NoUpdate
from kiosk.updating.starting import running
from kiosk.updating.steps import At, update
from kiosk.updating.versions import Versions

RESTART = "Start the kiosk anew: sudo systemctl restart pillarside"


@click.command("update")
@click.option(
    "--from",
    "stick",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="DIR",
    help="The folder with the update. Without it, the stick that is put in.",
)
@click.option("--settings", type=click.Path(path_type=Path), help="The kiosk's settings' file.")
@click.option("--record", type=click.Path(dir_okay=False, path_type=Path), metavar="FILE")
@click.option("--back", is_flag=True, help="Go back to the version before; the record stays.")
def update_command(
    stick: Path | None, settings: Path | None, record: Path | None, back: bool
) -> None:
    """Put in a newer version from a stick, beside the one that runs.

    Every file is checked, the record is backed up, the new version is tried on a copy of it. If it
    then does not start twice, the former version starts again; it goes on with the record as it is.
    """
    at = _at(settings, record)
    _see_user(at.versions.folder)
    if Path(sys.prefix).parent == at.versions.folder:
        raise click.ClickException("run it from the tree of the version that was installed")
    try:
        if back:
            _back(at)
            return
        for line in update(stick or stick_to_read(), at, mounted=stick is None):
            click.echo(line)
    except (NoUpdate, OSError) as error:
        raise click.ClickException(str(error)) from error
    click.echo(RESTART)


def _at(settings: Path | None, record: Path | None) -> At:
    """The kiosk of this computer: by its settings' file if there is one."""
    file = settings or (Path(SETTINGS) if Path(SETTINGS).is_file() else None)
    settled, problems = read_settings(file) if file else ({}, ())
    if problems:
        raise click.ClickException("\n".join(str(problem) for problem in problems))
    path = record or settled.get("record") or default_record()
    started = running(Path(sys.prefix))
    beside = (
        Path(DATA) if file == Path(SETTINGS) else path.parent
    )  # as the system's own unit has it
    versions = started[0] if started else Versions(beside / "versions", Path(sys.prefix))
    return At(versions, path, file, version("pillarside"), Fits.here())


def _see_user(folder: Path) -> None:
    """Files of another user would keep the kiosk from starting."""
    place = next(one for one in (folder, *folder.parents) if one.exists())
    owner = place.stat().st_uid
    if owner != os.geteuid():
        from pwd import getpwuid

        name = getpwuid(owner).pw_name
        raise click.ClickException(f"{place} belongs to {name}; run it as: sudo -u {name} ...")


def _back(at: At) -> None:
    now = at.versions.chosen()
    if not now.version:
        raise NoUpdate(f"version {at.installed}, which was installed here, runs already")
    there = at.versions.back().version
    click.echo(f"Version {there.partition('-')[0] or at.installed} is started from now on.")
    click.echo("It goes on with the record as it is.")
    click.echo(RESTART)
