"""What several unit tests stand on."""

from contextlib import contextmanager

import pytest

HERE = "http://127.0.0.1"


@contextmanager
def _workbench(**how):
    """A client that is one of the workbench's own pages, with ``client.workshop`` behind it."""
    from starlette.testclient import TestClient

    from axlewright.store.builds import Store
    from axlewright.web.app import create_app
    from axlewright.workshop.shop import Workshop

    workshop = Workshop(Store(None))
    app = create_app(workshop, **how)
    ours = {"Origin": HERE}
    with TestClient(app, base_url=HERE, headers=ours, follow_redirects=False) as client:
        client.workshop = workshop
        yield client
    workshop.close()


@pytest.fixture(scope="session")
def workbench():
    """Makes a client of a fresh workbench inside the test's own process."""
    return _workbench
