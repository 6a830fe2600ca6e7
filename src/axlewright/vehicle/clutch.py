"""The clutch as a fuse: what it holds, seen at the flywheel and at the axle."""

from __future__ import annotations

from axlewright.quantities.formula import Num, formula


@formula("C_c", "torque", source="definition of the clutch reserve (closed form)")
def capacity_from_reserve(engine_torque: Num, clutch_reserve: Num) -> Num:
    """Torque at which a clutch slips, from its reserve over the engine's peak torque."""
    return engine_torque * clutch_reserve


@formula(
    "T_cs", "torque", source="sliding friction below sticking friction (common practice, no source)"
)
def sliding_capacity(clutch_capacity: Num, slide_ratio: Num) -> Num:
    """Torque that a clutch still passes while it slides."""
    return clutch_capacity * slide_ratio


@formula(
    "E_c",
    "energy",
    source="engine speed held, torque steady, road load and spinning parts left out: as much"
    " becomes heat as the car gains (closed form)",
)
def slip_heat(vehicle_mass: Num, road_speed: Num, driveline_efficiency: Num) -> Num:
    """Least heat of a clutch that drags the car from rest to the road speed at which it grabs."""
    return 0.5 * vehicle_mass * road_speed * road_speed / driveline_efficiency
