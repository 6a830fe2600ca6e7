"""How far the march's peaks lie from the reference's, build by build."""

from __future__ import annotations

from typing import NamedTuple

import reference_launch as reference
from axlewright.dynamics.launch import STEP, launch_peaks
from launch_builds import Build

TORQUES = ("axle", "driveshaft", "left_shaft", "right_shaft")
MEDIAN_LIMIT, WORST_LIMIT = 0.002, 0.005
"""Shares of the peak within which the march must agree."""


class Difference(NamedTuple):
    build: Build
    peak: dict[str, float]
    """Greatest magnitude of each torque, reference, N·m."""
    off: dict[str, float]
    """March over reference less 1."""
    other_off: dict[str, float]
    """Difference of the extreme of the other sign, over the peak."""
    speed_off: float
    """Difference of the road speed at the end, m/s."""
    switches: int
    """How often a friction of the reference changed between sticking and slipping."""


def difference(build: Build, step: float = STEP, rtol: float = 1e-8) -> Difference:
    """Work one build out both ways."""
    exact = reference.solve(build.car, build.events, rtol=rtol, atol=0.1 * rtol)
    march = launch_peaks(build.car, build.events, step=step)
    assert march is not None
    peak, off, other = {}, {}, {}
    for name in TORQUES:
        most, least = exact.greatest(name), exact.least(name)
        found_most = float(getattr(march, f"{name}_most")[0])
        found_least = float(getattr(march, f"{name}_least")[0])
        forward = most >= -least
        peak[name] = most if forward else -least
        found = found_most if forward else -found_least
        off[name] = found / peak[name] - 1.0
        gap = found_least - least if forward else found_most - most
        other[name] = gap / peak[name]
    end = float(march.end_speed[0]) - float(exact.state("road_speed")[-1])
    return Difference(build, peak, off, other, end, len(exact.switches))
