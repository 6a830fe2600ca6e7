"""Inputs that readings answer where the build does not: the way from a key to its reading.

Kept small: a build without readings loads none of what settles them.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from axlewright.build.resolve.ledger import Ledger
from axlewright.quantities.estimate import Leaf
from axlewright.quantities.solved import untraced

if TYPE_CHECKING:
    from axlewright.build.resolve.measured import Readings


def read_or(
    book: Ledger,
    path: str,
    find: Callable[[Readings], Leaf | None],
    otherwise: Leaf | None = None,
) -> Leaf:
    """The stated value of a key, else what readings say, else ``otherwise`` or the default."""
    if book.readings is None:
        return book.quantity(path, otherwise)
    with untraced():  # what is tried out here is no part of a working that happens to be open
        return book.readings.either(path, find(book.readings), otherwise)
