"""The pages run as tests; all but the first are left out of the quick run: a kernel each."""

from pathlib import Path

import pytest

FIRST = "00_start_here.ipynb"


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Mark the cells of later pages slow."""
    for item in items:
        if item.path.parent == Path(__file__).parent and item.path.name != FIRST:
            item.add_marker(pytest.mark.slow)
