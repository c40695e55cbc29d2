"""`pillarside pack-update`: puts this version on a stick, for kiosks to be updated from."""

from __future__ import annotations

import re
from pathlib import Path
from tempfile import TemporaryDirectory

import click

from kiosk.cli.options import stick_to_write
from kiosk.clock import Clock
from kiosk.export import DownloadFault
from kiosk.updating.package import Fits, NoUpdate, write_update
from kiosk.updating.packing import PROCESSORS, gathered, own_wheel, version_of

TREE = Path(__file__).resolve().parents[2]
HERE = Fits.here()


@click.command("pack-update")
@click.option(
    "--python", default=HERE.python, show_default=True, help="The kiosk's Python, as 3.11."
)
@click.option(
    "--processor", default=HERE.processor, show_default=True, help="What `uname -m` says there."
)
@click.option(
    "--wheels",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="DIR",
    help="A folder with the libraries' wheels. Without it pip gets them.",
)
@click.option(
    "--to",
    type=click.Path(exists=True, file_okay=False, path_type=Path),
    metavar="DIR",
    help="The folder it goes into. Without it, the stick that is put in.",
)
def pack_update_command(python: str, processor: str, wheels: Path | None, to: Path | None) -> None:
    """Put this version and the libraries it needs on a stick, with the hash of each file.

    They are for one version of Python and one processor: those of the kiosk, not of this computer.
    Run it in the program's own tree.
    """
    fits = Fits(_python(python), _processor(processor))
    if not (TREE / "pyproject.toml").is_file():
        raise click.ClickException("this is no tree of the program; run it where it was set up")
    where = to or stick_to_write()
    try:
        with TemporaryDirectory(prefix="pillarside-") as name:
            own = own_wheel(TREE, Path(name))
            found = gathered(TREE, own, fits, wheels, Path(name))
            made = write_update(where, version_of(own), fits, found, Clock().now())
    except (NoUpdate, DownloadFault) as error:
        raise click.ClickException(str(error)) from error
    click.echo(f"Written and read back: {len(found)} files")
    click.echo(str(made))


def _python(text: str) -> str:
    if not re.fullmatch(r"3\.\d{1,2}", text):
        raise click.BadParameter(f"{text!r}; allowed: such as 3.11", param_hint="--python")
    return text


def _processor(word: str) -> str:
    known = sorted({*PROCESSORS, HERE.processor})
    if word not in known:
        raise click.BadParameter(f"{word!r}; allowed: {', '.join(known)}", param_hint="--processor")
    return word
