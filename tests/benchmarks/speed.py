"""Speed beside error, in one run: `python tests/benchmarks/speed.py [shots]` prints the table.

The error is against scipy's DOP853 at 1e-10 on the same equations; speed is best of three, because
the machine is shared. Releases are drawn over the teaching range (14-21 mph, 150-500 rpm).
"""

import json
import os
import resource
import subprocess
import sys
import tempfile
import time
from dataclasses import replace

import numpy as np
from scipy.integrate import solve_ivp

import workbook as wb
from workbook import demo, units
from workbook.core import roll as kernel
from workbook.core.compiled import jit
from workbook.line import BOARD_IN
from workbook.rolling import Body, friction, record, roll_records

PLAIN = """
import sys, time
sys.path.insert(0, "tests/benchmarks")
from speed import by_solve_ivp, records, releases
import workbook as wb
film, _ = wb.Lane.house().kernel_arrays("right")
shot = records(releases(1), wb.Line(laydown_board=26, arrow_board=18))[0]
begin = time.perf_counter()
by_solve_ivp(shot, film, rtol=1e-6, atol=1e-8)
print(time.perf_counter() - begin)
"""
MEMORY = """
import re, sys
from pathlib import Path
sys.path.insert(0, "tests/benchmarks")
import numpy as np
from speed import records, releases
import workbook as wb
from workbook.rolling import roll_records
some = records(releases(50), wb.Line(laydown_board=26, arrow_board=18))
packed = np.resize(some, int(sys.argv[1]))
roll_records(packed, wb.Lane.house(), "right")
# the peak of this process alone: what getrusage says is handed down from the parent
print(int(re.search(r"VmHWM:\\s+(\\d+)", Path("/proc/self/status").read_text())[1]) / 1024)
"""
COLD = """
import time; begin = time.perf_counter()
import workbook as wb
from workbook import demo
imported = time.perf_counter()
wb.rate(demo.pin_up_and_down()[0])
print(imported - begin, time.perf_counter() - begin)
"""


def releases(n: int, seed: int = 7) -> list[wb.Setup]:
    """Return setups with random releases over the teaching range and random layouts."""
    draw = np.random.default_rng(seed).uniform
    base = demo.pin_up_and_down()[0]
    return [
        replace(
            base,
            bowler=replace(
                base.bowler,
                speed_mph=draw(14, 21),
                rev_rate_rpm=draw(150, 500),
                axis_rotation_deg=draw(10, 80),
                axis_tilt_deg=draw(5, 25),
            ),
            layout=wb.Layout(
                drilling_angle_deg=draw(10, 90),
                pin_to_pap_in=draw(2, 6),
                val_angle_deg=draw(10, 80),
            ),
            surface=wb.Surface(grit=draw(500, 4000)),
        )
        for _ in range(n)
    ]


def records(setups: list[wb.Setup], line: wb.Line) -> np.ndarray:
    """Pack the shots, on a lane without gutters so that each reaches the pins."""
    return np.array(
        [record(Body.of(s), s, line, friction(s), gutters=False) for s in setups], kernel.SHOT
    )


def by_solve_ivp(shot: np.void, film: np.ndarray, **options: float) -> tuple[float, float]:
    """Board [m] and direction [rad] of the ball's centre at the pins, by scipy."""
    seen, out = np.empty(kernel.SEEN), np.empty(kernel.STATE)

    def slope(_t: float, s: np.ndarray) -> np.ndarray:
        kernel.derivative(s, shot, film, -1.0, out, seen)
        return out.copy()

    def at_pins(t: float, s: np.ndarray) -> float:
        slope(t, s)
        return s[1] - seen[6] - shot["end"]

    at_pins.terminal = True  # type: ignore[attr-defined]
    start = np.empty(kernel.STATE)
    kernel._start(shot, start)
    answer = solve_ivp(slope, (0.0, 20.0), start, method="DOP853", events=at_pins, **options)
    s = answer.y_events[0][0]
    slope(0.0, s)
    return s[0] - seen[5], np.arctan2(-seen[10], seen[11])


def errors(shots: np.ndarray, lane: wb.Lane) -> tuple[np.ndarray, np.ndarray]:
    """Errors of the kernel at the pins: board [board] and entry angle [deg]."""
    film, _ = lane.kernel_arrays("right")
    got = roll_records(shots, lane, "right")
    exact = np.array([by_solve_ivp(s, film, rtol=1e-10, atol=1e-12, max_step=0.01) for s in shots])
    boards = np.abs(got["x"] - exact[:, 0]) / (BOARD_IN * units.INCH)
    return boards, np.abs(got["direction"] - exact[:, 1]) / units.DEGREE


def best(job, times: int = 3) -> float:
    """Return the least time of a few runs [s]."""
    took = []
    for _ in range(times):
        begin = time.perf_counter()
        job()
        took.append(time.perf_counter() - begin)
    return min(took)


def measure(many: int, checked: int, compared: int) -> dict[str, float]:
    """Measure everything once."""
    lane, line = wb.Lane.house(), wb.Line(laydown_board=26, arrow_board=18)
    film, _ = lane.kernel_arrays("right")
    some = records(releases(checked), line)
    boards, degrees = errors(some, lane)
    setups = releases(many)
    packed = np.resize(records(setups[: min(many, 500)], line), many)
    part = packed[: many // 4]
    roll_records(part[:4], lane, "right")
    one = best(lambda: roll_records(part, lane, "right", workers=1), 5) / len(part)
    two = best(lambda: roll_records(part, lane, "right", workers=2), 5) / len(part)
    for setup in setups:
        setup.drilled  # noqa: B018 - the holes are cut before the clock starts
    batch = best(lambda: wb.roll_many(setups, lane, line))
    scipy_s = best(
        lambda: [by_solve_ivp(s, film, rtol=1e-6, atol=1e-8) for s in some[:compared]], 2
    )
    setup = setups[0]
    front = best(lambda: [wb.roll(setup, lane, line) for _ in range(50)]) / 50
    up, down = demo.pin_up_and_down()
    wb.bands(up, down)
    banded = best(
        lambda: wb.bands(up, replace(down, layout=replace(down.layout, val_angle_deg=draw_val())))
    )
    cold, warm = start_times()
    return {
        "kernel, one core [ms/shot]": one * 1e3,
        "kernel, one derivative [ns]": derivative_ns(some[0], film),
        "kernel, one core [shots/s]": 1 / one,
        "kernel, two cores [shots/s]": 1 / two,
        "two cores over one, best of five [ratio]": one / two,
        "wb.bands, 256 draws of two setups [ms]": banded * 1e3,
        "wb.roll with its path [ms/shot]": front * 1e3,
        "board error, 95th percentile [board]": float(np.percentile(boards, 95)),
        "board error, worst [board]": float(boards.max()),
        "entry error, 95th percentile [deg]": float(np.percentile(degrees, 95)),
        f"wb.roll_many, {many} shots, all cores [s]": batch,
        "scipy solve_ivp (compiled right side, 1e-6) over kernel [ratio]":
            scipy_s / compared / one,
        "scipy solve_ivp (plain Python right side, 1e-6) over kernel [ratio]":
            float(own_process(PLAIN, WORKBOOK_PLAIN="1")) / one,
        "first start, kernels compiled [s]": cold,
        "later start, kernels from the cache [s]": warm,
        "peak memory, 1,000 packed shots rolled [MB]": float(own_process(MEMORY, "1000")),
        "peak memory, 100,000 packed shots rolled [MB]": float(own_process(MEMORY, "100000")),
        "peak memory of this process [MB]":
            resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024,
    }  # fmt: skip


def draw_val() -> float:
    """A VAL angle that was not asked for before."""
    return float(np.random.default_rng().uniform(60, 80))


def derivative_ns(shot: np.void, film: np.ndarray) -> float:
    """Time of one right side of the equations, called in a compiled loop [ns]."""
    start = np.empty(kernel.STATE)
    kernel._start(shot, start)
    loop = jit(_derivatives)
    loop(shot, film, start, 10)
    return best(lambda: loop(shot, film, start, 20_000), 5) / 20_000 * 1e9


def _derivatives(shot, film, state, times):  # type: ignore[no-untyped-def]
    out, seen = np.empty(kernel.STATE), np.empty(kernel.SEEN)
    for _ in range(times):
        kernel.derivative(state, shot, film, -1.0, out, seen)
    return out[0]


def own_process(code: str, *arguments: str, **variables: str) -> str:
    """What a new Python prints last."""
    done = subprocess.run(
        [sys.executable, "-c", code, *arguments], capture_output=True, text=True, check=True,
        env=os.environ | variables,
    )  # fmt: skip
    return done.stdout.split()[-1]


def start_times() -> tuple[float, float]:
    """Import and first rating in a new process: with kernels to compile, and from the cache [s]."""
    with tempfile.TemporaryDirectory() as folder:
        took = []
        for _ in range(2):
            done = subprocess.run(
                [sys.executable, "-c", COLD],
                capture_output=True,
                text=True,
                check=True,
                env={**os.environ, "WORKBOOK_KERNELS": folder},
            )
            took.append(float(done.stdout.split()[1]))
    return took[0], took[1]


def main(arguments: list[str]) -> int:
    """Print the table, or JSON with `--json`."""
    numbers = [int(a) for a in arguments if a.isdecimal()]
    table = measure(numbers[0] if numbers else 10_000, 100, 5)
    if "--json" in arguments:
        print(json.dumps(table))
    else:
        for name, value in table.items():
            print(f"{name:<66}{value:12.4g}")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
