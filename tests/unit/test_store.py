"""The store keeps every text that it promised, whoever writes beside it, whenever it ends."""

import os
import sqlite3
import subprocess
import sys
import threading
from contextlib import closing
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from axlewright.build.edit import edit, raw_values
from axlewright.build.merge import Conflict
from axlewright.store import builds as builds_module
from axlewright.store import database as database_module
from axlewright.store.builds import Store
from axlewright.store.database import (
    DATABASE,
    Database,
    NotFoundError,
    StoreError,
    migrations,
)
from axlewright.store.folder import data_folder

HERE = Path(__file__).parent
GOLDEN = sorted((HERE.parent / "golden" / "store").glob("format_*.sql"))
KILLS = int(os.environ.get("AXLEWRIGHT_KILLS", "40"))
TEXT = 'format = 1\nname = "Copper Wren"\n\n[car]\nweight = "3650 lb"  # scale\ntrack = "59 in"\n'
THREADS = 20


@pytest.fixture
def store():
    made = Store(None)
    yield made
    made.close()


@pytest.fixture
def path(tmp_path):
    return tmp_path / "shop" / DATABASE


def together(jobs):
    """Run all at once; gives what went wrong."""
    gate, wrong = threading.Barrier(len(jobs)), []

    def run(job):
        gate.wait()
        try:
            job()
        except Exception as e:
            wrong.append(e)

    threads = [threading.Thread(target=run, args=(job,)) for job in jobs]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join()
    return wrong


# --- builds and revisions --------------------------------------------------------------------


def test_a_build_is_its_text(store):
    made = store.create(TEXT, "first")
    assert made.name == "Copper Wren" and made.revision == 1 and made.id.isalnum()
    assert store.build(made.id) == made and store.builds() == (made,)
    newest = store.latest(made.id)
    assert (newest.text, newest.note, newest.number, newest.parent) == (TEXT, "first", 1, None)


def test_the_name_follows_the_text(store):
    id = store.create("format = 1\n").id
    assert store.build(id).name == "unnamed build"
    store.save(id, TEXT)
    assert store.build(id).name == "Copper Wren"
    store.save(id, TEXT + "a = = b\n")
    assert store.build(id).name == "Copper Wren"
    assert store.create("a = = b").name == "unnamed build"


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(st.lists(st.text(), min_size=1, max_size=6))
def test_every_text_comes_back_to_the_byte(store, texts):
    id = store.create(texts[0]).id
    for text in texts[1:]:
        assert store.save(id, text).revision.text == text
        assert store.latest(id).text == text
    history = store.history(id)
    kept = [t for n, t in enumerate(texts) if n == 0 or t != texts[n - 1]]
    assert [r.text for r in reversed(history)] == kept
    assert [r.number for r in history] == list(range(len(kept), 0, -1))
    assert [r.parent for r in history] == [*range(len(kept) - 1, 0, -1), None]
    assert [r.made for r in history] == sorted((r.made for r in history), reverse=True)


def test_line_ends_and_zero_signs_are_kept(store):
    text = TEXT.replace("\n", "\r\n") + "\0\r tail"
    assert store.latest(store.create(text).id).text == text


def test_what_is_there_already_is_not_kept_twice(store):
    id = store.create(TEXT).id
    assert store.save(id, TEXT, "again").revision == store.latest(id)
    assert store.restore(id, 1).number == 1 and store.build(id).revision == 1


def test_going_back_is_a_new_revision(store):
    id = store.create(TEXT).id
    store.save(id, TEXT.replace("3650", "3700"))
    back = store.restore(id, 1)
    assert (back.number, back.text, back.parent) == (3, TEXT, 2)
    assert back.note == "back to revision 1"
    assert store.revision(id, 2).text == TEXT.replace("3650", "3700")


def test_a_removed_build_can_be_put_back(store):
    id, other = store.create(TEXT).id, store.create("format = 1\n").id
    store.remove(id)
    assert [b.id for b in store.builds()] == [other] and [b.id for b in store.removed()] == [id]
    for lost in (store.build, store.latest, store.history, store.remove, store.attachments):
        with pytest.raises(NotFoundError, match="no build"):
            lost(id)
    for change in (lambda: store.save(id, TEXT), lambda: store.restore(id, 1)):
        with pytest.raises(NotFoundError, match="no build"):
            change()
    assert store.put_back(id).name == "Copper Wren"
    assert {b.id for b in store.builds()} == {id, other} and store.removed() == ()
    assert store.latest(id).text == TEXT


def test_the_build_last_worked_on_comes_first(store):
    one, two = store.create(TEXT).id, store.create(TEXT).id
    assert [b.id for b in store.builds()] == [two, one]
    store.save(one, "format = 1\n")
    assert [b.id for b in store.builds()] == [one, two]


def test_what_is_not_there_is_said(store):
    id = store.create(TEXT).id
    for number in (0, 2, -1, 10**30):
        with pytest.raises(NotFoundError, match="no revision"):
            store.revision(id, number)
        with pytest.raises(NotFoundError, match="no revision"):
            store.save(id, "x", base=number)
    for ask in (store.build, store.put_back, store.latest, lambda i: store.attachment(i, "x")):
        with pytest.raises(NotFoundError, match="no build"):
            ask("nothing'; DROP TABLE build --")
    assert store.history(id)[0].text == TEXT


def test_what_no_build_can_be_is_refused(store):
    id = store.create(TEXT).id
    for text, why in (("x" * 1_000_001, "too large"), ("\ud800", "no text")):
        with pytest.raises(StoreError, match=why):
            store.create(text)
        with pytest.raises(StoreError, match=why):
            store.save(id, text, base=1)
    assert len(store.builds()) == 1 and store.build(id).revision == 1


# --- two at one build ------------------------------------------------------------------------


def test_two_tabs_are_merged_by_key(store):
    id = store.create(TEXT).id
    first = store.save(id, edit(TEXT, "car.weight", "3700 lb"), base=1)
    assert not first.merged and first.conflicts == ()
    second = store.save(id, edit(TEXT, "car.track", "60 in"), "track", base=1)
    assert second.merged and second.conflicts == ()
    assert second.revision.number == 3 and second.revision.parent == 2
    values = raw_values(second.revision.text)
    assert (values["car.weight"], values["car.track"]) == ("3700 lb", "60 in")
    assert "# scale" in second.revision.text


def test_a_conflict_keeps_theirs_and_sets_ours_aside(store):
    id = store.create(TEXT).id
    store.save(id, edit(TEXT, "car.weight", "3700 lb"))
    ours = edit(edit(TEXT, "car.weight", "3600 lb"), "car.track", "60 in")
    saved = store.save(id, ours, "mine", base=1)
    assert saved.conflicts == (Conflict("car.weight", "3650 lb", "3600 lb", "3700 lb"),)
    assert saved.merged and saved.revision == store.latest(id)
    values = raw_values(saved.revision.text)
    assert (values["car.weight"], values["car.track"]) == ("3700 lb", "60 in")
    aside = store.revision(id, 3)
    assert (aside.text, aside.parent) == (ours, 1)
    assert aside.note == "set aside: made from revision 1 when 2 was the newest; mine"


def test_a_save_sent_again_adds_nothing(store):
    id = store.create(TEXT).id
    store.save(id, edit(TEXT, "car.weight", "3700 lb"))
    for ours in (edit(TEXT, "car.track", "60 in"), edit(TEXT, "car.weight", "3600 lb")):
        once = store.save(id, ours, base=1)
        again = store.save(id, ours, base=1)
        assert again.revision.text == once.revision.text
        assert again.revision.number == store.build(id).revision == once.revision.number
        assert again.conflicts == once.conflicts


# --- threads and programs --------------------------------------------------------------------


def test_twenty_threads_on_twenty_builds(path):
    store = Store(path)
    ids = [store.create(TEXT).id for _ in range(THREADS)]

    def work(id):
        for n in range(10):
            store.save(id, f"{TEXT}# {id} {n}\n", base=n + 1)
            assert store.latest(id).text == f"{TEXT}# {id} {n}\n"
            store.keep_result(f"{id} {n}", str(n))
            assert store.result(f"{id} {n}") == str(n)

    assert together([lambda id=id: work(id) for id in ids]) == []
    assert [len(store.history(id)) for id in ids] == [11] * THREADS
    store.close()


def test_twenty_threads_on_one_build_lose_nothing(path):
    store = Store(path)
    id = store.create(TEXT).id

    def work(n):
        store.save(id, edit(TEXT, f"parts.steels.s{n}.means", f"from {n}"), base=1)

    assert together([lambda n=n: work(n) for n in range(THREADS)]) == []
    values = raw_values(store.latest(id).text)
    assert {values[f"parts.steels.s{n}.means"] for n in range(THREADS)} == {
        f"from {n}" for n in range(THREADS)
    }
    assert values["car.weight"] == "3650 lb"
    store.close()


def test_two_programs_share_a_database(path):
    stores = [Store(path) for _ in range(4)]
    id = stores[0].create(TEXT).id

    def work(store, n):
        for m in range(5):
            store.save(id, f"# {n} {m}\n")

    assert together([lambda s=s, n=n: work(s, n) for n, s in enumerate(stores)]) == []
    history = stores[0].history(id)
    assert {r.text for r in history} == {TEXT} | {
        f"# {n} {m}\n" for n in range(4) for m in range(5)
    }
    assert [r.number for r in history] == list(range(21, 0, -1))
    for store in stores:
        store.close()


def test_twenty_threads_open_a_new_database_at_once(path):
    opened = []
    assert together([lambda: opened.append(Store(path))] * THREADS) == []
    opened[0].create(TEXT)
    assert [len(s.builds()) for s in opened] == [1] * THREADS
    for store in opened:
        store.close()


def test_a_database_that_another_program_holds_is_told(path, monkeypatch):
    monkeypatch.setattr(database_module, "_WAIT", 20)
    store = Store(path)
    id = store.create(TEXT).id
    with closing(sqlite3.connect(path, isolation_level=None)) as other:
        other.execute("BEGIN EXCLUSIVE")
        with pytest.raises(StoreError, match="in use by another program; try again"):
            store.save(id, "x")
        assert store.latest(id).text == TEXT
        other.execute("ROLLBACK")
    assert store.save(id, "x").revision.number == 2
    store.close()


# --- durability ------------------------------------------------------------------------------


def test_every_commit_is_synced(path):
    store = Store(path)
    assert store.setting("journal_mode") == "wal"
    assert store.setting("synchronous") == 2  # FULL
    assert store.setting("foreign_keys") == 1
    assert store.setting("busy_timeout") == 10_000
    assert store.setting("user_version") == len(migrations())
    store.close()


@pytest.mark.skipif(
    not hasattr(os, "fork"), reason="kills a forked child at any moment; Windows cannot fork"
)
def test_killed_at_any_moment_no_promised_save_is_lost(tmp_path):
    done = subprocess.run(
        [sys.executable, HERE / "kill_store.py", tmp_path, str(KILLS), "1"],
        capture_output=True, encoding="utf-8", timeout=300, check=False,
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    promised, found = map(int, done.stdout.split())
    assert promised == found > 0


def test_a_change_that_fails_is_undone(path):
    database = Database(path)
    with pytest.raises(StoreError, match="damaged"), database.changing() as db:
        db.execute("INSERT INTO build VALUES ('a', 'b', 'c', 'd', NULL)")
        db.execute("INSERT INTO revision VALUES ('nobody', 1, '', '', '', NULL)")
    with database.reading() as db:
        assert db.execute("SELECT count(*) FROM build").fetchone()[0] == 0
    with pytest.raises(RuntimeError), database.changing() as db:
        db.execute("INSERT INTO build VALUES ('a', 'b', 'c', 'd', NULL)")
        raise RuntimeError
    with database.reading() as db:
        assert db.execute("SELECT count(*) FROM build").fetchone()[0] == 0
    database.close()


def test_closed_is_closed(path):
    store = Store(path)
    id = store.create(TEXT).id
    store.close()
    store.close()
    with pytest.raises(StoreError, match="closed"):
        store.latest(id)
    with pytest.raises(StoreError, match="closed"):
        store.save(id, "x")
    again = Store(path)
    assert again.latest(id).text == TEXT
    again.close()


# --- formats ---------------------------------------------------------------------------------


def version_of(path):
    with closing(sqlite3.connect(path)) as db:
        return db.execute("PRAGMA user_version").fetchone()[0]


def backups(path):
    return sorted(p.name for p in path.parent.glob("*backup*"))


NEXT = "CREATE TABLE later (id TEXT);\nALTER TABLE build ADD COLUMN owner TEXT;\n"


def test_a_new_database_is_not_backed_up(path):
    Store(path).close()
    Store(path).close()
    assert version_of(path) == len(migrations()) and backups(path) == []


def test_a_database_is_copied_before_its_format_changes(path):
    store = Store(path)
    id = store.create(TEXT).id
    store.close()
    now = len(migrations())
    Database(path, (*migrations(), NEXT)).close()
    assert version_of(path) == now + 1
    (name,) = backups(path)
    assert name == f"{DATABASE}.format-{now}.backup"
    old = Store(path.with_name(name))
    assert old.latest(id).text == TEXT
    old.close()


def test_a_change_of_format_that_fails_changes_nothing(path):
    store = Store(path)
    id = store.create(TEXT).id
    store.close()
    for broken in ("CREATE TABLE later (id TEXT);\nNONSENSE;\n", "CREATE TABLE later (id TEXT"):
        with pytest.raises(StoreError):
            Database(path, (*migrations(), broken))
    with pytest.raises(StoreError, match="1 links"):
        Database(path, (*migrations(), "INSERT INTO revision VALUES ('z', 1, '', '', '', NULL);\n"))
    assert len(backups(path)) == 3
    store = Store(path)
    assert store.latest(id).text == TEXT
    store.close()


def test_a_newer_database_is_refused_in_words(path):
    newer = len(migrations()) + 1
    Database(path, (*migrations(), NEXT)).close()
    before = path.read_bytes()
    with pytest.raises(
        StoreError, match=rf"format {newer}, from a newer version .* update axlewright"
    ):
        Store(path)
    assert path.read_bytes() == before and backups(path) == []


def test_what_is_not_ours_is_left_alone(tmp_path):
    strange, text, folder = tmp_path / "a.db", tmp_path / "b.db", tmp_path / "c.db"
    with closing(sqlite3.connect(strange)) as db:
        db.execute("CREATE TABLE songs (name TEXT)")
        db.commit()
    text.write_text("no database at all, only some words " * 50, encoding="utf-8")
    folder.mkdir()
    for path, why in (
        (strange, "another program"),
        (text, "no database"),
        (folder, "cannot be used"),
        (text / "deeper" / "d.db", "cannot be used"),
    ):
        before = path.read_bytes() if path.is_file() else b""
        with pytest.raises(StoreError, match=why):
            Store(path)
        assert (path.read_bytes() if path.is_file() else b"") == before


@pytest.mark.parametrize("golden", GOLDEN, ids=lambda p: p.stem)
def test_a_database_of_every_past_format_opens(golden, path):
    path.parent.mkdir()
    with closing(sqlite3.connect(path)) as db:
        db.executescript(golden.read_text(encoding="utf-8"))
    assert version_of(path) == int(golden.stem.rpartition("_")[2])
    store = Store(path)
    assert [(b.id, b.name, b.revision) for b in store.builds()] == [("wren2345", "Copper Wren", 3)]
    assert [b.id for b in store.removed()] == ["pe23kcan"]
    assert [(r.number, r.parent, r.note) for r in store.history("wren2345")] == [
        (3, 2, "back to revision 1"), (2, 1, ""), (1, None, "from the template"),
    ]  # fmt: skip
    assert store.latest("wren2345").text == store.revision("wren2345", 1).text
    assert raw_values(store.revision("wren2345", 2).text)["car.weight"] == "3650 ± 40 lb"
    (kept,) = store.attachments("wren2345")
    assert (kept.name, kept.kind, kept.size) == ("sheet.bin", "application/octet-stream", 4)
    assert store.attachment("wren2345", kept.id)[1] == b"\x00\x01\xfe\xff"
    assert store.result("key") == '{"holds": true}'
    saved = store.save("wren2345", TEXT)
    assert saved.revision.number == 4
    store.close()


def test_there_is_a_past_database_of_every_format():
    assert [p.stem for p in GOLDEN] == [f"format_{n + 1}" for n in range(len(migrations()))]


# --- attachments and results -----------------------------------------------------------------


def test_attachments_are_kept_with_their_build(store):
    id, other = store.create(TEXT).id, store.create(TEXT).id
    one = store.attach(id, "sheet.pdf", b"%PDF\0\xff", "application/pdf")
    two = store.attach(id, "empty", b"", "text/plain")
    assert store.attachments(id) == (one, two) and store.attachments(other) == ()
    assert store.attachment(id, one.id) == (one, b"%PDF\0\xff")
    assert store.attachment(id, two.id) == (two, b"")
    assert one.size == 6
    with pytest.raises(NotFoundError, match="no attachment"):
        store.attachment(other, one.id)


def test_a_large_attachment_is_refused(store, monkeypatch):
    monkeypatch.setattr(builds_module, "LARGEST_ATTACHMENT", 2_000_000)
    id = store.create(TEXT).id
    with pytest.raises(StoreError, match=r"3\.0 MB are too much; at most 2 MB"):
        store.attach(id, "big", bytes(3_000_000), "video/mp4")
    assert store.attachments(id) == ()


def test_results_are_kept_within_bounds(store, monkeypatch):
    monkeypatch.setattr(builds_module, "RESULTS_KEPT", 5)
    for n in range(8):
        store.keep_result(str(n), f"text {n}")
    assert [store.result(str(n)) for n in range(8)] == [None] * 3 + [
        f"text {n}" for n in range(3, 8)
    ]
    store.keep_result("3", "newer")
    store.keep_result("8", "text 8")
    assert store.result("3") == "newer" and store.result("4") is None
    monkeypatch.setattr(builds_module, "RESULT_SIGNS_KEPT", 20)
    store.keep_result("9", "x" * 15)
    assert store.result("9") == "x" * 15 and store.result("8") is None
    monkeypatch.setattr(builds_module, "LARGEST_RESULT", 15)
    store.keep_result("10", "x" * 16)
    assert store.result("10") is None and store.result("9") is not None


def test_the_data_folder_can_be_chosen(monkeypatch, tmp_path):
    monkeypatch.setenv("AXLEWRIGHT_DATA", str(tmp_path / "here"))
    assert data_folder() == tmp_path / "here"
    monkeypatch.delenv("AXLEWRIGHT_DATA")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert data_folder() == tmp_path / "axlewright"
    for unset in ("", "not/absolute"):
        monkeypatch.setenv("XDG_DATA_HOME", unset)
        monkeypatch.setenv("HOME", str(tmp_path))
        assert data_folder() == tmp_path / ".local" / "share" / "axlewright"
