"""The whole launching car from a build, beside the machine that it belongs to."""

from __future__ import annotations

from axlewright.build.launching import Launching
from axlewright.build.machine import Machine
from axlewright.build.model import Build
from axlewright.build.resolve import launch_body, launch_engine, launch_mount, launch_tire
from axlewright.build.resolve.launch_train import spin, twist
from axlewright.build.resolve.ledger import Ledger
from axlewright.quantities.estimate import Leaf


def launching(build: Build, m: Machine[Leaf]) -> Launching[Leaf]:
    """What launch and run read beyond the machine; leaves that both have are shared."""
    book = Ledger(build)
    radius = launch_tire.tire_radius(m)
    axle = launch_body.axle_mass(book, m, radius)
    lumps = spin(book, m)
    return Launching(
        curve=launch_engine.curve(book, m),
        coupling=launch_engine.coupling(book),
        spin=lumps,
        twist=twist(book, m, lumps),
        tire=launch_tire.tread(book, m, radius, axle),
        body=launch_body.body(book, m, axle),
        mount=launch_mount.mount(book, m, radius, axle),
        driver=launch_engine.driver(book, m),
        cautions=tuple(dict.fromkeys(book.cautions)),
    )
