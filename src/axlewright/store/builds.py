"""Builds as the store keeps them: every text that was ever saved, undo, attachments, results."""

from __future__ import annotations

from dataclasses import dataclass
from pathlib import Path

from axlewright.build.merge import Conflict, merge_all
from axlewright.store.database import Database, NotFoundError, StoreError
from axlewright.store.rows import (
    BUILDS,
    UNNAMED,
    Attachment,
    Build,
    Revision,
    build_of,
    find,
    keep,
    latest,
    now,
    refuse_text,
    revision,
    token,
    was_kept,
    write,
)

LARGEST_ATTACHMENT = 20_000_000
MOST_ATTACHMENTS = 100
RESULTS_KEPT = 1_000
RESULT_SIGNS_KEPT = 100_000_000
LARGEST_RESULT = 10_000_000


@dataclass(frozen=True)
class Saved:
    """What became of a save; ``merged`` if the text of the revision is not the one handed in."""

    revision: Revision
    merged: bool
    conflicts: tuple[Conflict, ...]


class Store:
    """The builder's data; threads may share it.  ``path`` None keeps it in memory."""

    def __init__(self, path: Path | None) -> None:
        self._database = Database(path)

    @property
    def folder(self) -> Path | None:
        """Where the file lies; None for a store in memory."""
        path = self._database.path
        return None if path is None else path.parent

    def close(self) -> None:
        """Close the file."""
        self._database.close()

    def setting(self, name: str) -> object:
        """What a PRAGMA of the database says, for whoever wants to be sure."""
        return self._database.setting(name)

    def builds(self) -> tuple[Build, ...]:
        """The builds on the shelf, the one last worked on first."""
        return self._listed("removed IS NULL")

    def removed(self) -> tuple[Build, ...]:
        """The builds that were taken off the shelf and can be put back."""
        return self._listed("removed IS NOT NULL")

    def _listed(self, which: str) -> tuple[Build, ...]:
        with self._database.reading() as db:
            rows = db.execute(f"{BUILDS} WHERE {which} ORDER BY updated DESC, id").fetchall()
        return tuple(build_of(row) for row in rows)

    def build(self, id: str) -> Build:
        """One build; raises :class:`NotFoundError`."""
        with self._database.reading() as db:
            return find(db, id)

    def create(self, text: str, note: str = "") -> Build:
        """Put a new build on the shelf; its name comes from its text."""
        with self._database.changing() as db:
            id, made = token(8), now()
            db.execute("INSERT INTO build VALUES (?, ?, ?, ?, NULL)", (id, UNNAMED, made, made))
            write(db, id, text, note, None)
            return find(db, id)

    def remove(self, id: str) -> None:
        """Take a build off the shelf; nothing of it is lost."""
        with self._database.changing() as db:
            find(db, id)
            db.execute("UPDATE build SET removed = ? WHERE id = ?", (now(), id))

    def put_back(self, id: str) -> Build:
        """Put a removed build back on the shelf."""
        with self._database.changing() as db:
            done = db.execute("UPDATE build SET removed = NULL WHERE id = ?", (id,))
            if not done.rowcount:
                raise NotFoundError(f"there is no build {id[:40]}")
            return find(db, id)

    def latest(self, id: str) -> Revision:
        """The newest revision of a build."""
        with self._database.reading() as db:
            return latest(db, id)

    def revision(self, id: str, number: int) -> Revision:
        """One revision of a build."""
        with self._database.reading() as db:
            find(db, id)
            return revision(db, id, number)

    def history(self, id: str) -> tuple[Revision, ...]:
        """Every revision of a build, the newest first."""
        with self._database.reading() as db:
            find(db, id)
            rows = db.execute(
                "SELECT * FROM revision WHERE build = ? ORDER BY number DESC", (id,)
            ).fetchall()
        return tuple(Revision(**row) for row in rows)

    def save(self, id: str, text: str, note: str = "", base: int | None = None) -> Saved:
        """Keep a text as the newest revision; it is on the disk when this returns.

        ``base`` is the revision that the text was made from.  If others came in between, the two
        are merged by key; where both changed one key, the others' value stands and the conflict
        says so.  A text of which something did not come through is kept as a revision of its own
        below the merged one.  Saving what is there already changes nothing.
        """
        refuse_text(text)
        with self._database.changing() as db:
            newest = latest(db, id)
            if base is None or base == newest.number:
                return Saved(keep(db, newest, text, note), False, ())
            merged = merge_all(revision(db, id, base).text, text, newest.text)
            if not (merged.complete or was_kept(db, id, base, text)):
                aside = f"set aside: made from revision {base} when {newest.number} was the newest"
                write(db, id, text, f"{aside}; {note}" if note else aside, base)
                kept = write(db, id, merged.text, note, newest.number)
            else:
                kept = keep(db, newest, merged.text, note)
            return Saved(kept, kept.text != text, merged.conflicts)

    def restore(self, id: str, number: int) -> Revision:
        """Go back to an earlier revision: its text becomes the newest one."""
        with self._database.changing() as db:
            newest, wanted = latest(db, id), revision(db, id, number)
            return keep(db, newest, wanted.text, f"back to revision {number}")

    def attach(self, id: str, name: str, data: bytes, kind: str) -> Attachment:
        """Keep a file with a build; ``kind`` is its media type."""
        if len(data) > LARGEST_ATTACHMENT:
            most = LARGEST_ATTACHMENT // 1_000_000
            raise StoreError(f"{len(data) / 1e6:.1f} MB are too much; at most {most} MB a file")
        with self._database.changing() as db:
            find(db, id)
            held = db.execute("SELECT count(*) FROM attachment WHERE build = ?", (id,)).fetchone()
            if held[0] >= MOST_ATTACHMENTS:
                raise StoreError(f"{MOST_ATTACHMENTS} files are the most for a build; remove one")
            made = Attachment(token(12), id, name[:200], kind[:200], len(data), now())
            db.execute(
                "INSERT INTO attachment (id, build, name, kind, size, made, data)"
                " VALUES (?, ?, ?, ?, ?, ?, ?)",
                (made.id, id, made.name, made.kind, made.size, made.made, data),
            )
            return made

    def attachments(self, id: str) -> tuple[Attachment, ...]:
        """The files kept with a build, the oldest first."""
        with self._database.reading() as db:
            find(db, id)
            rows = db.execute(
                "SELECT id, build, name, kind, size, made FROM attachment WHERE build = ?"
                " ORDER BY made, rowid",
                (id,),
            ).fetchall()
        return tuple(Attachment(**row) for row in rows)

    def attachment(self, id: str, attachment_id: str) -> tuple[Attachment, bytes]:
        """One file kept with a build, and its bytes."""
        with self._database.reading() as db:
            find(db, id)
            row = db.execute(
                "SELECT * FROM attachment WHERE build = ? AND id = ?", (id, attachment_id)
            ).fetchone()
        if row is None:
            raise NotFoundError(f"this build has no attachment {attachment_id[:40]}")
        fields = dict(row)
        data = bytes(fields.pop("data"))
        return Attachment(**fields), data

    def detach(self, id: str, attachment_id: str) -> None:
        """Remove a file that is kept with a build, for good."""
        with self._database.changing() as db:
            find(db, id)
            done = db.execute(
                "DELETE FROM attachment WHERE build = ? AND id = ?", (id, attachment_id)
            )
            if not done.rowcount:
                raise NotFoundError(f"this build has no attachment {attachment_id[:40]}")

    def result(self, key: str) -> str | None:
        """A result worked out before, if it is still kept."""
        with self._database.reading() as db:
            row = db.execute("SELECT text FROM result WHERE key = ?", (key,)).fetchone()
        return None if row is None else str(row["text"])

    def keep_result(self, key: str, text: str) -> None:
        """Keep a result; those kept longest ago make room.  One far too large is not kept."""
        if len(text) > LARGEST_RESULT:
            return
        with self._database.changing() as db:
            db.execute(
                "INSERT OR REPLACE INTO result (key, text, size, used)"
                " VALUES (?, ?, ?, (SELECT coalesce(max(used), 0) + 1 FROM result))",
                (key, text, len(text)),
            )
            db.execute(
                "DELETE FROM result WHERE key IN (SELECT key FROM (SELECT key,"
                " row_number() OVER newest AS place, sum(size) OVER newest AS held FROM result"
                " WINDOW newest AS (ORDER BY used DESC)) WHERE place > ? OR held > ?)",
                (RESULTS_KEPT, RESULT_SIGNS_KEPT),
            )
