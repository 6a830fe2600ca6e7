"""Resolving the readings of the whole car and of both its sides."""

from __future__ import annotations

from axlewright.build.fitting import CarReadings, SideReadings
from axlewright.build.resolve.fit_readings import Notebook, text_of
from axlewright.quantities.estimate import Leaf


def car(notes: Notebook) -> CarReadings[Leaf]:
    """The whole car, with the clearances that are wanted."""

    def read(name: str) -> Leaf | None:
        return notes.leaf(f"fit.{name}")

    def wanted(name: str) -> Leaf:
        return notes.sure(f"fit.{name}")

    return CarReadings(
        old_hat=read("old_hat"),
        face_to_face=read("face_to_face"),
        bare_to_bare=read("bare_to_bare"),
        end_to_end=read("end_to_end"),
        lip_to_lip=read("lip_to_lip"),
        inner_to_inner=read("inner_to_inner"),
        rail_to_rail=read("rail_to_rail"),
        bump=read("bump"),
        droop=read("droop"),
        lateral_shift=wanted("lateral_shift"),
        outer_clearance=wanted("outer_clearance"),
        inner_clearance=wanted("inner_clearance"),
        moving_clearance=wanted("moving_clearance"),
        floor_gap=read("floor_gap"),
        tank_gap=read("tank_gap"),
        exhaust_gap=read("exhaust_gap"),
        stop_gap=read("stop_gap"),
        hose_slack=read("hose_slack"),
    )


def side(notes: Notebook, which: str) -> SideReadings[Leaf]:
    """One side; nothing is taken over from the other."""

    def read(name: str) -> Leaf | None:
        return notes.leaf(f"fit.{which}.{name}")

    return SideReadings(
        lip=read("lip"),
        lip_at_bump=read("lip_at_bump"),
        lip_height=read("lip_height"),
        inner=read("inner"),
        inner_at_bump=read("inner_at_bump"),
        inner_up=read("inner_up"),
        inner_ahead=read("inner_ahead"),
        inner_thing=text_of(notes.book, f"fit.{which}.inner_thing"),
        roof=read("roof"),
        pinion=read("pinion"),
        differential=read("differential"),
        housing_end=read("housing_end"),
        rail=read("rail"),
        seat=read("seat"),
        shock=read("shock"),
        ground_to_center=read("ground_to_center"),
    )
