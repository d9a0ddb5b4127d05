"""`python3 -m workbook check`: what outside sources have, what the library gives, do they agree.

The numbers come from the tests in ``tests/published``, run here and now.
"""

import argparse
import os
import subprocess
import sys
from pathlib import Path

from workbook.start import places

TESTS = "tests/published"
QUIET = ("-q", "--no-header", "-p", "no:cacheprovider")


def main(root: Path, words: list[str]) -> int:
    """Run the command `words` in the checkout `root`; return what pytest does: 0 if all agree."""
    argparse.ArgumentParser(
        prog="python3 -m workbook check",
        description="Run the check values from outside the project and print them by mark and "
        "source: quantity, expected, got, and whether they agree. Values compared, rules that the "
        "library is consistent with, and constants taken from the source are counted apart.",
    ).parse_args(words)
    return subprocess.run(
        [sys.executable, "-m", "pytest", TESTS, "--show-checks", *QUIET],
        cwd=root,
        env=os.environ | places.private_state(root),
        check=False,
    ).returncode
