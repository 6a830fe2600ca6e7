"""For every test: the builder's data lie in a folder of the tests' own.

A march that a developer keeps at home must not change what a test sees.
"""

import os
import shutil
import tempfile

_OWN = tempfile.mkdtemp(prefix="axlewright-tests-")
os.environ["AXLEWRIGHT_DATA"] = _OWN


def pytest_unconfigure() -> None:
    """Drop the folder when the tests are done."""
    shutil.rmtree(_OWN, ignore_errors=True)
