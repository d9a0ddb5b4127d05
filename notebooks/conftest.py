"""The pages run as tests; all but the first are left out of the quick run: a kernel each."""

import os
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest

FIRST = "00_start_here.ipynb"
PROGRESS = "WORKBOOK_DATA"


def pytest_configure(config: pytest.Config) -> None:
    """Keep the kernels of the pages away from the progress of whoever runs the tests."""
    own = TemporaryDirectory(prefix="progress-")
    config.add_cleanup(own.cleanup)
    before = os.environ.get(PROGRESS)
    os.environ[PROGRESS] = own.name
    config.add_cleanup(lambda: _put_back(before))


def _put_back(before: str | None) -> None:
    os.environ.pop(PROGRESS, None)
    if before is not None:
        os.environ[PROGRESS] = before


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the cells of later pages slow."""
    for item in items:
        if item.path.parent == Path(__file__).parent and item.path.name != FIRST:
            item.add_marker(pytest.mark.slow)
