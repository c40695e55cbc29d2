"""Why collecting can't go on, in one short word and one line."""

from __future__ import annotations

from sqlalchemy import URL
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError

TEXTS = {
    "address": "not an address of a database; allowed: postgresql+psycopg://NAME@HOST/DATABASE",
    "away": "the database does not answer; nothing half-done is kept, so run the same again later",
    "no_host": "no computer of that name is known here; look at the address",
    "no_database": "the server has no database of that name; `pillarside database` makes one",
    "no_tls": "the server has no TLS; turn it on there, or leave sslmode out of the address",
    "option": "the address has an option that libpq does not know, or a value it does not allow",
    "servers_own": "this one is the server's own; run `pillarside database` and use what it made",
    "not_let_in": "the database does not let this name in; look at name, .pgpass and TLS options",
    "no_right": "this role has no right to do that; `pillarside database` gives each its own",
    "old_server": "the server is too old; it must be PostgreSQL 15 or later",
    "newer": "the tables were made by a newer version of this software; update this one",
    "not_prepared": "the database has no tables for this yet; run `pillarside database` first",
    "full": "the server's disk is full; make room there and run the same again",
    "failing": "the database did not do what it was asked",
}

_BY_STATE = {
    "28": "not_let_in",
    "42501": "no_right",
    "42P01": "not_prepared",
    "3D000": "not_prepared",
    "53100": "full",
    "08": "away",
    "57P": "away",
    "40": "away",
}

_SAID = {
    "invalid connection option": "option",
    "invalid sslmode value": "option",
    "invalid URI query parameter": "option",
    "does not support SSL": "no_tls",
    "translate host name": "no_host",
    "resolve host": "no_host",
    "Name or service not known": "no_host",
    "No address associated": "no_host",
    "permission denied for database": "not_let_in",
    "password": "not_let_in",
    "authentication": "not_let_in",
    "pg_hba.conf": "not_let_in",
    "certificate": "not_let_in",
    'role "': "not_let_in",
    'database "': "no_database",
}
"""What libpq says, with no code, of an address or a server; the first that fits."""


class CollectFault(Exception):
    """Collecting can't go on; nothing half-done is kept, and the same again may work.

    `why` is one of the words of `TEXTS`, `text` is one line.
    """

    def __init__(self, why: str, where: str, more: str = "") -> None:
        self.why = why
        self.text = f"{where}: {TEXTS[why]}" + (f" ({more})" if more else "")
        super().__init__(why, where, more)

    def __str__(self) -> str:
        """The line."""
        return self.text


def where(url: URL) -> str:
    """The address without its password."""
    return f"{url.host or 'this computer'}{f':{url.port}' if url.port else ''}/{url.database or ''}"


def fault_of(error: Exception, url: URL) -> CollectFault:
    """The fault that an error of the driver or of SQLAlchemy stands for."""
    if isinstance(error, ArgumentError | NoSuchModuleError):
        return CollectFault("address", where(url))
    inner = error.orig if isinstance(error, DBAPIError) else error
    state = getattr(inner, "sqlstate", None) or ""
    lines = str(inner).strip().splitlines()
    more = lines[0] if lines else type(inner).__name__
    if not state:
        cut = not isinstance(error, SQLAlchemyError) or _is_cut(error)
        said = next((why for words, why in _SAID.items() if words in more), "away")
        return CollectFault(said if cut or said == "option" else "failing", where(url), more)
    why = next((w for begins, w in _BY_STATE.items() if state.startswith(begins)), "failing")
    return CollectFault(why, where(url), more)


def _is_cut(error: Exception) -> bool:
    """Whether the connection was never had or is gone."""
    return isinstance(error, DBAPIError) and (
        error.connection_invalidated or type(error.orig).__name__ == "OperationalError"
    )
