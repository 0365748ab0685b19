"""One PostgreSQL for all tests of a crew's server."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.crew.postgres import database


@pytest.fixture(scope="session")
def running() -> Iterator[Path]:
    """The folder of its socket; each test prepares it anew."""
    with database() as folder:
        yield folder
