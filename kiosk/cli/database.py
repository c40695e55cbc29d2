"""`pillarside database`: one database for many drills, with roles and the least rights each."""

from __future__ import annotations

import click
from rich.console import Console

from kiosk.cli.collect import ADDRESS
from kiosk.cli.plan import refuse

ONCE = """Passwords are shown only this once. Keep each in the .pgpass file of whoever uses it:
a line HOST:PORT:DATABASE:ROLE:PASSWORD, readable by nobody else (chmod 600).
Where one was lost, give the role another: \\password ROLE in psql."""


@click.command("database")
@click.option("--server", required=True, metavar="URL", help=f"As its administrator: {ADDRESS}")
@click.option("--name", default="pillarside", show_default=True, help="The database's name.")
def database_command(server: str, name: str) -> None:
    """Prepare a PostgreSQL server: a database, its tables, three roles. Says what it did.

    Nothing that is there is changed, so it can be run again; then it shows what is there.
    """
    from kiosk.store.collected import CollectFault, Database, prepare

    console, issued = Console(highlight=False, soft_wrap=True), False
    try:
        for done in prepare(Database(server), name):
            made = "made" if done.new else "is so"
            password = f"; password {done.password}" if done.password else ""
            console.print(f"{made}: {done.what}{password}", markup=False)
            issued |= bool(password)
    except CollectFault as fault:
        refuse(str(fault))
    except ValueError as error:
        refuse(f"--name {error}")
    if issued:
        console.print(ONCE)
