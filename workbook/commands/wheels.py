"""`python3 -m workbook wheels DIR`: a folder to set the workbook up from without a network."""

import argparse
import platform
import sys
from pathlib import Path

from workbook.start.installing import download
from workbook.start.refusal import Refusal


def main(root: Path, words: list[str]) -> int:
    """Fill the folder that `words` name with the packages the checkout `root` needs.

    Raises
    ------
    Refusal
        A folder that cannot be made, or pip's complaint.
    """
    parser = argparse.ArgumentParser(
        prog="python3 -m workbook wheels",
        description="Fetch every package once, to set up computers of the same kind offline.",
    )
    parser.add_argument("folder", metavar="DIR", type=Path, help="where the packages go")
    folder = parser.parse_args(words).folder.resolve()
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise Refusal(f"Cannot make the folder {folder}: {error.strerror}.") from error
    print(f"Fetching the packages into {folder} ...", file=sys.stderr, flush=True)
    download(sys.executable, root, folder)
    files = [file for file in folder.iterdir() if file.is_file()]
    size = sum(file.stat().st_size for file in files) / 1e6
    print(
        f"{folder} holds {len(files)} files, {size:.0f} MB, for {_kind()}. On such a computer, "
        "without a network, in a copy of this checkout:\n"
        "  python3 -m workbook --wheels DIR\nwhere DIR is this folder."
    )
    return 0


def _kind() -> str:
    major, minor, _ = platform.python_version_tuple()
    return f"{platform.system()} {platform.machine()} with Python {major}.{minor}"
