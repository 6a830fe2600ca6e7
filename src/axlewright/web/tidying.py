"""Clears memory between requests instead of in the middle of one.

The workbench keeps the latest studies with the working of every number: some hundred thousand small
objects.  Python's own collection of cycles would look through all of them while somebody waits for
an answer (measured: 0.13 s on top of an edit).  So it looks only at young objects while requests
are answered, and at all of them once nobody asks.
"""

from __future__ import annotations

import asyncio
import gc
import time
from collections.abc import AsyncIterator
from contextlib import asynccontextmanager

from starlette.types import ASGIApp, Receive, Scope, Send

_YOUNG, _MIDDLE, _SELDOM = 20_000, 20, 100_000
_LOOK_EVERY = 0.5  # seconds
_QUIET = 2.0  # seconds without a request
_AT_LATEST = 500  # requests, however busy it is


class Tidying:
    """Counts requests, and tidies up when there are none."""

    running_now = 0
    before = gc.get_threshold()
    """How Python does it when no workbench runs in this process."""

    def __init__(self) -> None:
        self.open = 0
        self.since = 0
        self.last = time.monotonic()

    @asynccontextmanager
    async def running(self) -> AsyncIterator[None]:
        """Tidy while the application runs; Python does it as before afterwards."""
        if not Tidying.running_now:
            Tidying.before = gc.get_threshold()
            gc.collect()
            gc.freeze()  # what the program itself is made of stays: nobody need look at it again
            gc.set_threshold(_YOUNG, _MIDDLE, _SELDOM)
        Tidying.running_now += 1
        task = asyncio.create_task(self._watch())
        try:
            yield
        finally:
            task.cancel()
            Tidying.running_now -= 1
            if not Tidying.running_now:
                gc.set_threshold(*Tidying.before)
                gc.unfreeze()

    def due(self) -> bool:
        """Whether now is the time: something was answered, and nobody is waiting."""
        quiet = not self.open and time.monotonic() - self.last > _QUIET
        return self.since > 0 and (quiet or self.since > _AT_LATEST)

    def tidy(self) -> None:
        """Look through everything once."""
        self.since = 0
        gc.collect()

    async def _watch(self) -> None:
        while True:
            await asyncio.sleep(_LOOK_EVERY)
            if self.due():
                self.tidy()


class Counted:
    """Tells the tidying of each request."""

    def __init__(self, app: ASGIApp, tidying: Tidying) -> None:
        self.app = app
        self.tidying = tidying

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        # A page that is open asks every few seconds whether we are there: that is no work.
        work = not scope["path"].endswith("/pulse")
        self.tidying.open += work
        try:
            await self.app(scope, receive, send)
        finally:
            self.tidying.open -= work
            if work:
                self.tidying.since += 1
                self.tidying.last = time.monotonic()
