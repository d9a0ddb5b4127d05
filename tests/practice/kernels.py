"""Invented answers, and other kernels: processes that record as a notebook would."""

import subprocess
import sys
from datetime import UTC, datetime, timedelta
from pathlib import Path

from workbook.practice.progress import Answered

ROOT = Path(__file__).parents[2]
START = datetime(2026, 3, 1, 9, tzinfo=UTC)
ARC, PIN = "04_lay_it_out/arc_not_chord", "04_lay_it_out/pin_up"
# Waits for a line, then records `count` answers from number `first` on; says each one when kept.
RECORDS = """
import sys
from datetime import UTC, datetime, timedelta
from workbook.practice.progress import Answered, Progress
folder, first, count = sys.argv[1], int(sys.argv[2]), int(sys.argv[3])
start = datetime(2026, 3, 1, 9, tzinfo=UTC)
sys.stdin.readline()
progress = Progress(folder)
if progress.said:
    print("said", progress.said, flush=True)
for n in range(first, first + count):
    at = start + timedelta(seconds=n)
    progress.record(Answered("kill/me", n, "typed %d" % n, "correct", 0, at))
    print(n, flush=True)
"""


def answer(n, exercise=ARC, given="4 1/2", outcome="correct", hints=0):
    return Answered(exercise, n, given, outcome, hints, START + timedelta(seconds=n))


def kernel(folder, first=0, count=10**6):
    program = [sys.executable, "-c", RECORDS, str(folder), str(first), str(count)]
    pipes = dict(stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=subprocess.PIPE)
    return subprocess.Popen(program, cwd=ROOT, text=True, **pipes)


def kept_by(kernels):
    """The numbers each of `kernels`, started together, says are kept."""
    for one in kernels:
        one.stdin.write("go\n")
        one.stdin.flush()
    said = [one.communicate(timeout=60) for one in kernels]
    assert [one.returncode for one in kernels] == [0] * len(kernels), said
    return [out.split("\n")[:-1] for out, _ in said]
