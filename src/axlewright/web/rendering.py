"""Pages from templates: strict about names, everything escaped, numbers as the shop writes them.

Filters: ``1.2|shop("torque")`` and ``1.2|si("torque")`` print an SI number in a customary unit,
``1.2|both("torque")`` in both, ``1.2|margin`` and ``finding|band`` a margin and its band,
``0.12|percent`` a share, ``1200|bytes`` a size,
``text|advice(build)`` a text that may name a command.
``static("name.css")`` is the address of a file of ours.
"""

from __future__ import annotations

from functools import cache
from typing import Any

from fastapi import Request
from fastapi.responses import HTMLResponse
from jinja2 import Environment, PackageLoader, StrictUndefined
from markupsafe import Markup

from axlewright import __version__
from axlewright.drawing.marks import band_text, margin_text
from axlewright.quantities.units import show, show_both, significant
from axlewright.web import files


@cache
def environment() -> Environment:
    """The templates of this package with what they may call."""
    made = Environment(
        loader=PackageLoader("axlewright.web"),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        auto_reload=False,
    )
    made.filters.update(
        shop=lambda value, dimension, digits=4: show(value, dimension, "shop", digits),
        si=lambda value, dimension, digits=4: show(value, dimension, "si", digits),
        both=lambda value, dimension, digits=4: show_both(value, dimension, digits),
        margin=margin_text,
        band=band_text,
        advice=advice,
        bytes=_size,
        percent=lambda share, digits=2: f"{significant(share * 100.0, digits)} %",
    )
    made.globals.update(static=files.address, version=__version__)
    return made


_COMMAND = "`axlewright recognise`"


def advice(text: str, build: str) -> Markup:
    """A text of the core on a page: where it names a command, the page that shows the same."""
    page = Markup('<a href="/builds/{}/recognize">how to recognize it</a>').format(build)
    pieces = [Markup.escape(piece.replace("`", "")) for piece in text.split(_COMMAND)]
    return page.join(pieces)


def _size(count: int) -> str:
    """The size of a file as people say it."""
    return f"{count / 1e6:.1f} MB" if count >= 1e6 else f"{max(1, round(count / 1e3))} kB"


def render(request: Request, name: str, /, **context: Any) -> HTMLResponse:
    """A page or a piece of one; the template also sees ``request`` and every page as ``pages``."""
    text = (
        environment()
        .get_template(name)
        .render(request=request, pages=request.app.state.pages, **context)
    )
    return HTMLResponse(text)
