"""Run the linter, the type checker and every test."""

import os
import subprocess
import sys
import tempfile
from pathlib import Path

from workbook.start.places import private_state

LINT = ["ruff", "check", "."]
TYPES = ["mypy"]
# Browsers and new environments are mostly waited for: these run beside the others.
BESIDE = ("tests/browser", "tests/start")


def run(root: Path, pytest_words: list[str]) -> int:
    """Run all checks on the checkout `root`, or pytest alone if given words for it.

    Returns
    -------
    int
        0 if everything passed.
    """
    env = os.environ | private_state(root)
    if pytest_words:
        failed = _steps([["pytest", *pytest_words]], root, env)
    else:
        others = ["pytest", *(f"--ignore={folder}" for folder in BESIDE)]
        with tempfile.TemporaryFile("w+", encoding="utf-8", errors="replace") as said:
            beside = subprocess.Popen(
                [sys.executable, "-m", "pytest", *BESIDE],
                cwd=root, env=env, stdout=said, stderr=subprocess.STDOUT,
            )  # fmt: skip
            try:
                failed = _steps([LINT, TYPES, others], root, env)
                failed += [" ".join(["pytest", *BESIDE])] * bool(beside.wait())
            finally:
                beside.terminate()  # where somebody stopped the others; else it has ended
            print("$ pytest", *BESIDE)
            said.seek(0)
            print(said.read())
    print(f"Failed: {', '.join(failed)}." if failed else "All checks passed.", flush=True)
    return int(bool(failed))


def _steps(steps: list[list[str]], root: Path, env: dict[str, str]) -> list[str]:
    """Run one after the other, and return those that failed."""
    failed = []
    for step in steps:
        print("$", *step, flush=True)
        if subprocess.run([sys.executable, "-m", *step], cwd=root, env=env, check=False).returncode:
            failed.append(step[0])
    return failed
