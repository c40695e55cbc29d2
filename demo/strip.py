"""The bench strip: the drill's electrics and the power, to be played under the kiosk's window.

Started by `demo.window` as a process of its own. The kiosk above it is the real one; what is
touched on the strip goes out as one JSON line on standard output, and how the bench stands comes
in as JSON lines on standard input.
"""

from __future__ import annotations

import json
import sys
import threading
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from kiosk.main import PANELS, Manner, run_kiosk
from kiosk.runtime.settings import Settings

if TYPE_CHECKING:
    from kivy.uix.widget import Widget

HEIGHT = 222
ACTS = (
    ("isolator", "Isolator"),
    ("start", "Start"),
    ("stop", "Stop"),
    ("room_stop", "Room stop"),
    ("slow_hand", "Slow hand"),
    ("bounce", "Bounce"),
    ("wire", "Wire off"),
    ("swap", "Swapped"),
    ("plug", "Box unplugged"),
    ("short", "Shorted"),
    ("stuck", "Stuck"),
    ("answer", "Next answer"),
    ("move", "Other socket"),
    ("guard", "Guard up"),
    ("cut", "Cut the power"),
)
COLUMNS = 5


class Bench:
    """The other end of the pipe: sends acts, keeps the newest state."""

    def __init__(self) -> None:
        self.state: dict[str, Any] = {}
        threading.Thread(target=self._listen, daemon=True).start()

    def act(self, name: str) -> None:
        """Tell the bench what the hand does."""
        sys.stdout.write(json.dumps({"act": name}) + "\n")
        sys.stdout.flush()

    def _listen(self) -> None:
        for line in sys.stdin:
            try:
                self.state = json.loads(line)
            except ValueError:
                continue


def make_strip(bench: Bench, pins: str) -> Widget:
    """The widget: a line of words over the buttons."""
    from demo.strip_view import Strip

    return Strip(bench, pins, ACTS, COLUMNS)


@click.command()
@click.option("--record", type=click.Path(path_type=Path), required=True)
@click.option("--roster", type=click.Path(path_type=Path), required=True)
@click.option("--port", required=True)
@click.option("--panel", type=click.Choice(PANELS), default="7inch")
@click.option("--language", default="en")
@click.option("--download-to", type=click.Path(path_type=Path), required=True)
@click.option("--boot", required=True)
@click.option("--pins", default="")
def strip(
    record: Path,
    roster: Path,
    port: str,
    panel: str,
    language: str,
    download_to: Path,
    boot: str,
    pins: str,
) -> None:
    """Run the kiosk with the bench strip under it."""
    settings = Settings(
        record=record,
        roster=roster,
        port=port,
        language=language,
        download_to=download_to,
        boot=boot,
    )
    bench = Bench()
    sys.exit(run_kiosk(settings, Manner(panel), None, partial(make_strip, bench, pins), HEIGHT))


if __name__ == "__main__":
    strip()
