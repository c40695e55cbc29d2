"""`pillarside report`: what a record adds up to, as a page and a workbook."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import ExitStack, contextmanager
from datetime import datetime
from functools import partial
from importlib.metadata import version
from io import BytesIO
from pathlib import Path

import click
from rich.console import Console
from rich.progress import Progress

from kiosk.cli.asked import asked_span, one_source, span_options
from kiosk.cli.check import at_school, at_sequences
from kiosk.cli.collect import opened_database
from kiosk.cli.options import record_option
from kiosk.cli.plan import refuse
from kiosk.cli.reading import amiss_words, read_words
from kiosk.cli.sources import (
    NoSource,
    groups_of,
    of_collected,
    of_downloads,
    of_record,
    only,
    places,
    taken_of,
)
from kiosk.clock import Clock
from kiosk.content import load
from kiosk.core.model import Content
from kiosk.core.report import Known, Log, Report, report
from kiosk.export.report import Made, Told, report_page, story, told_by, write_report
from kiosk.export.sheets import pdf_of
from kiosk.export.whole import write_whole
from kiosk.store import ReadOnlyRecord, RecordFault

FLAGS = {
    "week": "The last 7 days by the kiosk's clock; of a record, unless another span is named.",
    "term": "The last 14 weeks.",
    "year": "The last 366 days.",
    "all": "Everything; of downloads and of --collected, unless another span is named.",
}


@click.command("report")
@click.argument("downloads", nargs=-1, type=click.Path(exists=True, path_type=Path))
@span_options(FLAGS)
@click.option("--drill", default="", help="Only this drill, such as drill-1.")
@click.option("--pdf", is_flag=True, help="The page as PDF too.")
@click.option(
    "--to",
    type=click.Path(file_okay=False, path_type=Path),
    default=Path(),
    help="The folder to write into; this one if left out.",
)
@click.option("--collected", default="", metavar="URL", help="A database of many drills instead.")
@click.option("--site", default="", help="With --collected: only this school's drills.")
@record_option
@at_sequences
@at_school
def report_command(
    downloads: tuple[Path, ...],
    drill: str,
    pdf: bool,
    to: Path,
    collected: str,
    site: str,
    record: Path,
    sequences: Path,
    school: Path | None,
) -> None:
    """Report on a kiosk's record, or on DOWNLOADS: folders of downloads, or folders of such.

    It writes a page (report.html) that opens and prints anywhere, and a workbook (report.xlsx).
    Of several records each has its own span, up to its last event.
    """
    one_source(bool(downloads), collected, site)
    content, told = _told(sequences, school)
    chosen = asked_span() or ("all" if downloads or collected else "week")
    with ExitStack() as stack:
        is_own = not (downloads or collected)
        opened = stack.enter_context(_opened(record)) if is_own else None
        many = stack.enter_context(opened_database(collected)) if collected else None
        move = stack.enter_context(_bar())
        if many:
            logs = partial(of_collected, many, chosen, site, move)
        elif opened:
            logs = partial(of_record, opened, chosen, move)
        else:
            logs = partial(of_downloads, downloads, chosen, move)
        where = "the collected database" if many else str(record) if opened else places(downloads)
        found = _report(logs, drill, where, content)
        names = told(groups_of(opened))
    _say(found, names, len(taken_of(downloads, {log.log for log in found.drills})))
    _write(
        to, found, names, Made(chosen, f"pillarside {version('pillarside')}", Clock().now()), pdf
    )


def _told(sequences: Path, school: Path | None) -> tuple[Content, Callable[[dict[str, str]], Told]]:
    loaded = load(sequences, school)
    content = loaded.content
    if content is None:
        refuse("; ".join(str(problem) for problem in loaded.problems[:1]))
    return content, partial(told_by, content, loaded.words)


@contextmanager
def _opened(record: Path) -> Iterator[ReadOnlyRecord]:
    try:
        with ReadOnlyRecord(record) as opened:
            yield opened
    except FileNotFoundError as error:
        advice = "name the kiosk's record with --record FILE, or folders of downloads"
        raise click.ClickException(f"{error}; {advice}") from error
    except RecordFault as fault:
        raise click.ClickException(str(fault)) from fault


@contextmanager
def _bar() -> Iterator[Callable[[int, int], None]]:
    """A progress bar, where somebody looks on."""
    console = Console(stderr=True)
    with Progress(console=console, transient=True, disable=not console.is_terminal) as bar:
        task = bar.add_task("events", total=None)
        yield lambda done, whole: bar.update(task, completed=done, total=whole)


def _report(
    logs: Callable[[], tuple[Log, ...]], drill: str, where: str, content: Content
) -> Report:
    try:
        return report(only(logs(), drill, where), _known(content))
    except NoSource as reason:
        refuse(str(reason))


def _known(content: Content) -> Known:
    return Known(_local_day, content.people.lapses, partial(_bit_of, content))


def _local_day(wall_us: int) -> str:
    """The day of a wall clock where this computer is; empty if no calendar has it."""
    try:
        return datetime.fromtimestamp(wall_us / 1_000_000).astimezone().strftime("%Y-%m-%d")
    except (ValueError, OverflowError, OSError):
        return ""


def _bit_of(content: Content, job: str, hole: int) -> str:
    """The bit of a job's hole as the content has it today; empty if it has none."""
    found = content.job(job)
    holes = found.holes if found else ()
    return holes[hole].bit if 0 <= hole < len(holes) else ""


def _say(found: Report, told: Told, downloads: int) -> None:
    """What was read, and on the other stream what is amiss with it."""
    click.echo(read_words(found, downloads))
    for text in amiss_words(found, told):
        click.echo(text, err=True)


def _write(to: Path, found: Report, told: Told, made: Made, pdf: bool) -> None:
    """All files, whole or not at all; older ones of that name give way."""
    console = Console(highlight=False, soft_wrap=True)
    page = report_page(found, told, made)
    book = BytesIO()
    write_report(book, story(found, told))
    files = {"report.html": page.encode() + b"\n", "report.xlsx": book.getvalue()}
    if pdf:
        files["report.pdf"] = pdf_of(page)
    try:
        for path in write_whole(to, files):
            console.print(str(path), markup=False)
    except OSError as error:
        refuse(f"--to {to}: {error.strerror}; name a folder that can be written")
