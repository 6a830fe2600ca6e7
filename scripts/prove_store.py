"""Prove that no acknowledged edit is lost when the workbench is killed; write docs/proof/store.md.

Twice over: the store alone, killed 200 times while it saves without a pause, and the whole
workbench, killed 25 times while two clients edit one build over HTTP.
"""

from __future__ import annotations

import http.client
import json
import os
import platform
import random
import re
import signal
import sqlite3
import subprocess
import sys
import tempfile
import threading
import time
from contextlib import closing, suppress
from dataclasses import dataclass, field
from pathlib import Path

from axlewright import __version__
from axlewright.store.builds import Store
from axlewright.store.database import DATABASE

ROOT = Path(__file__).resolve().parents[1]
TARGET = ROOT / "docs" / "proof" / "store.md"
KILLS, SERVER_KILLS, SEED = 200, 25, 7
CLIENTS = 2
LONGEST = 1.5  # seconds until the server is killed
SERVE = [sys.executable, "-m", "axlewright.cli.main", "serve", "--no-open", "--port", "0"]


@dataclass
class Tally:
    """What was acknowledged, and what of it was there afterwards."""

    kills: int = 0
    acknowledged: int = 0
    found: int = 0
    seconds: float = 0.0


@dataclass
class Told:
    """Values that the server has acknowledged, by the key that was edited."""

    values: list[tuple[str, str]] = field(default_factory=list)


def main() -> None:
    """Kill, look, write the page."""
    store, server = store_alone(), whole_workbench()
    for name, tally in (("store", store), ("workbench", server)):
        print(f"{name}: {tally.kills} kills, {tally.found} of {tally.acknowledged} found")
        if tally.found != tally.acknowledged or not tally.acknowledged:
            raise SystemExit("an acknowledged edit is lost, or none was acknowledged")
    TARGET.parent.mkdir(parents=True, exist_ok=True)
    TARGET.write_text(page(store, server), encoding="utf-8")
    print(f"written: {TARGET.relative_to(ROOT)}")


def store_alone() -> Tally:
    """Kill a process that does nothing but save."""
    before = time.monotonic()
    with tempfile.TemporaryDirectory() as folder:
        script = ROOT / "tests" / "unit" / "kill_store.py"
        done = subprocess.run(
            [sys.executable, str(script), folder, str(KILLS), str(SEED)],
            capture_output=True, text=True, check=True,
        )  # fmt: skip
    promised, found = map(int, done.stdout.split())
    return Tally(KILLS, promised, found, time.monotonic() - before)


def whole_workbench() -> Tally:
    """Kill the server while clients edit; every second round goes on with the same database."""
    rng, tally, before = random.Random(SEED), Tally(), time.monotonic()
    with tempfile.TemporaryDirectory() as top:
        for n in range(SERVER_KILLS):
            folder = Path(top, f"{n // 2}")
            told = killed_once(folder, rng.uniform(0.1, LONGEST))
            texts = texts_in(folder / DATABASE)
            tally.kills += 1
            tally.acknowledged += len(told)
            tally.found += sum(any(f'{k} = "{v}"' in t for t in texts) for k, v in told)
    tally.seconds = time.monotonic() - before
    return tally


def killed_once(folder: Path, wait: float) -> list[tuple[str, str]]:
    """What clients were told is kept by a server that was then killed."""
    with subprocess.Popen(
        [*SERVE, "--data", str(folder)], stdout=subprocess.PIPE, text=True,
        env={**os.environ, "PYTHONUNBUFFERED": "1"},
    ) as server:  # fmt: skip
        assert server.stdout is not None
        found = re.search(r"http://127\.0\.0\.1:(\d+)", server.stdout.readline())
        if found is None:
            raise SystemExit("the workbench did not start")
        port = int(found[1])
        build = ask(port, "POST", "/api/builds", {})["build"]["id"]
        told = [Told() for _ in range(CLIENTS)]
        keys = (("car.weight", "lb"), ("engine.torque", "lbf*ft"))
        threads = [
            threading.Thread(target=edit_for_ever, args=(port, build, *keys[i], told[i]))
            for i in range(CLIENTS)
        ]
        for thread in threads:
            thread.start()
        time.sleep(wait)
        server.send_signal(signal.SIGKILL)
        for thread in threads:
            thread.join()
    return [value for t in told for value in t.values]


def edit_for_ever(port: int, build: str, key: str, unit: str, told: Told) -> None:
    """Write one key again and again until nobody answers any more."""
    with suppress(OSError, http.client.HTTPException):
        for number in range(1, sys.maxsize):
            value = f"{100 + number}.{os.getpid() % 10} {unit}"
            ask(port, "PATCH", f"/api/builds/{build}/keys/{key}", {"value": value})
            told.values.append((key.rpartition(".")[2], value))


def ask(port: int, method: str, path: str, body: dict[str, str]) -> dict[str, dict[str, str]]:
    """The result of a request."""
    line = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    headers = {"Content-Type": "application/json", "Origin": f"http://127.0.0.1:{port}"}
    with closing(line):
        line.request(method, path, json.dumps(body), headers)
        answer = line.getresponse()
        data = answer.read()
    if answer.status not in {200, 201}:
        raise SystemExit(f"{method} {path}: {answer.status} {data[:200]!r}")
    result: dict[str, dict[str, str]] = json.loads(data)["result"]
    return result


def texts_in(path: Path) -> list[str]:
    """Every text in the database, which must open and be whole."""
    with closing(Store(path)) as store:
        if store.setting("synchronous") != 2:
            raise SystemExit("the store does not wait for the disk")
        texts = [r.text for b in store.builds() for r in store.history(b.id)]
    with closing(sqlite3.connect(path)) as db:
        if db.execute("PRAGMA integrity_check").fetchall() != [("ok",)]:
            raise SystemExit("the database is damaged")
    return texts


def page(store: Tally, server: Tally) -> str:
    """The page that says what was done and what came out."""
    rows = [
        f"| {what} | {t.kills} | {t.acknowledged:,} | {t.acknowledged - t.found} |"
        f" {t.seconds:.0f} s |"
        for what, t in (("the store alone, saving without a pause", store),
                        (f"the workbench, {CLIENTS} clients editing one build over HTTP", server))
    ]  # fmt: skip
    return "\n".join([
        "# Killed at any moment",
        "",
        "Written by `scripts/prove_store.py`. A process is ended by `SIGKILL` at a random moment;",
        "afterwards the database must open, be whole (`integrity_check`), and hold every edit that",
        "was acknowledged before. `synchronous` is FULL throughout.",
        "",
        "| what was killed | times | edits acknowledged | lost | took |",
        "| --- | ---: | ---: | ---: | ---: |",
        *rows,
        "",
        f"axlewright {__version__}, Python {platform.python_version()}, SQLite"
        f" {sqlite3.sqlite_version}, {platform.system()}, seed {SEED}.",
        "",
        "`SIGKILL` ends the program, not the machine: what the disk itself does when the power",
        "fails is not shown by this.",
        "",
    ])  # fmt: skip


if __name__ == "__main__":
    main()
