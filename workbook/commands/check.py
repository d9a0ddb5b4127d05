"""`python3 -m workbook check`: what published sources have, what the library gives, do they agree.

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
        description="Run the published and textbook checks and print them as a table: mark, "
        "source, quantity, expected, got, and whether they agree.",
    ).parse_args(words)
    return subprocess.run(
        [sys.executable, "-m", "pytest", TESTS, "--show-checks", *QUIET],
        cwd=root,
        env=os.environ | places.private_state(root),
        check=False,
    ).returncode
