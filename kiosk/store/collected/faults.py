"""Why collecting can't go on, in one short word and one line."""

from __future__ import annotations

from sqlalchemy import URL
from sqlalchemy.exc import ArgumentError, DBAPIError, NoSuchModuleError, SQLAlchemyError

TEXTS = {
    "address": "not an address of a database; allowed: postgresql+psycopg://NAME@HOST/DATABASE",
    "away": "the database does not answer; what was collected before stands, so try again later",
    "not_let_in": "the database does not let this name in; look at name, password and TLS options",
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

_REFUSALS = ("password", "authentication", "pg_hba.conf", "certificate")
"""What libpq says, with no code, of a server that lets nobody in, or that is not trusted."""


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
    said = str(inner).strip().splitlines()
    more = said[0] if said else type(inner).__name__
    if not state:
        away = not isinstance(error, SQLAlchemyError) or _is_cut(error)
        why = "not_let_in" if any(word in more for word in _REFUSALS) else "away"
        return CollectFault(why if away else "failing", where(url), more)
    why = next((w for begins, w in _BY_STATE.items() if state.startswith(begins)), "failing")
    return CollectFault(why, where(url), more)


def _is_cut(error: Exception) -> bool:
    """Whether the connection was never had or is gone."""
    return isinstance(error, DBAPIError) and (
        error.connection_invalidated or type(error.orig).__name__ == "OperationalError"
    )
