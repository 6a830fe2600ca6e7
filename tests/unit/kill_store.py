"""Kill a program at random moments while it saves, and look for every save that it was promised.

Run as ``kill_store.py folder rounds seed``; prints how many saves were promised and found.
"""

import os
import random
import signal
import sqlite3
import sys
import time
from contextlib import closing
from pathlib import Path

from axlewright.store.builds import Store

LONGEST = 0.05  # seconds until the kill


def text_of(number):
    return f'format = 1\nname = "save {number}"\n' + f"# {number}\n" * (number % 300)


def save_for_ever(path, acknowledge, start):
    """Save without end, and say each save once the store has promised it."""
    store = Store(path)
    id = (store.builds() or (store.create(text_of(0)),))[0].id
    for number in range(start, sys.maxsize):
        store.save(id, text_of(number))
        os.write(acknowledge, b"%d\n" % number)


def killed_once(path, start, wait):
    """Promised numbers of a child that is killed after a while."""
    reading, writing = os.pipe()
    child = os.fork()
    if not child:
        try:
            save_for_ever(path, writing, start)
        finally:
            os._exit(1)
    os.close(writing)
    time.sleep(wait)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    assert os.WTERMSIG(status) == signal.SIGKILL
    with os.fdopen(reading, "rb") as pipe:
        return [int(line) for line in pipe.read().split()]


def texts_in(path):
    store = Store(path)
    try:
        return {r.text for b in store.builds() for r in store.history(b.id)}
    finally:
        store.close()


def main(folder, rounds, seed):
    rng = random.Random(seed)
    promised = found = 0
    for n in range(rounds):
        path = Path(folder, f"{n // 2}.sqlite3")  # every second round begins with no file
        start = (n % 2) * 1_000_000 + 1
        numbers = killed_once(path, start, rng.uniform(0.0, LONGEST))
        texts = texts_in(path)
        with closing(sqlite3.connect(path)) as db:
            assert db.execute("PRAGMA integrity_check").fetchall() == [("ok",)]
            assert db.execute("PRAGMA foreign_key_check").fetchall() == []
        promised += len(numbers)
        found += sum(text_of(number) in texts for number in numbers)
    print(promised, found)


if __name__ == "__main__":
    main(sys.argv[1], int(sys.argv[2]), int(sys.argv[3]))
