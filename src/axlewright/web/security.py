"""Who may talk to the workbench: this machine, its own pages, or who knows the passphrase.

Each request passes the guard before anything else looks at it:

- ``Host`` must be a name that the workbench was started for: a foreign name that was made to point
  here (DNS rebinding) is refused;
- what changes something must come from a page of the workbench itself, shown by ``Origin`` or
  ``Sec-Fetch-Site``; other sites may link here but load or post nothing;
- a body is read to its limit and no further; only where files are kept with a build may it be
  larger, and there it is handed on piece by piece;
- on a local network, a session is needed, which the passphrase opens.

Nothing is encrypted: the passphrase keeps others out, but who listens to the
network can read along.
"""

from __future__ import annotations

import ipaddress
import re

from fastapi.responses import RedirectResponse, Response
from starlette.datastructures import Headers, MutableHeaders
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from axlewright.store.builds import LARGEST_ATTACHMENT
from axlewright.web import errors
from axlewright.web.sessions import UNLOCK, Sessions, session_of
from axlewright.workshop.attaching import TOO_LARGE

LOOPBACK = ("127.0.0.1", "localhost", "[::1]")
LARGEST_BODY = 1_000_000
"""Bytes that a request may bring."""
LARGEST_UPLOAD = LARGEST_ATTACHMENT + 100_000
"""Bytes of a request that brings a file to keep: the form around it needs some."""
POLICY = (
    "default-src 'self'; img-src 'self' data: blob:; object-src 'none'; base-uri 'none';"
    " form-action 'self'; frame-ancestors 'none'"
)
"""No script or style inside a page; pictures also from memory, to save a chart as PNG."""
PICTURE_POLICY = "default-src 'none'; style-src 'unsafe-inline'; sandbox; frame-ancestors 'none'"
"""For a kept picture that a browser shows by itself: it may lay the picture out, nothing else."""
HEADERS = {
    "Content-Security-Policy": POLICY,
    "X-Content-Type-Options": "nosniff",
    "X-Frame-Options": "DENY",
    # Not no-referrer: a browser would then send "Origin: null" with our own forms.
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
}
_CLOSE = {"Connection": "close"}
_SAFE = {"GET", "HEAD", "OPTIONS"}
_OURS = {"same-origin", "none"}
_HOST = re.compile(r"(?P<name>\[[0-9a-f:.]+\]|[a-z0-9._-]+)(?::[0-9]{1,5})?")
_UPLOAD = re.compile(r"/api/builds/[^/]+/attachments|/builds/[^/]+/papers/files")
_OPEN_TO_ALL = ("/static/", "/fonts/", UNLOCK)


class SafeHeaders:
    """Puts the headers on every answer that keep a browser from doing what no page asked for."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass the request on and complete the answer's headers."""
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return

        async def complete(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableHeaders(scope=message)
                picture = headers.get("Content-Security-Policy") == PICTURE_POLICY
                for name, value in HEADERS.items():
                    headers[name] = value
                if picture:
                    headers["Content-Security-Policy"] = PICTURE_POLICY
                headers.setdefault("Cache-Control", "no-store")
            await send(message)

        await self.app(scope, receive, complete)


class Guard:
    """Looks at each request before the application does."""

    def __init__(self, app: ASGIApp, hosts: tuple[str, ...], sessions: Sessions | None) -> None:
        self.app = app
        self.hosts = frozenset(h.lower() for h in hosts)
        self.sessions = sessions

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on, or answer it here."""
        if scope["type"] == "websocket":
            await send({"type": "websocket.close", "code": 1008})
            return
        if scope["type"] != "http":
            await self.app(scope, receive, send)
            return
        headers = Headers(scope=scope)
        refused = self._stranger(scope, headers) or self._locked(scope, headers)
        body: Receive | None = None
        if refused is None:
            upload = scope["method"] == "POST" and _UPLOAD.fullmatch(scope["path"])
            body = await (_streamed if upload else _whole)(headers, receive)
            if body is None:
                said = (
                    TOO_LARGE if upload else f"a request may bring {LARGEST_BODY:,} bytes, no more"
                )
                refused = errors.answer(scope["path"], 413, said, headers=_CLOSE)
        if refused is not None:
            await refused(scope, receive, send)
            return
        assert body is not None
        await self.app(scope, body, send)

    def _stranger(self, scope: Scope, headers: Headers) -> Response | None:
        """An answer to who is not a page of ours."""
        path, method = scope["path"], scope["method"]
        given = headers.getlist("host")
        found = _HOST.fullmatch(given[0].lower()) if len(given) == 1 else None
        if found is None or not self._mine(found["name"], scope):
            return errors.answer(path, 403, "the workbench does not answer to this host name")
        site = headers.get("sec-fetch-site")
        if method in _SAFE:
            linked = method == "GET" and headers.get("sec-fetch-mode") == "navigate"
            if site is not None and site not in _OURS and not linked:
                return errors.answer(path, 403, "another site may link here but load nothing")
            return None
        origin = headers.get("origin")
        ours = f"{scope['scheme']}://{given[0]}".lower()
        fine = origin.lower() == ours if origin is not None else site is not None
        if fine and (site is None or site in _OURS):
            return None
        said = (
            "what changes something must come from a page of the workbench itself; a program sends"
            f" the header Origin: {ours}"
            if origin is None and site is None
            else "what changes something must come from a page of the workbench itself"
        )
        return errors.answer(path, 403, said)

    def _mine(self, name: str, scope: Scope) -> bool:
        """Whether a host name is ours: one that was given, or the very address that was called."""
        if name in self.hosts:
            return True
        server = scope.get("server")
        if self.sessions is None or not server:
            return False
        try:
            return ipaddress.ip_address(name.strip("[]")) == ipaddress.ip_address(server[0])
        except ValueError:
            return False

    def _locked(self, scope: Scope, headers: Headers) -> Response | None:
        """An answer to who has not given the passphrase."""
        path = scope["path"]
        if self.sessions is None or path.startswith(_OPEN_TO_ALL):
            return None
        if self.sessions.known(session_of(headers)):
            return None
        if errors.is_api(path) or "hx-request" in headers or scope["method"] not in _SAFE:
            said = f"the passphrase that was shown at the start opens this, at {UNLOCK}"
            return errors.answer(path, 401, said)
        return RedirectResponse(UNLOCK, 303)


async def _whole(headers: Headers, receive: Receive) -> Receive | None:
    """The whole body, read here; None if it is larger than a request may be."""
    if _declared(headers) > LARGEST_BODY:
        return None
    parts: list[bytes] = []
    size = 0
    while True:
        message = await receive()
        if message["type"] == "http.disconnect":
            return _replay(b"".join(parts), receive)
        parts.append(message.get("body", b""))
        size += len(parts[-1])
        if size > LARGEST_BODY:
            return None
        if not message.get("more_body", False):
            return _replay(b"".join(parts), receive)


async def _streamed(headers: Headers, receive: Receive) -> Receive | None:
    """A body that the application reads piece by piece; reading past the limit is refused."""
    if _declared(headers) > LARGEST_UPLOAD:
        return None
    size = 0

    async def counted() -> Message:
        nonlocal size
        message = await receive()
        size += len(message.get("body", b""))
        if size > LARGEST_UPLOAD:
            raise HTTPException(413, TOO_LARGE, _CLOSE)
        return message

    return counted


def _declared(headers: Headers) -> int:
    """How large a body says it is."""
    said = headers.get("content-length", "")
    return int(said) if said.isascii() and said.isdigit() and len(said) < 20 else 0


def _replay(body: bytes, receive: Receive) -> Receive:
    """Hand a body that was read on to the application."""
    given = False

    async def again() -> Message:
        nonlocal given
        if not given:
            given = True
            return {"type": "http.request", "body": body, "more_body": False}
        return await receive()

    return again
