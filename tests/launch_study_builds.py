"""Builds for the tests of the launch study: each way to launch, weak and strong."""

from __future__ import annotations

from axlewright.build.reader import read_build
from axlewright.build.resolve import Resolved, resolve

MANUAL = """format = 1
name = "Plain Ox"
[car]
weight = "3500 lb"
[engine]
torque = "420 lbf*ft"
rev_limit = "6200 rpm"
[clutch]
capacity = "620 ± 60 lbf*ft"
[gearbox]
kind = "manual"
ratios = [2.97, 2.07, 1.43, 1.00]
[axle]
ring_gear = "8.8"
ratio = "41/11"
differential = "clutch"
[wheels]
tire = "255/60R15"
grip_class = "performance street"
[use]
launch = "dump"
surface = "street"
"""
AUTOMATIC = (
    MANUAL.replace('"manual"', '"automatic"')
    .replace("[2.97, 2.07, 1.43, 1.00]", "[2.48, 1.48, 1.00]")
    .replace('[clutch]\ncapacity = "620 ± 60 lbf*ft"', '[converter]\nstall_speed = "2600 rpm"')
    .replace('launch = "dump"', 'launch = "foot-brake"\nburnouts = true')
)
STANDING_UP = (
    AUTOMATIC.replace('"3500 lb"', '"2900 lb"\nwheelbase = "100 in"\ncg_height = "31 ± 1 in"')
    .replace("420 lbf", "620 lbf").replace('"performance street"', '"slick"')
    .replace('"foot-brake"', '"trans-brake"').replace('"street"', '"strip"')
    .replace("2600 rpm", "4500 rpm").replace("6200 rpm", "7500 rpm")
)  # fmt: skip
"""Lifts its front wheels."""

MANUAL_WAYS = ("gentle", "slip", "dump", "two-step")
AUTOMATIC_WAYS = ("foot-brake", "trans-brake", "neutral drop")


def build(text: str, **changes: str) -> Resolved:
    """Resolve a text in which each named word is another."""
    for old, new in changes.items():
        assert old in text
        text = text.replace(old, new)
    return resolve(read_build(text, "ox.toml"))


def launched(way: str) -> Resolved:
    """A build that is launched this way."""
    if way in MANUAL_WAYS:
        return build(MANUAL.replace('launch = "dump"', f'launch = "{way}"'))
    return build(AUTOMATIC.replace('launch = "foot-brake"', f'launch = "{way}"'))
