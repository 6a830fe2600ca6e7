"""The pages of the workbench, one module each, in the order of the navigation.

A page is a module with ``TITLE`` (its name in the navigation), ``PATH`` (its address; with
``{build}`` in it the page belongs to one build) and ``router``.  To add one, write the module and
name it in ``PAGES``.
"""

from __future__ import annotations

from axlewright.web.pages import (
    angles,
    car,
    compare,
    fit,
    launch,
    limits,
    load_path,
    mesh,
    papers,
    ratio,
    recognize,
    shelf,
)

PAGES = (
    shelf,
    car,
    recognize,
    load_path,
    launch,
    mesh,
    limits,
    ratio,
    fit,
    angles,
    compare,
    papers,
)
