"""What a running kiosk starts to send its record away: `python -m kiosk.cli.feed --record FILE`.

A process of its own with the lowest claim to the processor, and only reading: whatever the
network does, the kiosk neither waits nor knows. The address comes in the environment, since it may
hold a password. It ends when its standard input does.
"""

from __future__ import annotations

import os
import select
import sys
from pathlib import Path

import click

from kiosk.store import RecordFault

ADDRESS = "PILLARSIDE_FEED"
EVERY_S = 10.0
LONGEST_S = 600.0
LOWEST = 19


def later(failed: int) -> float:
    """How long to wait before the next try, in seconds: doubled for each that failed in a row."""
    return float(min(LONGEST_S, EVERY_S * 2 ** min(failed, 16)))


@click.command("feed")
@click.option("--record", type=click.Path(path_type=Path), required=True)
@click.option("--names", is_flag=True)
@click.option("--notes", is_flag=True)
def feed_command(record: Path, names: bool, notes: bool) -> None:
    """Send what is recorded, for as long as the kiosk runs."""
    os.nice(LOWEST)
    try:
        from kiosk.store.collected import CollectFault, Database
        from kiosk.store.collected.feeding import Feed

        feed = Feed(record, Database(os.environ.pop(ADDRESS, "")), names, notes)
    except CollectFault as fault:
        raise click.ClickException(str(fault)) from None
    failed, said = 0, ""
    while True:
        try:
            feed.send()
            now, failed = "sending", 0
        except (CollectFault, RecordFault, OSError) as fault:
            now, failed = f"not sent yet, nothing is lost: {fault}", failed + 1
        if now != said:
            click.echo(f"feed: {now}", err=True)
        said = now
        if _ended(later(failed)):
            return


def _ended(wait_s: float) -> bool:
    """Wait; whether the kiosk has ended meanwhile."""
    ready, _, _ = select.select([sys.stdin], [], [], wait_s)
    return bool(ready) and not os.read(sys.stdin.fileno(), 1024)


if __name__ == "__main__":
    feed_command()
