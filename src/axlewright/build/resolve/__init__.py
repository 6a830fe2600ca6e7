"""Resolving a build: defaults filled from keys and catalogue, one frozen machine out."""

from axlewright.build.resolve.whole import Resolved, resolve

__all__ = ["Resolved", "resolve"]
