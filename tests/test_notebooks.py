"""Notebooks are stored clean and keep to the house's rhythm. Running them is nbval's part."""

from pathlib import Path

import nbformat
import pytest

FOLDER = Path(__file__).parents[1] / "notebooks"
NOTEBOOKS = sorted(FOLDER.glob("*.ipynb"))
MEND = "jupyter nbconvert --clear-output --inplace notebooks/*.ipynb"


def cells(path, kind):
    notebook = nbformat.read(path, as_version=4)
    return [cell for cell in notebook.cells if cell.cell_type == kind]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_stored_without_outputs(path):
    dirty = [c for c in cells(path, "code") if c.outputs or c.execution_count is not None]
    widgets = "widgets" in nbformat.read(path, as_version=4).metadata
    assert not dirty and not widgets, f"{path.name} holds outputs; mend it with: {MEND}"


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_code_cells_are_short(path):
    for cell in cells(path, "code"):
        assert len(cell.source.splitlines()) <= 8, cell.source


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.stem)
def test_valid_and_with_cautions_where_hands_are_involved(path):
    nbformat.validate(nbformat.read(path, as_version=4))
    words = "\n".join(cell.source for cell in cells(path, "markdown"))
    assert "qualified" in words and "current" in words
