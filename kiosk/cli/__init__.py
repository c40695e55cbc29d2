"""What the technician does from a keyboard. Neither Kivy nor pyserial is ever imported here.

`group` is the whole command `pillarside`; each command's file is imported when it is asked for,
so that help and a mistyped word are answered at once. `kiosk.main` adds `run`.
"""

from __future__ import annotations

from collections.abc import Mapping
from importlib import import_module

import click

COMMANDS: Mapping[str, tuple[str, str]] = {
    "adult": ("kiosk.cli.adult", "Issue, list and revoke PINs, badges and spare codes of adults."),
    "check": ("kiosk.cli.check", "Check content, and the rules of each plan made from it."),
    "collect": ("kiosk.cli.collect", "Take downloads of many drills into one database."),
    "database": ("kiosk.cli.database", "Prepare a server: database, tables, roles, least rights."),
    "download": ("kiosk.cli.download", "Take a part of the record away, into a folder."),
    "erase": ("kiosk.cli.erase", "Take away what is kept of one person, or a note."),
    "install": ("kiosk.cli.install", "Make this computer a kiosk that starts by itself."),
    "levels": ("kiosk.cli.levels", "Bring training levels from one drill to one that is alike."),
    "pack": ("kiosk.cli.pack", "Put roster, revoked adults, jobs and content on a stick."),
    "pack-update": ("kiosk.cli.pack_update", "Put this version on a stick, to update kiosks from."),
    "plan": ("kiosk.cli.plan", "Print the steps for one job, with where each number is from."),
    "report": ("kiosk.cli.report", "Report on a record or on downloads, page and workbook."),
    "roster": ("kiosk.cli.roster", "Show what a roster file would change, and take it in."),
    "selftest": ("kiosk.cli.selftest", "Look at the computer, its card and what is plugged in."),
    "sheet": ("kiosk.cli.sheet", "Print a sheet: assessment, wall, card, commissioning, accident."),
    "speeds": ("kiosk.cli.speeds", "Print a drill's own speed chart: material by diameter."),
    "take-in": ("kiosk.cli.take_in", "Show what a stick brings in, and take it in."),
    "update": ("kiosk.cli.update", "Put in a newer version from a stick, or go back."),
    "verify": ("kiosk.cli.verify", "Prove that a download is whole and unchanged."),
}
"""Each command's module and its line of help; its command is called `NAME_command`, _ for -."""


class Commands(click.Group):
    """A group whose commands are imported when they are first needed."""

    def list_commands(self, ctx: click.Context) -> list[str]:
        """All names, those added later too."""
        return sorted({*COMMANDS, *super().list_commands(ctx)})

    def get_command(self, ctx: click.Context, name: str) -> click.Command | None:
        """The command called `name`, or None."""
        added = super().get_command(ctx, name)
        if added is not None or name not in COMMANDS:
            return added
        found: click.Command = getattr(
            import_module(COMMANDS[name][0]), f"{name.replace('-', '_')}_command"
        )
        return found

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """The list of commands for `--help`, without importing any."""
        rows = [(name, self._line(ctx, name)) for name in self.list_commands(ctx)]
        with formatter.section("Commands"):
            formatter.write_dl(rows)

    def _line(self, ctx: click.Context, name: str) -> str:
        if name in COMMANDS:
            return COMMANDS[name][1]
        added = super().get_command(ctx, name)
        return added.get_short_help_str(80) if added else ""


@click.group("pillarside", cls=Commands)
@click.version_option(package_name="pillarside")
def group() -> None:
    """A touchscreen beside a school workshop's pillar drill.

    It informs and records. It is not a safety device: it starts, stops and permits nothing.
    """
