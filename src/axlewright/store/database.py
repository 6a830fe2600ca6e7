"""The database file: opening it safely, bringing it up to date, and one change at a time."""

from __future__ import annotations

import functools
import os
import sqlite3
import threading
from collections.abc import Iterator
from contextlib import closing, contextmanager
from importlib.resources import files
from pathlib import Path

APPLICATION = 0x41584C57  # "AXLW", as the first migration writes it
DATABASE = "workbench.sqlite3"
"""Name of the database in the data folder."""

_WAIT = 10_000  # milliseconds that one program waits for another


class StoreError(Exception):
    """What the store cannot do; says why, for people."""


class NotFoundError(StoreError):
    """There is no such build, revision or attachment."""


@functools.cache
def migrations() -> tuple[str, ...]:
    """The scripts that lead from an empty file to the newest format, the first one first."""
    folder = files(__package__).joinpath("migrations")
    found = sorted((f.name, f) for f in folder.iterdir() if f.name.endswith(".sql"))
    numbers = [int(name[:4]) for name, _ in found]
    if numbers != list(range(1, len(found) + 1)):
        raise StoreError(f"the migrations of this program are numbered {numbers}: it is damaged")
    return tuple(f.read_text(encoding="utf-8") for _, f in found)


class Database:
    """One connection that threads share in turn; a change is either whole or not there.

    ``path`` None keeps everything in memory.
    """

    def __init__(self, path: Path | None, scripts: tuple[str, ...] | None = None) -> None:
        self._lock = threading.RLock()
        self._open = True
        self.path = path
        steps = migrations() if scripts is None else scripts
        with self._in_words():
            if path is not None:
                path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
            self._connection = _connect(path)
            try:
                self._connection.execute("PRAGMA foreign_keys = OFF")
                _refuse_stranger(self._connection, len(steps))
                if path is not None:
                    _write_ahead(self._connection)
                _migrate(self._connection, path, steps)
                self._connection.execute("PRAGMA foreign_keys = ON")
            except BaseException:
                self._connection.close()
                raise

    def close(self) -> None:
        """Close the file; once closed, nothing else works."""
        with self._lock:
            if self._open:
                self._open = False
                self._connection.close()

    @contextmanager
    def reading(self) -> Iterator[sqlite3.Connection]:
        """The connection, for questions that belong together."""
        with self._lock, self._in_words():
            self._check_open()
            self._connection.execute("BEGIN")
            try:
                yield self._connection
            finally:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")

    @contextmanager
    def changing(self) -> Iterator[sqlite3.Connection]:
        """The connection, for a change; on the disk when this is left, or undone by an error."""
        with self._lock, self._in_words():
            self._check_open()
            self._connection.execute("BEGIN IMMEDIATE")
            try:
                yield self._connection
                self._connection.execute("COMMIT")
            except BaseException:
                if self._connection.in_transaction:
                    self._connection.execute("ROLLBACK")
                raise

    def setting(self, name: str) -> object:
        """What a PRAGMA of the connection says."""
        with self._lock, self._in_words():
            self._check_open()
            return self._connection.execute(f"PRAGMA {name}").fetchone()[0]

    def _check_open(self) -> None:
        if not self._open:
            raise StoreError("the store is closed")

    @contextmanager
    def _in_words(self) -> Iterator[None]:
        where = self.path or "the store in memory"
        try:
            yield
        except sqlite3.OperationalError as e:
            if "locked" in str(e):
                raise StoreError(f"{where} is in use by another program; try again") from e
            raise StoreError(f"{where} cannot be used: {e}") from e
        except sqlite3.DatabaseError as e:
            raise StoreError(f"{where} is damaged or no database of this program: {e}") from e
        except OSError as e:
            raise StoreError(f"{where} cannot be used: {e.strerror}") from e


def _connect(path: Path | None) -> sqlite3.Connection:
    """A connection that syncs to the disk at every commit."""
    connection = sqlite3.connect(
        ":memory:" if path is None else path,
        timeout=_WAIT / 1000,
        isolation_level=None,
        check_same_thread=False,
    )
    connection.row_factory = sqlite3.Row
    connection.execute(f"PRAGMA busy_timeout = {_WAIT}")
    connection.execute("PRAGMA synchronous = FULL")
    connection.execute("PRAGMA fullfsync = ON")
    return connection


def _write_ahead(connection: sqlite3.Connection) -> None:
    mode = connection.execute("PRAGMA journal_mode = WAL").fetchone()[0]
    if mode != "wal":
        raise StoreError(
            f"the folder of the data cannot keep a write-ahead log (it says {mode}), which it does"
            " on a network drive; set AXLEWRIGHT_DATA to a folder on this machine"
        )


def _version(connection: sqlite3.Connection) -> int:
    return int(connection.execute("PRAGMA user_version").fetchone()[0])


def _refuse_stranger(connection: sqlite3.Connection, newest: int) -> None:
    """Refuse what is not ours or newer than we are, before anything is written."""
    alone = not connection.in_transaction
    if alone:
        connection.execute("BEGIN")  # all three from one moment: another may be making the tables
    try:
        version = _version(connection)
        owner = connection.execute("PRAGMA application_id").fetchone()[0]
        used = connection.execute("SELECT count(*) FROM sqlite_master").fetchone()[0]
    finally:
        if alone:
            connection.execute("COMMIT")
    if owner != APPLICATION and (owner or version or used):
        raise StoreError("this database was made by another program; nothing was changed in it")
    if version > newest:
        raise StoreError(
            f"this database is of format {version}, from a newer version of the program; this"
            f" version knows formats up to {newest}: update axlewright. Nothing was changed in it"
        )


def _migrate(connection: sqlite3.Connection, path: Path | None, steps: tuple[str, ...]) -> None:
    """Bring the database to the newest format in one change, with a copy of it made before."""
    if _version(connection) == len(steps):
        return
    connection.execute("BEGIN IMMEDIATE")
    try:
        _refuse_stranger(connection, len(steps))  # another program may have been faster
        version = _version(connection)
        if version and path is not None and version < len(steps):
            _back_up(path, version)
        for number in range(version + 1, len(steps) + 1):
            for statement in _statements(steps[number - 1]):
                connection.execute(statement)
            connection.execute(f"PRAGMA user_version = {number}")
        broken = connection.execute("PRAGMA foreign_key_check").fetchall()
        if broken:
            raise StoreError(f"the new format would lose {len(broken)} links; nothing was changed")
        connection.execute("COMMIT")
    except BaseException:
        if connection.in_transaction:
            connection.execute("ROLLBACK")
        raise


def _statements(script: str) -> Iterator[str]:
    """The statements of a script one by one: run as a whole, it would commit half-way."""
    statement = ""
    for line in script.splitlines(keepends=True):
        statement += line
        if sqlite3.complete_statement(statement):
            yield statement
            statement = ""
    if statement.strip():
        raise StoreError("a migration of this program ends in the middle: it is damaged")


def _back_up(path: Path, version: int) -> Path:
    """Copy the database beside itself as ``….format-1.backup``; an earlier copy is kept too."""
    names = (
        f"{path.name}.format-{version}{n}.backup" for n in ("", *(f"-{i}" for i in range(2, 99)))
    )
    target = next(p for p in map(path.with_name, names) if not p.exists())
    unfinished = target.with_name(target.name + ".unfinished")
    unfinished.unlink(missing_ok=True)
    with closing(_connect(path)) as source, closing(sqlite3.connect(unfinished)) as copy:
        source.backup(copy)
        copy.execute("PRAGMA journal_mode = DELETE")
    with unfinished.open("rb+") as file:
        os.fsync(file.fileno())
    return unfinished.replace(target)
