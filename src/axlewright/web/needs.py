"""What a route needs: the workshop that the application was made with."""

from __future__ import annotations

from typing import Annotated

from fastapi import Depends, Request

from axlewright.workshop.shop import Workshop


def workshop_of(request: Request) -> Workshop:
    """The workshop behind the application."""
    workshop = request.app.state.workshop
    assert isinstance(workshop, Workshop)
    return workshop


Bench = Annotated[Workshop, Depends(workshop_of)]
"""A parameter of a route that is the workshop."""
