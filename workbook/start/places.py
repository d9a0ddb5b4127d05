"""Where things lie: the checkout, the notebooks, and what Lab keeps for itself."""

import sys
from pathlib import Path

from workbook.start import own_copy
from workbook.start.refusal import Refusal

PACKAGE = Path(__file__).resolve().parents[1]
FIRST_NOTEBOOK = "notebooks/00_start_here.ipynb"
COPY_NAME = "bowling-layout-workbook"


def checkout() -> Path | None:
    """Return the checkout this package runs from, or None if it was installed from a wheel."""
    root = PACKAGE.parent
    is_checkout = (root / "pyproject.toml").is_file() and not (PACKAGE / "_content").exists()
    return root if is_checkout else None


def notebooks_root(working_folder: Path) -> Path:
    """Return the folder that holds ``notebooks/``.

    That is the checkout; for an installed package a copy of its content in `working_folder`,
    made at the first start; what the reader changed in it is never overwritten.

    Raises
    ------
    Refusal
        If the notebooks are missing or cannot be copied.
    """
    root = checkout() or _copy_of_content(working_folder / COPY_NAME)
    if not (root / FIRST_NOTEBOOK).is_file():
        raise Refusal(f"The workbook's first page {root / FIRST_NOTEBOOK} is missing.")
    return root


def _copy_of_content(target: Path) -> Path:
    content = PACKAGE / "_content"
    if not content.is_dir():
        raise Refusal(f"The notebooks are missing: there is no folder {content}.")
    doing, place = ("Using your copy of", "in") if target.exists() else ("Copying", "to")
    print(f"{doing} the notebooks {place} {target}.", file=sys.stderr)
    try:
        beside = own_copy.bring(content, target)
    except OSError as error:
        raise Refusal(f"Cannot write the notebooks to {target}: {error.strerror}.") from error
    for name in beside:
        print(f"You changed this page; the new one lies beside it: {name}.", file=sys.stderr)
    return target


def private_state(root: Path) -> dict[str, str]:
    """Return the environment variables that keep Jupyter's, IPython's and Matplotlib's own files.

    All of it goes to ``.workbook/`` inside `root`: nothing is written outside, and another Lab of
    the same person keeps its settings to itself.
    """
    state = root / ".workbook"
    return {
        "IPYTHONDIR": str(state / "ipython"),
        "JUPYTER_CONFIG_DIR": str(state / "config"),
        "JUPYTER_DATA_DIR": str(state / "data"),
        "JUPYTER_RUNTIME_DIR": str(state / "runtime"),
        "JUPYTERLAB_SETTINGS_DIR": str(state / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(state / "workspaces"),
        "MPLCONFIGDIR": str(state / "matplotlib"),
    }
