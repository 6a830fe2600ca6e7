"""Rows of the database: builds and revisions read and written inside a change."""

from __future__ import annotations

import secrets
import sqlite3
from dataclasses import dataclass
from datetime import UTC, datetime

from axlewright.build.edit import raw_values
from axlewright.store.database import NotFoundError, StoreError

UNNAMED = "unnamed build"
LARGEST_TEXT = 1_000_000
BUILDS = (
    "SELECT b.*, (SELECT max(number) FROM revision WHERE build = b.id) AS revision FROM build b"
)

_SIGNS = "23456789abcdefghijkmnpqrstuvwxyz"  # none that looks like another


@dataclass(frozen=True)
class Build:
    """A build on the shelf; ``revision`` is its newest."""

    id: str
    name: str
    created: str
    updated: str
    revision: int


@dataclass(frozen=True)
class Revision:
    """One text of a build; ``parent`` is the revision that it was made from."""

    build: str
    number: int
    text: str
    note: str
    made: str
    parent: int | None


@dataclass(frozen=True)
class Attachment:
    """A file kept with a build; its bytes are fetched apart."""

    id: str
    build: str
    name: str
    kind: str
    size: int
    made: str


def build_of(row: sqlite3.Row) -> Build:
    """A build from its row."""
    return Build(row["id"], row["name"], row["created"], row["updated"], row["revision"])


def find(db: sqlite3.Connection, id: str) -> Build:
    """A build on the shelf."""
    row = db.execute(f"{BUILDS} WHERE id = ? AND removed IS NULL", (id,)).fetchone()
    if row is None:
        raise NotFoundError(f"there is no build {id[:40]}")
    return build_of(row)


def latest(db: sqlite3.Connection, id: str) -> Revision:
    """The newest revision of a build on the shelf."""
    return revision(db, id, find(db, id).revision)


def revision(db: sqlite3.Connection, id: str, number: int) -> Revision:
    """A revision by its number."""
    row = None
    if abs(number) < 2**63:
        row = db.execute(
            "SELECT * FROM revision WHERE build = ? AND number = ?", (id, number)
        ).fetchone()
    if row is None:
        raise NotFoundError(f"this build has no revision {str(number)[:20]}")
    return Revision(**row)


def was_kept(db: sqlite3.Connection, id: str, parent: int, text: str) -> bool:
    """Whether this very text was kept before as made from that revision: a save sent again."""
    found = db.execute(
        "SELECT 1 FROM revision WHERE build = ? AND parent = ? AND text = ?", (id, parent, text)
    ).fetchone()
    return found is not None


def keep(db: sqlite3.Connection, newest: Revision, text: str, note: str) -> Revision:
    """Write a text on top of the newest one, unless it is the same."""
    if text == newest.text:
        return newest
    return write(db, newest.build, text, note, newest.number)


def write(db: sqlite3.Connection, id: str, text: str, note: str, parent: int | None) -> Revision:
    """Write a revision; the build takes its name from the text."""
    refuse_text(text)
    refuse_text(note)
    row = db.execute("SELECT max(number) FROM revision WHERE build = ?", (id,)).fetchone()
    made = Revision(id, (row[0] or 0) + 1, text, note, now(), parent)
    db.execute(
        "INSERT INTO revision (build, number, text, note, made, parent) VALUES (?, ?, ?, ?, ?, ?)",
        (id, made.number, text, note, made.made, parent),
    )
    db.execute("UPDATE build SET updated = ? WHERE id = ?", (made.made, id))
    values = raw_values(text)
    if values:  # a text that does not read keeps the name that the build had
        name = values.get("name", "").strip()[:200] or UNNAMED
        db.execute("UPDATE build SET name = ? WHERE id = ?", (name, id))
    return made


def refuse_text(text: str) -> None:
    """Refuse what no build can be."""
    try:
        size = len(text.encode())
    except UnicodeEncodeError:
        raise StoreError("this holds signs that are no text") from None
    if size > LARGEST_TEXT:
        raise StoreError("this text is far too large for a build")


def token(length: int) -> str:
    """A name that nobody guesses and nothing has to quote."""
    return "".join(secrets.choice(_SIGNS) for _ in range(length))


def now() -> str:
    """The time in UTC, so that its order is the order of the texts."""
    return datetime.now(UTC).isoformat(timespec="microseconds")
