"""Whether an interpreter has the workbook and all it needs.

``python -m workbook.start.installed [extra ...]`` asks another interpreter the same question.
"""

import json
import re
import sys
from importlib import metadata
from importlib.util import find_spec
from pathlib import Path
from urllib.parse import urlparse
from urllib.request import url2pathname

from workbook.start.places import PACKAGE

DISTRIBUTION = "bowling-layout-workbook"
IMPORT_NAMES = {"pillow": "PIL", "pyspellchecker": "spellchecker"}


def missing(root: Path, extras: list[str]) -> list[str]:
    """Return the distributions that this interpreter lacks for running the checkout `root`.

    The workbook itself counts as missing unless it is an editable install of this checkout:
    otherwise the notebooks' kernel would import another one.
    """
    try:
        distribution = metadata.distribution(DISTRIBUTION)
    except metadata.PackageNotFoundError:
        return [DISTRIBUTION]
    if _editable_folder(distribution) != root.resolve():
        return [DISTRIBUTION]
    names = required(distribution.requires or [], extras)
    return [n for n in names if find_spec(IMPORT_NAMES.get(n, n.replace("-", "_"))) is None]


def required(requirements: list[str], extras: list[str]) -> list[str]:
    """Return the names among `requirements` that hold everywhere or belong to `extras`.

    Examples
    --------
    >>> required(["numpy>=1.26", "numba; python_version < '3.15'", "ruff; extra == 'test'"], [])
    ['numpy']
    """
    names = []
    for requirement in requirements:
        wanted, _, marker = requirement.partition(";")
        extra = re.fullmatch(r"\s*extra == ['\"](.+)['\"]\s*", marker)
        if not marker or (extra and extra[1] in extras):
            names.append(re.split(r"[^\w.-]", wanted.strip(), maxsplit=1)[0])
    return names


def _editable_folder(distribution: metadata.Distribution) -> Path | None:
    origin = json.loads(distribution.read_text("direct_url.json") or "{}")
    if not origin.get("dir_info", {}).get("editable"):
        return None
    return Path(url2pathname(urlparse(origin["url"]).path)).resolve()


if __name__ == "__main__":
    sys.exit(bool(missing(PACKAGE.parent, sys.argv[1:])))
