"""`pillarside sheet`: the printed sheets, from the same content as the screens."""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

import click
from rich.console import Console

from kiosk.cli.check import at_school, at_sequences
from kiosk.cli.plan import machine_called, refuse, unknown
from kiosk.content import load
from kiosk.core.model import Content, Job
from kiosk.export.sheets import (
    FOR_ONE_MACHINE,
    KINDS,
    PAPERS,
    Asked,
    NoSheet,
    page_of,
    pdf_of,
)
from kiosk.export.whole import write_whole


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
@at_sequences
@at_school
def sheet_command(
    kind: str,
    machine_name: str,
    job_name: str,
    paper: str,
    language: str,
    to: Path,
    sequences: Path,
    school: Path | None,
) -> None:
    """Make a printed sheet, as a page and as PDF."""
    loaded = load(sequences, school, language)
    content = loaded.content
    if content is None:
        refuse("; ".join(str(problem) for problem in loaded.problems[:1]))
    machine = _machine(content, kind, machine_name)
    job = _job(content, job_name) if kind == "card" else None
    seen = _seen(school, machine) if kind == "commissioning" else {}
    chosen = content.machine(machine) if machine else None
    asked = Asked(content, loaded.words, chosen, job, paper, seen)
    name = "-".join(part for part in (kind, machine, job.id if job else "") if part)
    _write(to, name, _page(kind, asked))


def _machine(content: Content, kind: str, name: str) -> str:
    """The machine's id; none where the sheet is for all, the only one where there is one."""
    if kind not in FOR_ONE_MACHINE:
        return ""
    if not name and len(content.machines) == 1:
        return content.machines[0].id
    return machine_called(content, name).id


def _job(content: Content, name: str) -> Job:
    found = [j for j in content.jobs if name.lower() in (j.id.lower(), j.name.lower())]
    if not found:
        unknown("--job", name, (job.id for job in content.jobs))
    return found[0]


def _seen(school: Path | None, machine: str) -> Mapping[str, Any]:
    """What `commission` kept of this machine; nothing where it has not been run."""
    path = (school or Path()) / "commissioning" / f"{machine}.json"
    if school is None or not path.is_file():
        return {}
    try:
        found = json.loads(path.read_text(encoding="utf-8"))
    except (OSError, ValueError) as error:
        refuse(f"{path}: {error}; run commission again")
    return found if isinstance(found, dict) else {}


def _page(kind: str, asked: Asked) -> str:
    try:
        return page_of(kind, asked)
    except NoSheet as reason:
        refuse(str(reason))


def _write(to: Path, name: str, page: str) -> None:
    """Both files, whole or not at all; an older sheet of that name gives way."""
    console = Console(highlight=False, soft_wrap=True)
    made = {f"{name}.html": page.encode(), f"{name}.pdf": pdf_of(page)}
    try:
        for path in write_whole(to, made):
            console.print(str(path), markup=False)
    except OSError as error:
        refuse(f"--to {to}: {error.strerror}; name a folder that can be written")
