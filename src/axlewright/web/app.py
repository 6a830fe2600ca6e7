"""The application: pages, programs' side, files and errors, behind the guard."""

from __future__ import annotations

from collections.abc import AsyncIterator
from contextlib import asynccontextmanager
from typing import Any

from fastapi import FastAPI
from fastapi.openapi.utils import get_openapi
from starlette.middleware.gzip import GZipMiddleware

from axlewright import __version__
from axlewright.web import api, errors, files, security, sessions
from axlewright.web.pages import PAGES
from axlewright.web.shapes import COMPONENTS
from axlewright.web.tidying import Counted, Tidying
from axlewright.workshop.shop import Workshop

_WORTH_PACKING = 1000
_PACKING = 4  # 6 takes twice as long for 6 % less
_ABOUT = """\
The workbench for programs. A good answer is `{"schema": "axlewright.…/1", "result": …}`, an error
`{"schema": "axlewright.error/1", "error": {"kind", "message", "problems"}}`, as the command line
prints with `--json`. A request that changes something sends `Origin` with the address of the
workbench."""


def create_app(
    workshop: Workshop,
    *,
    lan: bool = False,
    passphrase: str = "",
    hosts: tuple[str, ...] = security.LOOPBACK,
) -> FastAPI:
    """The workbench on a workshop; ``lan`` asks everybody for the passphrase."""
    tidying = Tidying()

    @asynccontextmanager
    async def lifespan(_: FastAPI) -> AsyncIterator[None]:
        async with tidying.running():
            yield
        workshop.jobs.close()

    app = FastAPI(
        title="Axlewright workbench",
        version=__version__,
        description=_ABOUT,
        openapi_url=f"{errors.API}/openapi.json",
        docs_url=None,  # its pages come from a server of others
        redoc_url=None,
        lifespan=lifespan,
        redirect_slashes=False,
        telemetry={"tracing": False, "metrics": False, "logs": False},  # nothing is told to others
    )
    opened = sessions.Sessions(passphrase) if lan else None
    app.state.workshop = workshop
    app.state.pages = PAGES
    app.state.sessions = opened
    app.include_router(api.router)
    app.include_router(files.router)
    for page in PAGES:
        app.include_router(page.router)
    if lan:
        app.include_router(sessions.router)
    errors.install(app)
    app.openapi = lambda: _described(app)  # type: ignore[method-assign]
    # The last one added is the first to see a request.
    app.add_middleware(errors.Faults)
    app.add_middleware(security.Guard, hosts=hosts, sessions=opened)
    app.add_middleware(GZipMiddleware, minimum_size=_WORTH_PACKING, compresslevel=_PACKING)
    app.add_middleware(security.SafeHeaders)
    app.add_middleware(Counted, tidying=tidying)
    return app


def _described(app: FastAPI) -> dict[str, Any]:
    """The OpenAPI description, with the shapes of the answers."""
    if app.openapi_schema is None:
        made = get_openapi(
            title=app.title, version=app.version, description=app.description, routes=app.routes
        )
        components = made.setdefault("components", {}).setdefault("schemas", {})
        for name in ("HTTPValidationError", "ValidationError"):
            components.pop(name, None)  # errors here have one shape, and it is another
        components.update(COMPONENTS)
        app.openapi_schema = made
    return app.openapi_schema
