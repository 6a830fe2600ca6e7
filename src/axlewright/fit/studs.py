"""Wheel studs: what is left for the nut once hat, spacer and wheel are on.

The least engagement is one diameter in a steel nut (common practice; a forum of racers says the
same); inspectors of race cars often ask for the whole nut, and thread showing if it is open (from
memory).  A closed nut must not bottom on its stud: it would feel tight and hold nothing.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula

_STACK = "lengths along the stud added up (closed form)"
LEAST_DIAMETERS = 1.0
"""Stud diameters of engagement below which a wheel is not safe; common practice, no source."""


@formula("l_w", "length", source=_STACK)
def stud_left_for_nut(
    stud_reach: Num, wheel_hat: Num, wheel_spacer: Num, wheel_pad_thickness: Num, nut_sink: Num
) -> Num:
    """Stud from where the nut's thread begins to its end.

    The reach is from the flange face; the pad is the wheel between its mounting face and the seat
    of the nut; a shank nut sinks into the wheel by ``nut_sink`` (zero for a cone on its seat).
    """
    return stud_reach - wheel_hat - wheel_spacer - wheel_pad_thickness + nut_sink


@formula("l_s", "length", source=_STACK)
def thread_under_nut(
    wheel_hat: Num, wheel_spacer: Num, wheel_pad_thickness: Num, nut_sink: Num, stud_root_blank: Num
) -> Num:
    """Thread left under a nut on its seat; below zero it runs out of thread before it clamps."""
    return wheel_hat + wheel_spacer + wheel_pad_thickness - nut_sink - stud_root_blank


@formula("L_e", "length", source="thread shared by stud and nut (closed form)")
def nut_engagement(stud_left: Num, nut_thread: Num, stud_blank_end: Num) -> Num:
    """Length of thread engaged; a blank lead at the end of the stud does not count."""
    result: Num = np.maximum(np.minimum(stud_left - stud_blank_end, nut_thread), 0.0)
    return result


@formula("n_e", "ratio", source="engagement over diameter (closed form)")
def engagement_in_diameters(thread_engagement: Num, bolt_diameter: Num) -> Num:
    """Engagement as the trade counts it; below one the wheel is not safe."""
    return thread_engagement / bolt_diameter


@formula("n_t", "count", source="engagement over pitch (closed form)")
def turns_of_engagement(thread_engagement: Num, thread_pitch: Num) -> Num:
    """Turns that the nut takes by hand from first thread to seat: the check that needs no tool."""
    return thread_engagement / thread_pitch


@formula("g_n", "length", source=_STACK)
def closed_nut_gap(nut_depth: Num, stud_left: Num) -> Num:
    """Gap between the end of the stud and the bottom of a closed nut; below zero it bottoms."""
    return nut_depth - stud_left


@formula("l_s", "length", source=_STACK)
def stud_reach_for(
    bolt_diameter: Num,
    wheel_hat: Num,
    wheel_spacer: Num,
    wheel_pad_thickness: Num,
    nut_sink: Num,
    stud_blank_end: Num,
) -> Num:
    """Shortest reach of a stud that gives one diameter of engagement."""
    return (
        bolt_diameter + wheel_hat + wheel_spacer + wheel_pad_thickness - nut_sink + stud_blank_end
    )
