"""A size as a usual share of another one, where nobody measured it."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("l_s", "length", source="definition of a share")
def share_of_length(whole_length: Num, length_share: Num) -> Num:
    """Part of a length."""
    return whole_length * length_share
