"""`pillarside verify`: proves that a download is whole, unchanged and carries on the last one."""

from __future__ import annotations

import sys
from pathlib import Path

import click

from kiosk.export import verify


@click.command("verify")
@click.argument("folder", type=click.Path(path_type=Path), metavar="DIR")
@click.option(
    "--previous",
    type=click.Path(path_type=Path),
    metavar="DIR",
    help="The download before this one: this one must carry it on.",
)
def verify_command(folder: Path, previous: Path | None) -> None:
    """Prove that the download in DIR is whole and that nothing in it was changed."""
    verdict = verify(folder, previous)
    for problem in verdict.problems:
        click.echo(str(problem), err=True)
    if verdict.problems:
        sys.exit(1)
    carried = f", carries on {previous.name}" if previous else ""
    click.echo(f"{folder}: {verdict}{carried}")
