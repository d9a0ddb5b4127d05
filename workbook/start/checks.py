"""Run the linter, the type checker and every test."""

import os
import subprocess
import sys
from pathlib import Path

from workbook.start.places import private_state

LINT = ["ruff", "check", "."]
TYPES = ["mypy"]


def run(root: Path, pytest_words: list[str]) -> int:
    """Run all checks on the checkout `root`, or pytest alone if given words for it.

    Returns
    -------
    int
        0 if everything passed.
    """
    steps = [["pytest", *pytest_words]] if pytest_words else [LINT, TYPES, ["pytest"]]
    failed = []
    for step in steps:
        print("$", *step, flush=True)
        done = subprocess.run(
            [sys.executable, "-m", *step],
            cwd=root,
            env=os.environ | private_state(root),
            check=False,
        )
        if done.returncode:
            failed.append(step[0])
    print(f"Failed: {', '.join(failed)}." if failed else "All checks passed.", flush=True)
    return int(bool(failed))
