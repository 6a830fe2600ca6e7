"""The programs' side: builds, their revisions and keys as JSON; studies are included below them."""

from __future__ import annotations

from typing import Annotated, Literal

from fastapi import APIRouter, Path
from fastapi.responses import Response
from pydantic import Field

from axlewright.build.edit import edit, raw_values
from axlewright.build.merge import Conflict
from axlewright.store.builds import Saved
from axlewright.store.rows import Build, Revision
from axlewright.web import api_angles, api_files, api_fit, api_launch, api_mesh, api_studies
from axlewright.web.answers import LARGEST_NUMBER, Body, BuildId, Which, download, said, text_of
from axlewright.web.errors import API
from axlewright.web.needs import Bench
from axlewright.web.shapes import BuildState, Kept, KeyState, KnownKey, Removed, faults, told
from axlewright.workshop.bench import LARGEST
from axlewright.workshop.keys import left_out, tables, takes
from axlewright.workshop.shop import Workshop, file_name
from axlewright.workshop.template import template

router = APIRouter(prefix=API, responses=faults(401, 403, 404, 409, 413, 422, 500))

_NAME = r"""([A-Za-z0-9_-]{1,64}|"(\\.|[^"\\\r\n]){1,200}"|'[^'\r\n]{1,200}')"""
_KEY = rf"^{_NAME}(\.{_NAME}){{0,7}}$"
_KEY_SAID = (
    "Dotted path, like `car.weight`; a name that holds other signs than letters, digits, `_` and"
    ' `-` stands in quotes, like `parts.axle_shafts."my own".steel`.'
)
Number = Annotated[int, Path(ge=1, le=LARGEST_NUMBER, description="Number of a revision.")]


class NewBuild(Body):
    """A new build: from a text, or from the commented template."""

    text: Annotated[str, Field(max_length=LARGEST)] | None = None
    template: Literal["short", "full"] = "short"
    note: Annotated[str, Field(max_length=500)] = ""


class NewRevision(Body):
    """A whole text to save; ``base`` is the revision that it was made from."""

    text: Annotated[str, Field(max_length=LARGEST)]
    base: Annotated[int, Field(ge=1, le=LARGEST_NUMBER)] | None = None
    note: Annotated[str, Field(max_length=500)] = ""


class NewValue(Body):
    """One key as the shop writes it (no TOML quotes); null or empty text leaves it out."""

    value: Annotated[str, Field(max_length=4000)] | None
    base: Annotated[int, Field(ge=1, le=LARGEST_NUMBER)] | None = None
    note: Annotated[str, Field(max_length=500)] = ""


@router.get("/keys", responses=told("keys", tuple[KnownKey, ...]))
def keys() -> Response:
    """Every key that a build file may hold, with what stands in when it is left out."""
    rows = [
        KnownKey(
            e.path, e.meta.means, takes(e), e.dimension, e.kinds, e.named_rows,
            left_out(e), e.meta.because, e.required, e.meta.first,
        )
        for t in tables()
        for e in t.entries
    ]  # fmt: skip
    return said("keys", rows)


@router.get("/builds", responses=told("builds", tuple[Build, ...]))
def builds(workshop: Bench) -> Response:
    """Every build on the shelf."""
    return said("builds", workshop.store.builds())


@router.post("/builds", status_code=201, responses=told("build", BuildState, 201))
def create(workshop: Bench, new: NewBuild) -> Response:
    """Put a new build on the shelf. A text that does not read is kept too: see its problems."""
    text = new.text if new.text is not None else template(new.template)
    made = workshop.store.create(text, new.note)
    return said("build", _state(workshop, made.id), 201)


@router.get("/builds/{build}", responses=told("build", BuildState))
def build(workshop: Bench, build: BuildId) -> Response:
    """A build as it is now."""
    return said("build", _state(workshop, build))


@router.delete("/builds/{build}", responses=told("removed", Removed))
def remove(workshop: Bench, build: BuildId) -> Response:
    """Take a build off the shelf; it can be brought back on the page of the shelf."""
    workshop.store.remove(build)
    return said("removed", Removed(build))


@router.get("/builds/{build}/build.toml", responses={
    200: {"description": "The build file", "content": {"application/toml": {}}}
})  # fmt: skip
def exported(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """The build file, byte for byte as it is kept."""
    name = file_name(workshop.store.build(build).name, ".toml")
    text = text_of(workshop, build, revision)
    return download(text.encode(), "application/toml", name)


@router.get("/builds/{build}/revisions", responses=told("revisions", tuple[Revision, ...]))
def revisions(workshop: Bench, build: BuildId) -> Response:
    """Every revision with its text, newest first."""
    workshop.store.build(build)
    return said("revisions", workshop.store.history(build))


@router.post("/builds/{build}/revisions", responses=told("saved", Kept))
def save(workshop: Bench, build: BuildId, new: NewRevision) -> Response:
    """Save a text. If its base is no longer the latest revision, the two are merged key by key."""
    workshop.store.build(build)
    _known_base(workshop, build, new.base)
    return _kept(workshop, workshop.store.save(build, new.text, new.note, new.base))


@router.get("/builds/{build}/revisions/{number}", responses=told("revision", Revision))
def revision(workshop: Bench, build: BuildId, number: Number) -> Response:
    """One revision."""
    return said("revision", workshop.store.revision(build, number))


@router.post("/builds/{build}/revisions/{number}/restore", responses=told("revision", Revision))
def restore(workshop: Bench, build: BuildId, number: Number) -> Response:
    """Go back to a revision, as a new one: nothing is lost by it."""
    return said("revision", workshop.store.restore(build, number))


@router.get("/builds/{build}/keys", responses=told("key-states", tuple[KeyState, ...]))
def build_keys(workshop: Bench, build: BuildId, revision: Which = None) -> Response:
    """Every key that is typed or used."""
    text = text_of(workshop, build, revision)
    typed, used = raw_values(text), workshop.inputs(text)
    both = dict.fromkeys((*typed, *used))
    return said("key-states", [KeyState(k, typed.get(k), used.get(k)) for k in both])


@router.patch("/builds/{build}/keys/{key:path}", responses=told("saved", Kept))
def change(
    workshop: Bench,
    build: BuildId,
    key: Annotated[str, Path(pattern=_KEY, description=_KEY_SAID)],
    new: NewValue,
) -> Response:
    """Change one key. A value that does not read is kept too: see the problems."""
    _known_base(workshop, build, new.base)
    base = workshop.store.latest(build).number if new.base is None else new.base
    text = workshop.store.revision(build, base).text
    note = new.note or (f"{key} = {new.value}" if new.value else f"{key} left out")
    saved = workshop.store.save(build, edit(text, key, new.value), note[:500], base)
    return _kept(workshop, saved)


def _state(workshop: Workshop, build: str) -> BuildState:
    text = workshop.store.latest(build).text
    return BuildState(workshop.store.build(build), text, workshop.problems(text))


def _known_base(workshop: Workshop, build: str, base: int | None) -> None:
    if base is not None:
        workshop.store.revision(build, base)


def _kept(workshop: Workshop, saved: Saved) -> Response:
    conflicts: tuple[Conflict, ...] = saved.conflicts
    problems = workshop.problems(saved.revision.text)
    return said("saved", Kept(saved.revision, saved.merged, conflicts, problems))


router.include_router(api_studies.router)
router.include_router(api_launch.router)
router.include_router(api_mesh.router)
router.include_router(api_fit.router)
router.include_router(api_angles.router)
router.include_router(api_files.router)
