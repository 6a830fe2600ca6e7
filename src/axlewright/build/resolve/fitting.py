"""What was measured for fit and angles, from a build, beside the machine that it belongs to."""

from __future__ import annotations

from axlewright.build.fitting import Fitting
from axlewright.build.machine import Machine
from axlewright.build.model import Build
from axlewright.build.resolve import fit_car, fit_ends, fit_line, fit_points, fit_wheel
from axlewright.build.resolve.fit_checked import check
from axlewright.build.resolve.fit_missing import missing
from axlewright.build.resolve.fit_readings import Notebook, text_of
from axlewright.build.resolve.fit_settled import settle
from axlewright.build.resolve.ledger import Ledger
from axlewright.quantities.estimate import Leaf

_HANGING = (
    "{}: measured with the wheels hanging; only droop counts there, the rest must be taken again"
    " at ride height"
)
_BARE = (
    "fit.old_face: these readings run from the bare flange, but the wheel touches the rotor hat or"
    " drum: state fit.old_hat, else every one of them is off by a hat"
)


def fitting(build: Build, m: Machine[Leaf]) -> Fitting[Leaf]:
    """Everything that was measured; leaves that the machine has too are shared with it."""
    book = Ledger(build)
    notes = Notebook(book)
    state, old_face = book.choice("fit.state"), book.choice("fit.old_face")
    for path in ("fit.state", "angles.state"):
        if book.choice(path) == "hanging":
            book.cautions.append(_HANGING.format(path))
    if notes.bare and notes.hat is None:
        book.cautions.append(_BARE)
    settle(notes)
    check(notes)
    return Fitting(
        state=state,
        old_face=old_face,
        end_play_aim=text_of(book, "ends.end_play_aim"),
        car=fit_car.car(notes),
        left=fit_car.side(notes, "left"),
        right=fit_car.side(notes, "right"),
        wheel=fit_wheel.wheel(notes, m),
        left_end=fit_ends.end(notes, "left"),
        right_end=fit_ends.end(notes, "right"),
        centre=fit_ends.centre(notes),
        points=fit_points.points(notes),
        bushes=fit_points.bushes(notes),
        angles=fit_line.angles(notes),
        slip=fit_line.slip(notes),
        tunnel=fit_line.tunnel(notes),
        brakes=fit_ends.brakes(notes),
        missing=missing(notes),
        worked_out=tuple(notes.worked_out),
        checks=tuple(notes.checks),
        cautions=tuple(dict.fromkeys(book.cautions)),
    )
