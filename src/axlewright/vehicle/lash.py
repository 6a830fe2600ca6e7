"""Free play between gearbox and wheels: what is measured where, and the gaps that it makes.

Play at the yoke with both wheels held is that of the mesh and, multiplied by the axle ratio, that
of side gears and splines.  The launch counts two gaps: one ahead of the ring gear, as an angle of
the driveshaft, and one in each axle shaft.
"""

from __future__ import annotations

import numpy as np

from axlewright.quantities.formula import Num, formula


@formula("φ_m", "angle", source="arc over radius, times the axle ratio (closed form)")
def mesh_play(mesh_backlash: Num, ring_gear_diameter: Num, axle_ratio: Num) -> Num:
    """Angle that the pinion turns within the backlash, the ring gear held.

    Backlash is read by dial gauge at the outside of the ring gear, square to the tooth.
    """
    return 2.0 * mesh_backlash / ring_gear_diameter * axle_ratio


@formula("φ_s", "angle", source="free play one behind the other adds (closed form)")
def shaft_play_from_yoke(yoke_play: Num, mesh_play: Num, axle_ratio: Num) -> Num:
    """Free play of side gears and splines at a wheel, from the play at the yoke."""
    result: Num = np.maximum(yoke_play - mesh_play, 0.0) / axle_ratio
    return result


@formula("δ_d", "angle", source="free play one behind the other adds (closed form)")
def driveshaft_half_gap(gearbox_play: Num, mesh_play: Num) -> Num:
    """Half of the free play ahead of the ring gear: gearbox, joints and mesh."""
    return 0.5 * (gearbox_play + mesh_play)


@formula("δ_s", "angle", source="definition of a half gap (closed form)")
def shaft_half_gap(shaft_play: Num) -> Num:
    """Half of the free play of side gears and splines at one wheel."""
    return 0.5 * shaft_play
