"""Keeps the latest answers, and works each out once though many ask for it at the same time."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable
from concurrent.futures import Future
from typing import Generic, TypeVar

V = TypeVar("V")


class Kept(Generic[V]):
    """Answers by key, the least recently asked dropped first.

    Whoever asks while an answer is being made waits for it; what fails is not kept.
    """

    def __init__(self, most: int) -> None:
        self._most = most
        self._lock = threading.Lock()
        self._answers: OrderedDict[str, Future[V]] = OrderedDict()

    def get(self, key: str, make: Callable[[], V]) -> V:
        """The answer of a key; made by this caller if nobody has or is about to."""
        with self._lock:
            known = self._answers.get(key)
            if known is not None:
                self._answers.move_to_end(key)
            else:
                mine: Future[V] = Future()
                self._answers[key] = mine
                while len(self._answers) > self._most:
                    self._answers.popitem(last=False)
        if known is not None:
            return known.result()
        try:
            answer = make()
        except BaseException as e:
            with self._lock:
                if self._answers.get(key) is mine:
                    del self._answers[key]
            mine.set_exception(e)
            raise
        mine.set_result(answer)
        return answer

    def __len__(self) -> int:
        return len(self._answers)
