"""All that an axle turns into heat, part by part, and what share of the power comes through.

A map over torque, speed and oil temperature is made by handing in arrays that broadcast.  Its
parts are as good as their sources: the mesh hangs on one coefficient of friction, bearings and
stirring on factors from memory.  Read a single figure as ± 2 points hot and loaded, and as half
to twice the loss when cold or idle; order and slopes are better than that.
"""

from __future__ import annotations

from dataclasses import dataclass

from axlewright.hypoid import churning, losses
from axlewright.mechanics import bearing_friction as friction
from axlewright.mechanics.oil import hot_oil_density, oil_viscosity
from axlewright.quantities.formula import Num, formula


@dataclass(frozen=True)
class AxleShape:
    """What the losses depend on and neither load nor speed nor oil changes, in SI.

    Bearing diameters are mean ones; the two load shares are friction load over tooth force, and
    the two preloads friction loads of a pair that no gear loads.  ``mesh_loss`` is the share of
    :func:`axlewright.hypoid.losses.drive_mesh_loss`, ``tooth_lever`` the ring torque over the force
    square to the teeth.
    """

    ratio: Num
    ring_diameter: Num
    face_width: Num
    mesh_loss: Num
    tooth_lever: Num
    bearing_drag_factor: Num
    bearing_friction_factor: Num
    pinion_bearing: Num
    carrier_bearing: Num
    pinion_load_share: Num
    carrier_load_share: Num
    pinion_preload: Num
    carrier_preload: Num
    pinion_seal: Num
    axle_seal: Num
    seal_share: Num
    immersion: Num
    oil_volume: Num
    churning_share: Num


@dataclass(frozen=True)
class AxleOil:
    """The oil, in SI: density at 15 °C, viscosity at 40 and 100 °C."""

    density: Num
    viscosity_40: Num
    viscosity_100: Num


@dataclass(frozen=True)
class AxleLosses:
    """Heat of each part, W, their sum, and the share of the pinion's power that comes through."""

    mesh: Num
    bearing_load: Num
    bearing_drag: Num
    seals: Num
    churning: Num
    total: Num
    efficiency: Num


@formula("P_v", "power", source="sum (closed form)")
def lost_power(
    mesh_heat: Num,
    bearing_load_heat: Num,
    bearing_drag_heat: Num,
    seal_heat: Num,
    churning_heat: Num,
) -> Num:
    """Everything that the axle turns into heat."""
    return mesh_heat + bearing_load_heat + bearing_drag_heat + seal_heat + churning_heat


@formula("P_c", "power", source="sum (closed form)")
def steady_lost_power(mesh_heat: Num, bearing_load_heat: Num, seal_heat: Num) -> Num:
    """Heat that does not change as the oil warms."""
    return mesh_heat + bearing_load_heat + seal_heat


@formula("P_d", "power", source="sum (closed form)")
def two_heats(first_heat: Num, second_heat: Num) -> Num:
    """Heat of pinion and ring side together."""
    return first_heat + second_heat


@formula("η_A", "ratio", source="definition (closed form)")
def whole_axle_efficiency(ring_torque: Num, ring_speed: Num, lost_power: Num) -> Num:
    """Share of the pinion's power that leaves at the ring gear."""
    useful = ring_torque * ring_speed
    return useful / (useful + lost_power)


@formula("ω_p", "rotation", source="speed times ratio (closed form)")
def pinion_speed_of(ring_speed: Num, axle_ratio: Num) -> Num:
    """Speed of the pinion from that of the ring gear."""
    return ring_speed * axle_ratio


def bearing_load_heat(x: AxleShape, ring_torque: Num, ring_speed: Num, pinion_speed: Num) -> Num:
    """Heat that load and preload make in both pairs of bearings, W."""
    normal = losses.tooth_force(ring_torque, x.tooth_lever)
    pinion = friction.load_moment(
        x.bearing_friction_factor,
        friction.pair_friction_load(normal, x.pinion_load_share, x.pinion_preload),
        x.pinion_bearing,
    )
    carrier = friction.load_moment(
        x.bearing_friction_factor,
        friction.pair_friction_load(normal, x.carrier_load_share, x.carrier_preload),
        x.carrier_bearing,
    )
    return two_heats(
        friction.drag_power(pinion, pinion_speed, 1), friction.drag_power(carrier, ring_speed, 1)
    )


def bearing_drag_heat(x: AxleShape, viscosity: Num, ring_speed: Num, pinion_speed: Num) -> Num:
    """Heat that the oil makes in four bearings, W."""
    pinion = friction.viscous_moment(
        x.bearing_drag_factor, viscosity, pinion_speed, x.pinion_bearing
    )
    carrier = friction.viscous_moment(
        x.bearing_drag_factor, viscosity, ring_speed, x.carrier_bearing
    )
    return two_heats(
        friction.drag_power(pinion, pinion_speed, 2), friction.drag_power(carrier, ring_speed, 2)
    )


def seal_heat(x: AxleShape, ring_speed: Num, pinion_speed: Num) -> Num:
    """Heat of the pinion's seal and of both shafts', W."""
    return two_heats(
        friction.seal_power(x.pinion_seal, pinion_speed, x.seal_share, 1),
        friction.seal_power(x.axle_seal, ring_speed, x.seal_share, 2),
    )


@dataclass(frozen=True)
class Stirring:
    """Heat of stirring by either law, W, and the Reynolds number that chooses."""

    thick: Num
    thin: Num
    reynolds: Num


def stirring(x: AxleShape, viscosity: Num, density: Num, ring_speed: Num) -> Stirring:
    """What the ring gear stirs, by both laws."""
    surface = churning.immersed_surface(x.ring_diameter, x.face_width, x.immersion)
    froude = churning.churning_froude(ring_speed, x.ring_diameter)
    reynolds = churning.churning_reynolds(ring_speed, x.ring_diameter, x.face_width, viscosity)
    laws = (
        churning.thick_churning(x.immersion, x.oil_volume, x.ring_diameter, froude, reynolds),
        churning.thin_churning(x.immersion, x.oil_volume, x.ring_diameter, x.face_width, froude),
    )
    thick, thin = (
        friction.drag_power(
            churning.churning_torque(
                x.churning_share, density, ring_speed, surface, x.ring_diameter, c
            ),
            ring_speed,
            1,
        )
        for c in laws
    )
    return Stirring(thick, thin, reynolds)


def axle_losses(
    x: AxleShape, oil: AxleOil, ring_torque: Num, ring_speed: Num, oil_temperature: Num
) -> AxleLosses:
    """Losses at a torque that leaves the ring gear, N·m, its speed, rad/s, and oil so warm, K."""
    pinion_speed = pinion_speed_of(ring_speed, x.ratio)
    viscosity = oil_viscosity(oil_temperature, oil.viscosity_40, oil.viscosity_100)
    density = hot_oil_density(oil.density, oil_temperature)
    mesh = losses.mesh_loss_power(ring_torque, ring_speed, x.mesh_loss)
    loaded = bearing_load_heat(x, ring_torque, ring_speed, pinion_speed)
    drag = bearing_drag_heat(x, viscosity, ring_speed, pinion_speed)
    seals = seal_heat(x, ring_speed, pinion_speed)
    stirred = stirring(x, viscosity, density, ring_speed)
    stirs = churning.churning_heat(stirred.thick, stirred.thin, stirred.reynolds)
    total = lost_power(mesh, loaded, drag, seals, stirs)
    return AxleLosses(
        mesh, loaded, drag, seals, stirs, total,
        whole_axle_efficiency(ring_torque, ring_speed, total),
    )  # fmt: skip
