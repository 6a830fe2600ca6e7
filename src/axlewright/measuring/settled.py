"""Adjusted lengths as chains of formulas back to the readings, so that what closes stays closed."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula

_SOURCE = "adjustment of observations only, closed form"


@formula("w", "length", source=_SOURCE)
def open_with(open_so_far: Num, reading_share: Num, single_reading: Num) -> Num:
    """What a sum of readings leaves open: one reading more in the sum."""
    return open_so_far + reading_share * single_reading


@formula("x̂", "length", source=_SOURCE)
def settled_length(settled_so_far: Num, taken_share: Num, open_length: Num) -> Num:
    """A reading less its share of what a sum leaves open."""
    return settled_so_far - taken_share * open_length


@formula("x̂", "length", source="the sum that it belongs to, closed form")
def worked_out_length(worked_so_far: Num, reading_share: Num, single_reading: Num) -> Num:
    """A length that nobody measured, from the others of its sum, one by one."""
    return worked_so_far + reading_share * single_reading
