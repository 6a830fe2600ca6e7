"""What goes wrong, told alike on every address: the error shape of the command line, or a page."""

from __future__ import annotations

import traceback
from typing import Any, cast

from fastapi import FastAPI, Request
from fastapi.exceptions import RequestValidationError
from fastapi.responses import HTMLResponse, Response
from starlette.exceptions import HTTPException
from starlette.types import ASGIApp, Message, Receive, Scope, Send

from axlewright.build.edit import EditError
from axlewright.build.problems import BuildError
from axlewright.store.database import NotFoundError, StoreError
from axlewright.web.rendering import environment
from axlewright.workshop import messages
from axlewright.workshop.attaching import FileRefusedError
from axlewright.workshop.jobs import NoJobError

API = "/api"
KINDS = {
    401: "locked",
    403: "refused",
    404: "not found",
    405: "not allowed",
    409: "not possible",
    413: "too large",
    422: "bad input",
    429: "too many",
    500: "our fault",
}
"""What an error is called, by the status that it comes with."""
TITLES = {404: "There is no such page", 413: "Too large", 500: "A fault of ours"}


def is_api(path: str) -> bool:
    """Whether an address belongs to the programs' side, which is answered in JSON."""
    return path == API or path.startswith(API + "/")


def answer(
    path: str,
    status: int,
    message: str,
    problems: list[dict[str, Any]] | None = None,
    headers: dict[str, str] | None = None,
) -> Response:
    """An error as JSON on the programs' side, as a page elsewhere."""
    kind = KINDS.get(status, "bad input" if status < 500 else "our fault")
    if is_api(path):
        text = messages.error_envelope(kind, message, problems)
        return Response(text, status, headers, media_type="application/json")
    title = TITLES.get(status, "That did not work")
    page = environment().get_template("error.html").render(title=title, message=message)
    return HTMLResponse(page, status, headers)


def install(app: FastAPI) -> None:
    """Answer every error of the application in that shape."""

    def build_error(request: Request, error: Exception) -> Response:
        e = cast(BuildError, error)
        problems = [{"file": e.file, **messages.plain(p)} for p in e.problems]
        return answer(request.url.path, 422, str(e), problems)

    def missing(request: Request, error: Exception) -> Response:
        return answer(request.url.path, 404, words(error))

    def edit_error(request: Request, error: Exception) -> Response:
        return answer(request.url.path, 422, words(error))

    def store_error(request: Request, error: Exception) -> Response:
        return answer(request.url.path, 409, words(error))

    def http_error(request: Request, error: Exception) -> Response:
        e = cast(HTTPException, error)
        message = _SAID.get((e.status_code, e.detail), e.detail)
        headers = dict(e.headers) if e.headers else None
        status = 422 if e.status_code == 400 else e.status_code
        return answer(request.url.path, status, message, None, headers)

    def not_understood(request: Request, error: Exception) -> Response:
        problems = [_problem(item) for item in cast(RequestValidationError, error).errors()]
        message = "; ".join(f"{p['key']}: {p['message']}" if p["key"] else p["message"]
                            for p in problems)  # fmt: skip
        return answer(request.url.path, 422, message, problems)

    app.add_exception_handler(BuildError, build_error)
    app.add_exception_handler(EditError, edit_error)
    app.add_exception_handler(FileRefusedError, edit_error)
    app.add_exception_handler(NotFoundError, missing)
    app.add_exception_handler(NoJobError, missing)
    app.add_exception_handler(StoreError, store_error)
    app.add_exception_handler(HTTPException, http_error)
    app.add_exception_handler(RequestValidationError, not_understood)


class Faults:
    """Tells what we did not foresee as our fault, below whatever completes the answer's headers."""

    def __init__(self, app: ASGIApp) -> None:
        self.app = app

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Pass a request on; answer it if that fails before an answer has begun."""
        begun = False

        async def watched(message: Message) -> None:
            nonlocal begun
            begun = True
            await send(message)

        try:
            await self.app(scope, receive, watched)
        except Exception as e:
            if scope["type"] != "http":
                raise
            traceback.print_exception(e)
            if not begun:
                await our_fault(scope["path"], e)(scope, receive, send)


def our_fault(path: str, error: Exception) -> Response:
    """What we did not foresee, in words."""
    said = (
        f"This is a fault of axlewright, not yours ({type(error).__name__}). What is kept is"
        " untouched. What happened stands in the window that the workbench was started from."
    )
    return answer(path, 500, said)


_SAID = {
    (400, "There was an error parsing the body"): "what was sent does not read as text in UTF-8",
    (404, "Not Found"): "there is nothing at this address",
    (405, "Method Not Allowed"): "this address does not take that method",
}


def words(error: Exception) -> str:
    """The message of an error, without what Python puts around it."""
    return str(error.args[0]) if error.args else type(error).__name__


def _problem(item: dict[str, Any]) -> dict[str, Any]:
    """What is wrong with a request, in the shape of a problem of a build file."""
    place = [str(part) for part in item["loc"][1:] if not isinstance(part, int)]
    message = "this is no JSON" if item["type"] == "json_invalid" else _words_of(item)
    key = "" if item["type"] == "json_invalid" else ".".join(place)
    return {"file": "request", "severity": "error", "key": key, "message": message,
            "line": 1, "column": 1}  # fmt: skip


_WORDS = {
    "missing": "is missing",
    "extra_forbidden": "is not known here",
    "string_unicode": "is no text in Unicode",
    "string_type": "must be text",
    "string_too_long": "is too long; {max_length} signs are the most",
    "string_pattern_mismatch": "is not written like one",
    "int_type": "must be a whole number",
    "int_parsing": "must be a whole number",
    "int_parsing_size": "must be a whole number that is not so large",
    "int_from_float": "must be a whole number",
    "greater_than_equal": "must be {ge} or more",
    "less_than_equal": "must be {le} or less",
    "model_attributes_type": "must be a JSON object, sent as application/json",
    "dict_type": "must be a JSON object, sent as application/json",
    "literal_error": "must be one of {expected}",
}


def _words_of(item: dict[str, Any]) -> str:
    """A fault of a request in plain words; what we have none for, as it was found."""
    words = _WORDS.get(item["type"])
    if words is None:
        found = str(item["msg"])
        return found[:1].lower() + found[1:]
    return words.format(**item.get("ctx", {})).replace("'", "")
