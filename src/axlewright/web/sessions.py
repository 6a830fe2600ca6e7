"""Sessions on a network: the passphrase opens one, who guesses too often has to wait."""

from __future__ import annotations

import hmac
import re
import secrets
import threading
import time
from collections import OrderedDict, deque
from collections.abc import Callable
from http.cookies import CookieError, SimpleCookie

from fastapi import APIRouter, Form, Request
from fastapi.responses import RedirectResponse, Response
from starlette.datastructures import Headers

from axlewright.web.rendering import environment

COOKIE = "axlewright_session"
UNLOCK = "/unlock"
_GUESSES_EACH, _GUESSES_ALL, _WITHIN = 5, 30, 60.0
_MOST_SESSIONS = 50


class Sessions:
    """Sessions opened with the passphrase; who guesses too often has to wait."""

    def __init__(self, passphrase: str, clock: Callable[[], float] = time.monotonic) -> None:
        if not _spoken(passphrase):
            raise ValueError("a workbench on the network needs a passphrase")
        self._passphrase = _spoken(passphrase)
        self._clock = clock
        self._lock = threading.Lock()
        self._open: OrderedDict[str, None] = OrderedDict()
        self._wrong: deque[tuple[float, str]] = deque()

    def wait(self, address: str) -> int:
        """Seconds until this address may guess again; 0 if it may now."""
        with self._lock:
            return self._wait(address)

    def unlock(self, guess: str, address: str) -> str | None:
        """A new session for the right passphrase, None for a wrong or a hasty one."""
        with self._lock:
            if self._wait(address):
                return None
            if not hmac.compare_digest(_spoken(guess), self._passphrase):
                self._wrong.append((self._clock(), address))
                return None
            token = secrets.token_urlsafe(32)
            self._open[token] = None
            while len(self._open) > _MOST_SESSIONS:
                self._open.popitem(last=False)
            return token

    def known(self, token: str) -> bool:
        """Whether a session is open."""
        with self._lock:
            return token in self._open

    def _wait(self, address: str) -> int:
        now = self._clock()
        while self._wrong and self._wrong[0][0] <= now - _WITHIN:
            self._wrong.popleft()
        mine = [when for when, who in self._wrong if who == address]
        over = []
        if len(mine) >= _GUESSES_EACH:
            over.append(mine[-_GUESSES_EACH])
        if len(self._wrong) >= _GUESSES_ALL:
            over.append(self._wrong[-_GUESSES_ALL][0])
        return max((int(when + _WITHIN - now) + 1 for when in over), default=0)


def _spoken(passphrase: str) -> bytes:
    """A passphrase as it is compared: letter case and what stands between words do not matter."""
    parts = re.split(r"[\s\-_.,]+", passphrase.casefold())
    return " ".join(filter(None, parts)).encode("utf-8", "replace")


def session_of(headers: Headers) -> str:
    """The session that a request shows, if any."""
    try:
        cookies = SimpleCookie("; ".join(headers.getlist("cookie")))
    except CookieError:
        return ""
    return cookies[COOKIE].value if COOKIE in cookies else ""


router = APIRouter(include_in_schema=False)
"""The page that asks for the passphrase; only a workbench on the network has it."""


@router.get(UNLOCK)
def ask(request: Request) -> Response:
    """Ask for the passphrase."""
    return _asking(request, "", 200)


@router.post(UNLOCK)
def unlock(request: Request, passphrase: str = Form("", max_length=200)) -> Response:
    """Open a session."""
    sessions: Sessions = request.app.state.sessions
    address = request.client.host if request.client else ""
    wait = sessions.wait(address)
    if wait:
        said = f"Too many wrong passphrases; try again in {wait} s."
        return _asking(request, said, 429, {"Retry-After": str(wait)})
    token = sessions.unlock(passphrase, address)
    if token is None:
        return _asking(request, "That is not the passphrase.", 403)
    opened = RedirectResponse("/", 303)
    opened.set_cookie(COOKIE, token, path="/", httponly=True, samesite="strict")
    return opened


def _asking(
    request: Request, said: str, status: int, headers: dict[str, str] | None = None
) -> Response:
    del request
    page = environment().get_template("unlock.html").render(said=said)
    return Response(page, status, headers, media_type="text/html")
