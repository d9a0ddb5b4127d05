"""`jit`: compile a kernel with numba where it is installed, else leave it plain Python.

The environment variable WORKBOOK_PLAIN=1 forces plain Python; a test runs both and compares.
WORKBOOK_KERNELS names another folder for the compiled code.

The compiled code is cached on disk. numba renews the cache of a function when its own file changes
but not when a function that it calls changes in another file, so the folder's name carries a digest
of all kernel sources: an edited or updated kernel can never answer from an older cache.
"""

import getpass
import hashlib
import os
import tempfile
from collections.abc import Callable
from pathlib import Path
from typing import Any, TypeVar, cast

import numpy as np
from numpy.typing import NDArray

Kernel = TypeVar("Kernel", bound=Callable[..., Any])
Array = NDArray[np.float64]
Record = Any  # one row of a structured array: numba and plain Python both read record["name"]

try:
    if os.environ.get("WORKBOOK_PLAIN") == "1":
        raise ImportError("plain Python asked for")
    import numba

    COMPILED = True
except ImportError:
    COMPILED = False


def _cache_folder() -> str:
    here = Path(__file__).parent
    digest = hashlib.sha256(b"".join(p.read_bytes() for p in sorted(here.glob("*.py"))))
    name = f"kernels-{digest.hexdigest()[:16]}"
    if os.environ.get("WORKBOOK_KERNELS"):
        return str(Path(os.environ["WORKBOOK_KERNELS"]) / name)
    beside = here / "__pycache__" / name
    try:
        beside.mkdir(parents=True, exist_ok=True)
    except OSError:  # an installation that is read-only for this user
        return str(Path(tempfile.gettempdir()) / f"workbook-{getpass.getuser()}" / name)
    return str(beside)


def jit(kernel: Kernel) -> Kernel:
    """Return `kernel` compiled (without the interpreter lock, cached on disk), or as it is."""
    if not COMPILED:
        return kernel
    config: Any = numba.config
    before, config.CACHE_DIR = config.CACHE_DIR, _FOLDER
    try:
        compiled: Any = numba.njit(cache=True, nogil=True, error_model="numpy")(kernel)
        return cast(Kernel, compiled)
    finally:
        config.CACHE_DIR = before


_FOLDER = _cache_folder() if COMPILED else ""
