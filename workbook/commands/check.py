"""`python3 -m workbook check`: what published sources have, what the library gives, do they agree.

The numbers come from the tests in ``tests/published``, run here and now.
"""

import argparse
import os
import subprocess
import sys

from workbook.start import places

TESTS = "tests/published"
QUIET = ("-q", "--no-header", "-p", "no:cacheprovider")


def main(arguments: list[str] | None = None) -> int:
    """Run the command.

    Returns
    -------
    int
        That of pytest: 0 if every check agrees; or 2 where there are no tests to run.
    """
    argparse.ArgumentParser(
        prog="python3 -m workbook check",
        description="Run the published and textbook checks and print them as a table: mark, "
        "source, quantity, expected, got, and whether they agree.",
    ).parse_args(arguments)
    root = places.checkout()
    if root is None or not (root / TESTS).is_dir():
        print(
            f"The checks run from {TESTS} in the source folder, which the installed package does "
            "not hold.",
            file=sys.stderr,
        )
        return 2
    return subprocess.run(
        [sys.executable, "-m", "pytest", TESTS, "--show-checks", *QUIET],
        cwd=root,
        env=os.environ | places.private_state(root),
        check=False,
    ).returncode
