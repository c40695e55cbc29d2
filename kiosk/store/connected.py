"""The one connection that writes: opened when needed, dropped after a fault, never shared."""

from __future__ import annotations

import sqlite3
import threading
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sqlalchemy import Connection, Engine
from sqlalchemy.exc import SQLAlchemyError

from kiosk.store.faults import RecordFault, fault, fault_of
from kiosk.store.queries import Broken
from kiosk.store.schema import NewerSchema


class Connected:
    """Transactions on one connection, one at a time whichever thread asks.

    Every error of the card comes out as a RecordFault. After one the connection is dropped (but
    for a full card, where it stays good); the next transaction opens a new one and has it checked
    by `check` first.
    """

    def __init__(self, path: Path, engine: Engine) -> None:
        self.path, self._engine = path, engine
        self._turn = threading.RLock()
        self._connection: Connection | None = None
        self._check: Callable[[Connection], None] | None = None
        self._closed = False

    def check_anew(self, check: Callable[[Connection], None]) -> None:
        """What to check whenever a new connection had to be opened."""
        self._check = check

    @contextmanager
    def transaction(self) -> Iterator[Connection]:
        """One transaction: committed when the block ends, undone when it raises."""
        with self._turn:
            try:
                with self._opened() as connection, connection.begin():
                    yield connection
            except RecordFault as found:
                self._after(found)
                raise
            except (SQLAlchemyError, sqlite3.Error, OSError) as error:
                told = fault_of(error, self.path)
                self._after(told)
                raise told from error
            except (Broken, NewerSchema) as error:
                self.drop()
                why = "newer" if isinstance(error, NewerSchema) else "damaged"
                raise fault(why, self.path, str(error)) from error

    @contextmanager
    def _opened(self) -> Iterator[Connection]:
        if self._closed:
            raise fault("failing", self.path, "the record was closed")
        if self._connection is None:
            self._connection = self._engine.connect()
            if self._check is not None:
                with self._connection.begin():
                    self._check(self._connection)
        yield self._connection

    def _after(self, found: RecordFault) -> None:
        if found.why != "full":
            self.drop()

    def drop(self) -> None:
        """Close the connection; the next transaction opens a new one."""
        connection, self._connection = self._connection, None
        if connection is not None:
            with suppress(SQLAlchemyError, sqlite3.Error, OSError):
                connection.close()

    def wipe(self) -> None:
        """Leave nothing that was erased in the write-ahead log, as far as readers let it be done.

        The file itself is overwritten where something is deleted (`secure_delete`).
        """
        with self._turn, suppress(SQLAlchemyError, sqlite3.Error, OSError):
            if self._connection is not None:
                driver = self._connection.connection.driver_connection
                assert driver is not None
                driver.execute("PRAGMA wal_checkpoint(TRUNCATE)").fetchall()

    def close(self) -> None:
        """Close for good. May be called twice and from any thread."""
        with self._turn:
            self.drop()
            self._closed = True
