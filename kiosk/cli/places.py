"""Places named by options: what a kiosk could not start with is refused with what is allowed."""

from __future__ import annotations

from pathlib import Path

import click


def port(context: click.Context, option: click.Parameter, value: str | None) -> str | None:
    """A serial port is named by its path. It may be unplugged, so it need not be there."""
    if value and not value.startswith("/"):
        raise click.BadParameter(
            f"{value} is no path; allowed: such as /dev/serial/by-id/usb-... or /dev/ttyUSB0"
        )
    return value


def downloads(context: click.Context, option: click.Parameter, value: Path | None) -> Path | None:
    """A folder that is there, or one on a stick, which may be put in later."""
    if not value:
        return value
    from kiosk.export.sticks import is_for_sticks  # not before the window, if not asked

    if not (value.is_dir() or is_for_sticks(value)):
        raise click.BadParameter(f"{value} is not there; allowed: a folder, or one on a stick")
    return value
