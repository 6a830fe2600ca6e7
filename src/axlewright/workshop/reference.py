"""The reference pages, printed from the code that they describe so that they cannot drift from it.

Keys of the build file, the table of symbols, every formula with its text, and the catalogue.
"""

from __future__ import annotations

import importlib
import inspect
import pkgutil
from collections.abc import Iterable, Iterator, Sequence
from itertools import groupby

import axlewright
from axlewright.catalogue import load
from axlewright.catalogue.rows import Row
from axlewright.quantities.algebra import lines_of
from axlewright.quantities.fields import dimension_of, meta_of
from axlewright.quantities.formula import REGISTRY, Formula
from axlewright.quantities.symbols import Symbol, symbols
from axlewright.quantities.units import DIMENSIONS, Reading, pretty, show
from axlewright.workshop.keys import Entry, Table, left_out, takes, tables
