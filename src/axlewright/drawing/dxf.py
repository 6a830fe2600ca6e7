"""A sheet as a file for drawing programs: DXF of release 2010, in millimeters.

Views stand in model space at full size, the first with its zero on the origin, the others set apart
to the right.  The layout is the sheet: frame, title block, tables and notes in millimeters of
paper, and a window for each view at its scale.  The same sheet gives the same bytes.
"""

from __future__ import annotations

import io
import math
import re
from typing import TYPE_CHECKING, Any

from axlewright.drawing.dimensions_base import ARROW
from axlewright.drawing.dimensions_text import INCH
from axlewright.drawing.dxf_entities import (
    STYLE,
    Spread,
    add_dimension,
    add_mark,
    plain,
    style_name,
)
from axlewright.drawing.sheet import Sheet
from axlewright.drawing.sheet_marks import HEIGHT, LEADING, LINES, Mark, Words

if TYPE_CHECKING:
    from ezdxf.document import Drawing as Document

RELEASE = "R2010"
_MM = 4
_APART = 100.0
"""Views begin at multiples of this in model space (mm)."""
_EDGE = 1.0
"""Room around a view in its window (mm on paper)."""
_DAY = "2451544.500000000"
_NO_ID = "{00000000-0000-0000-0000-000000000000}"
_DATES = re.compile(r"(\$TDU?(?:CREATE|UPDATE)\n *40\n)[^\n]*")
_IDS = re.compile(r"(\$(?:FINGERPRINT|VERSION)GUID\n *2\n)[^\n]*")
_STAMP = re.compile(r"(\d[\w.]*) @ \d{4}-\d\d-\d\dT[^\n]*")


def to_dxf(sheet: Sheet) -> bytes:
    """The sheet as the bytes of a DXF file."""
    document = document_of(sheet)
    document.classes.add_required_classes(document.dxfversion)
    classes = document.classes.classes  # else in the order of a set, which differs from run to run
    for key in sorted(classes):
        classes[key] = classes.pop(key)
    stream = io.StringIO(newline="\n")
    document.write(stream)
    text = _DATES.sub(rf"\g<1>{_DAY}", stream.getvalue())
    text = _IDS.sub(rf"\g<1>{_NO_ID}", text)
    return document.encode(_STAMP.sub(r"\g<1>", text))


def document_of(sheet: Sheet) -> Document:
    """The sheet as a document, before it is written."""
    from ezdxf.filemanagement import new  # noqa: PLC0415  (loaded only when a file is made)

    document = new(RELEASE, units=_MM)
    document.header["$MEASUREMENT"] = 1
    document.header["$PSLTSCALE"] = 0
    for name in ("part", "build", "revision", "date", "sheet"):
        document.header.custom_vars.append(name, plain(getattr(sheet.title, name)))
    document.styles.add(STYLE, font="txt").dxf.width = 0.75
    _add_layers(document)
    for scale in sorted({view.scale for view in sheet.views}):
        _add_style(document, scale)
    spreads = spread_views(sheet)
    for spread in spreads:
        _add_view(document, sheet, spread)
    _add_layout(document, sheet, spreads)
    return document


def spread_views(sheet: Sheet) -> tuple[Spread, ...]:
    """Where each view stands in model space, so that none reaches into another's window."""
    found: list[Spread] = []
    edge = 0.0
    for i, view in enumerate(sheet.views):
        box = sheet.view_box(view)
        left = (box[0] - view.origin[0] - 2.0 * _EDGE) * view.scale
        right = (box[2] - view.origin[0] + 2.0 * _EDGE) * view.scale
        x = 0.0 if i == 0 else math.ceil((edge - left) / _APART) * _APART
        found.append(Spread(view, (x, 0.0)))
        edge = x + right
    return tuple(found)


def _add_layers(document: Document) -> None:
    """A layer for every kind of line, with its dashes and its width."""
    for layer, kind in LINES.items():
        name = layer.upper()
        if kind.dash:
            signed = [d if i % 2 == 0 else -d for i, d in enumerate(kind.dash)]
            document.linetypes.add(name, [sum(kind.dash), *signed], description=kind.meaning)
        made = document.layers.add(name, linetype=name if kind.dash else "Continuous")
        made.dxf.lineweight = round(100.0 * kind.width)
        made.description = kind.meaning
    document.layers.add("WINDOW").dxf.plot = 0


def _add_style(document: Document, scale: int) -> None:
    """Dimensions for views at 1:scale, in millimeters with inches in brackets."""
    style = document.dimstyles.add(style_name(scale))
    style.update_dxf_attribs({
        "dimscale": float(scale), "dimtxt": HEIGHT, "dimasz": ARROW, "dimexo": 1.0, "dimexe": 1.5,
        "dimgap": 1.0, "dimtad": 1, "dimtih": 1, "dimtoh": 1, "dimlunit": 2, "dimdec": 1,
        "dimdsep": ord("."), "dimaunit": 0, "dimadec": 1, "dimzin": 0, "dimlfac": 1.0,
        "dimalt": 1, "dimaltf": 1.0 / INCH, "dimaltd": 3, "dimtxsty": STYLE,
    })  # fmt: skip


def _add_view(document: Document, sheet: Sheet, spread: Spread) -> None:
    """A view in model space: the part at full size, its dimensions and words beside it."""
    space, scale = document.modelspace(), spread.view.scale
    for mark in spread.view.marks:
        add_mark(space, spread.real(mark), scale)
    for mark in spread.view.pointers:
        add_mark(space, spread.from_paper(mark), scale)
    for dimension in spread.view.dimensions:
        add_dimension(document, spread, dimension, sheet.general)
    for mark in _over(sheet, spread):
        add_mark(space, spread.from_paper(mark), scale)


def _over(sheet: Sheet, spread: Spread) -> tuple[Mark, ...]:
    """What stands above a view for those who open model space only.

    Part, build and revision; above the first view also what the sheet warns of.
    """
    box = sheet.view_box(spread.view)
    title = sheet.title
    words = [title.part, title.build, f"revision {title.revision}" if title.revision else ""]
    foot = box[3] + 2.0 * _EDGE + HEIGHT
    whose = Words((box[0], foot), ", ".join(w for w in words if w))
    warned = sheet.cautions if spread.view is sheet.views[0] else ()
    return (
        whose,
        *(Words((box[0], foot + LEADING * HEIGHT * n), w) for n, w in enumerate(warned, start=1)),
    )


def _add_layout(document: Document, sheet: Sheet, spreads: tuple[Spread, ...]) -> None:
    """The sheet itself: what stands around, and a window for each view."""
    paper: Any = document.layout("Layout1")
    document.layouts.rename("Layout1", "Sheet")
    size = (sheet.paper.width, sheet.paper.height)
    paper.page_setup(size=size, margins=(0, 0, 0, 0), units="mm")
    paper.dxf.layout_flags = 0
    for mark in sheet.around():
        add_mark(paper, mark, 1.0)
    for spread in spreads:
        view = spread.view
        box = sheet.view_box(view)
        left, bottom, right, top = (
            box[0] - _EDGE, box[1] - _EDGE, box[2] + _EDGE, box[3] + _EDGE
        )  # fmt: skip
        middle = (0.5 * (left + right), 0.5 * (bottom + top))
        looks_at = (
            (middle[0] - view.origin[0]) * view.scale + spread.shift[0],
            (middle[1] - view.origin[1]) * view.scale + spread.shift[1],
        )
        paper.add_viewport(
            middle,
            (right - left, top - bottom),
            looks_at,
            (top - bottom) * view.scale,
            dxfattribs={"layer": "WINDOW"},
        )
