"""The app's main: joins the runtime and the touch screen, and the command `pillarside`."""

from __future__ import annotations

import gc
import os
import re
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import ExitStack
from dataclasses import dataclass
from functools import partial
from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kiosk.cli import group
from kiosk.cli.places import downloads, port
from kiosk.runtime.ending import Ending
from kiosk.runtime.settings import Settings
from kiosk.runtime.watchdog import Watchdog
from kiosk.screens.start import NoScreen
from kiosk.screens.theme import LARGE
from kiosk.updating.starting import start_anew
from kiosk.updating.trial import Trial

if TYPE_CHECKING:
    from kivy.uix.widget import Widget

    from kiosk.core.model import ContactPair
    from kiosk.core.problems import Problem
    from kiosk.core.view import View
    from kiosk.core.words import Words
    from kiosk.runtime.shown import ShownLog
    from kiosk.runtime.start import Running
    from kiosk.screens.face import Face
    from kiosk.screens.labels import Labels
    from kiosk.screens.source import Source

FOLDER = click.Path(exists=True, file_okay=False, path_type=Path)
FILE = click.Path(exists=True, dir_okay=False, path_type=Path)
PLACE = click.Path(path_type=Path)
PANELS = ("7inch", "10inch")
ANEW = 75  # the exit code after which the kiosk is to be started again (sysexits: EX_TEMPFAIL)


@click.command("run")
@click.option("--settings", type=PLACE, help="The file with the settings.")
@click.option("--machine", help="The machine file's name; drill-1 if left out.")
@click.option("--school", type=FOLDER, help="The school's own folder.")
@click.option("--record", type=PLACE, help="The record's file.")
@click.option("--roster", type=FILE, help="The roster: a workbook or a CSV file.")
@click.option("--port", callback=port, help="The contact reader's serial port, a stable path.")
@click.option("--panel", type=click.Choice(PANELS), help="7inch if left out.")
@click.option("--full-screen", is_flag=True, default=None, help="Take the whole display.")
@click.option("--language", help="The school's language; en if left out.")
@click.option("--large-text", is_flag=True, default=None, help="All screens in larger text.")
@click.option("--left-hand", is_flag=True, default=None, help="All screens made for a left hand.")
@click.option("--download-to", type=PLACE, callback=downloads, help="Folder for downloads.")
@click.option("--shown", type=PLACE, help="Keep a log of what was shown.")
@click.option("--boot", hidden=True)
def run_command(settings: Path | None, shown: Path | None, **typed: Any) -> None:
    """Run the kiosk on the touch screen; what is typed here goes before the settings' file."""
    settled, problems = _settled(settings) if settings else ({}, ())
    settled |= {name: value for name, value in typed.items() if value is not None}
    manner = Manner(
        panel=settled.pop("panel", PANELS[0]),
        scale=LARGE if settled.pop("large_text", False) else 1.0,
        left=settled.pop("left_hand", False),
        full_screen=settled.pop("full_screen", False),
    )
    file = str(settings.absolute()) if settings else ""
    code = _run_seen(Settings(**settled, problems=problems, file=file), manner, shown)
    if code == ANEW:
        start_anew(sys.argv[1:])
    sys.exit(code)


def _run_seen(settings: Settings, manner: Manner, shown: Path | None) -> int:
    """Run it; where nobody could see it, end the command with the line that says why."""
    try:
        return run_kiosk(settings, manner, shown)
    except NoScreen as why:
        raise click.ClickException(str(why)) from None


def _settled(path: Path) -> tuple[dict[str, Any], tuple[Problem, ...]]:
    from kiosk.content.settings import read_settings

    return read_settings(path)


@dataclass(frozen=True)
class Manner:
    """How this display shows the kiosk: `scale` is 1.0 or 1.3 for larger text."""

    panel: str = PANELS[0]
    scale: float = 1.0
    left: bool = False
    full_screen: bool = False


def run_kiosk(
    settings: Settings,
    manner: Manner,
    shown: Path | None = None,
    embed: Callable[[], Widget] | None = None,
    embed_height: int = 0,
) -> int:
    """Start the kiosk, show it until it is ended, stop it in order. Returns the exit code.

    `embed` makes one more widget to stand `embed_height` pixels high under the panel.
    """
    gc.disable()  # until all is loaded: see `opening`
    from kiosk.screens.app import run
    from kiosk.screens.theme import SEVEN_INCH, TEN_INCH

    watchdog, ending = Watchdog.of_this_process(time.monotonic), Ending()
    trial = Trial.of_this_process(time.monotonic)
    ending.watch()

    def ready() -> None:
        watchdog.ready()
        trial.ready()

    def beat() -> None:
        watchdog.beat()
        trial.beat()
        ending.look()

    with ExitStack() as ends:
        code = run(
            opening(settings, ends, ending, trial),
            SEVEN_INCH if manner.panel == "7inch" else TEN_INCH,
            title="Pillarside",
            shown=_logged(shown) if shown else None,
            scale=manner.scale,
            left=manner.left,
            fullscreen=manner.full_screen,
            embed=embed,
            embed_height=embed_height,
            on_ready=ready,
            on_beat=beat,
        )
        return ANEW if ending.anew() and not ending.ended else code


def opening(
    settings: Settings, ends: ExitStack, ending: Ending, trial: Trial
) -> Iterator[float | Source]:
    """The stages of a start: how much is done, and at last what the screens show.

    What must be ended is told to `ends`. The parts are loaded here and not at the top, so that
    the window opens first. Nothing of what is loaded is ever garbage: it is not looked through
    for any, now or later.
    """
    for room, done in (("content", 0.3), ("drawings", 0.4), ("store", 0.6)):
        import_module(f"kiosk.{room}")
        yield done
    from kiosk.runtime.faults import keep_faults
    from kiosk.runtime.start import start
    from kiosk.runtime.voice import Voice

    keep_faults(settings.record)
    yield 0.7
    running, voice = start(settings), Voice()
    ends.callback(running.stop)
    ends.callback(voice.stop)
    tell(running)
    trial.see(running.fault)
    ending.anew = running.anew
    gc.freeze()
    gc.enable()
    yield 0.9
    yield _source(running, voice.tell)


def _source(running: Running, speak: Callable[[View], None]) -> Source:
    from kiosk.drawings import draw
    from kiosk.screens.source import Source

    return Source(
        running.latest,
        running.post,
        running.listen,
        running.restless,
        _labels(running.words),
        lambda language: partial(draw, words=running.words.of(language)),
        speak,
    )


def _labels(words: Words) -> Labels:
    """The words of the keyboard and of the screen's own fault; adults type in the school's."""
    from kiosk.screens.labels import Labels

    def rows(key: str) -> tuple[str, str, str]:
        first, second, third = words.say(key).split("\n")
        return first, second, third

    if not words.has("keyboard.letters"):
        return Labels()
    return Labels(
        space=words.say("keyboard.space"),
        digits=words.say("keyboard.to_digits"),
        letters=words.say("keyboard.to_letters"),
        rows=rows("keyboard.letters"),
        digit_rows=rows("keyboard.digits"),
        fault_title=words.say("screen_fault.title"),
        fault_lines=tuple(words.say("screen_fault.say").split("\n")),
    )


@click.command("commission")
@click.option("--machine", default="drill-1", show_default=True, help="The machine file's name.")
@click.option("--school", type=PLACE, required=True, help="The school's own folder.")
@click.option("--port", default="", help="A serial port by a stable path; else it is asked for.")
@click.option("--reader", type=click.Choice(["modbus", "lines"]), help="How contacts are read.")
@click.option("--unit", type=click.IntRange(1, 247), help="The box's number.")
@click.option("--baud", type=int, help="The box's speed.")
@click.option("--parity", type=click.Choice(["none", "even", "odd"]))
@click.option("--function", type=click.IntRange(1, 3), help="1 coils, 2 inputs, 3 registers.")
@click.option(
    "--input", "inputs", multiple=True, help="NAME=MAKE,BREAK, for instance isolator=0,1."
)
def commission_command(school: Path, inputs: tuple[str, ...], **named: Any) -> None:
    """Walk through the contacts and write them into the school's machine file."""
    from kiosk.runtime.commissioning.command import Task, commission
    from kiosk.runtime.commissioning.terminal import Terminal

    pairs = tuple(_input(text) for text in inputs)
    task = Task(school=school, sequences=Settings().sequences, inputs=pairs, **named)
    sys.exit(commission(task, Terminal()))


def _input(text: str) -> tuple[str, ContactPair]:
    """One `--input`."""
    from kiosk.core.model import ContactPair

    found = re.fullmatch(
        r"(isolator|starter|spindle|guard|extraction)=(\d{0,4})(?:,(\d{0,4}))?", text
    )
    if found is None or not (found[2] or found[3]):
        allowed = "NAME=MAKE,BREAK; names: isolator, starter, spindle, guard, extraction"
        raise click.BadParameter(f"{text!r}; allowed: {allowed}", param_hint="--input")
    make, on_break = (int(n) if n else None for n in (found[2], found[3]))
    return found[1], ContactPair(make, on_break)


def _logged(path: Path) -> Callable[[View, Face], None]:
    from kiosk.runtime.shown import ShownLog

    return partial(_log_shown, ShownLog(path))


def _log_shown(log: ShownLog, view: View, face: Face) -> None:
    from kiosk.screens.geometry import problems

    us = log.us()
    spots = [{"label": s.words, "look": s.look, "x": s.x, "y": s.y} for s in face.spots()]
    log.add(us, view, spots, problems(face, face.panel))


def tell(running: Running) -> None:
    """Print what only the person at the keyboard may know or must put right."""
    if running.fault:
        click.echo(running.fault, err=True)
    if running.issued and is_journal():
        click.echo("First start. A system's log keeps what it is told, so no PIN is shown here.")
        click.echo("Let a technician in: pillarside adult issue --name NAME --role technician")
    elif running.issued:
        name, pin, codes = running.issued
        click.echo(f"First start: the PIN of {name!r} is {pin}. It is shown only this once.")
        click.echo(f"Spare codes, each works once: {', '.join(codes)}. Keep them locked away.")
        click.echo("Change it with: pillarside adult issue --name NAME --role technician")


def is_journal() -> bool:
    """Whether what is printed goes to the system's log: systemd.exec(5), JOURNAL_STREAM."""
    asked = os.environ.get("JOURNAL_STREAM", "")
    if not asked:
        return False
    out = os.fstat(1)
    return asked == f"{out.st_dev}:{out.st_ino}"


group.add_command(run_command)
group.add_command(commission_command)


def command() -> None:
    """The console command."""
    group()


if __name__ == "__main__":
    command()
