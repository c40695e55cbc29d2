"""`pillarside sheet`: the printed sheets, from the same content as the screens."""

from __future__ import annotations

from pathlib import Path

import click
from rich.console import Console

from kiosk.cli.check import at_school, at_sequences
from kiosk.cli.options import default_record
from kiosk.cli.plan import machine_called, missing, refuse
from kiosk.cli.standing import Standing, asked_of, standing
from kiosk.core.model import Content, Machine
from kiosk.export.sheets import FOR_ONE_MACHINE, KINDS, PAPERS, NoSheet, page_of, pdf_of
from kiosk.export.whole import write_whole
from kiosk.store import RecordFault


@click.command("sheet")
@click.argument("kind", type=click.Choice(tuple(KINDS)))
@click.option("--machine", "machine_name", default="", help="A machine, such as drill-1.")
@click.option("--job", "job_name", default="", help='A job, such as "pen block"; for a card.')
@click.option("--paper", type=click.Choice(PAPERS), default="A4", show_default=True)
@click.option("--language", default="en", show_default=True, help="The language of the sheet.")
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path(),
    help="The folder to write into; this one if left out.",
)
@click.option(
    "--record",
    type=click.Path(exists=True, dir_okay=False, path_type=Path),
    metavar="FILE",
    help="A kiosk's record: what was made and set at its screen counts too. Without it, that of "
    "the kiosk of this user if there is one.",
)
@at_sequences
@at_school
def sheet_command(
    kind: str,
    machine_name: str,
    job_name: str,
    paper: str,
    language: str,
    to: Path,
    record: Path | None,
    sequences: Path,
    school: Path | None,
) -> None:
    """Make a printed sheet, as a page and as PDF."""
    try:
        here = standing(record or default_record(), sequences, school, language)
        _spoken(here, language)
        machine = _machine(here.content, kind, machine_name)
        _asks_for_job(here.content, kind, job_name)
        asked = asked_of(here, kind, machine, job_name, paper)
        page = page_of(kind, asked)
    except (NoSheet, RecordFault) as reason:
        refuse(str(reason))
    of = (machine.id if machine else "", asked.job.id if asked.job else "")
    parts = (kind, *of, paper if paper != PAPERS[0] else "")
    _write(to, "-".join(part for part in parts if part), page)


def _spoken(here: Standing, language: str) -> None:
    """A language that has no file would be printed in English without a word."""
    if language not in here.words.others:
        known = ", ".join(sorted(here.words.others))
        refuse(f"--language {language!r}: no such file of words; there are {known}")


def _machine(content: Content, kind: str, name: str) -> Machine | None:
    """The machine; none where the sheet is for all, the only one where there is one."""
    if kind not in FOR_ONE_MACHINE:
        return None
    if not name and len(content.machines) == 1:
        return content.machines[0]
    return machine_called(content, name)


def _asks_for_job(content: Content, kind: str, name: str) -> None:
    """A card is for one job, and no other sheet is."""
    if kind == "card" and not name:
        refuse(missing("--job", "the job", [job.id for job in content.jobs]))


def _write(to: Path, name: str, page: str) -> None:
    """Both files, whole or not at all; an older sheet of that name gives way."""
    console = Console(highlight=False, soft_wrap=True)
    made = {f"{name}.html": page.encode(), f"{name}.pdf": pdf_of(page)}
    try:
        for path in write_whole(to, made):
            console.print(str(path), markup=False)
    except OSError as error:
        refuse(f"--to {to}: {error.strerror}; name a folder that can be written")
