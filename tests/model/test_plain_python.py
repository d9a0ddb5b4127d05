"""The kernels as plain Python give what the compiled ones give."""

import json
import math
import os
import subprocess
import sys
from dataclasses import fields
from pathlib import Path

import pytest

import workbook as wb
from tests.conftest import BENCH, PIN_DOWN, changed
from workbook.core import compiled

ROOT = Path(__file__).parents[2]
BILLIONTH = 1e-9
ZONES = wb.Lane.of_friction([(0, 0.04), (40, 0.20)])
LINE = wb.Line(laydown_board=12, launch_deg=0.5)
SHOTS = {
    "reference": (changed(), wb.Lane.reference()),
    "house, pin down, polished": (
        changed(layout=PIN_DOWN, surface=wb.Surface(polished=True)), wb.Lane.house()),
    "dry, bench grip, backup": (changed(grip=BENCH, axis_rotation_deg=-15), wb.Lane.dry()),
    "zones": (changed(), ZONES),
    "zones, undrilled, no revs": (changed(grip=wb.Grip(), rev_rate_rpm=0), ZONES),
    "left, urethane": (changed(hand="left", cover="urethane", rev_rate_rpm=500), wb.Lane.flat()),
}  # fmt: skip


def numbers():
    """Everything reported of a handful of shots, and of their paths' last rows."""
    result = {"compiled": compiled.COMPILED}
    for name, (setup, lane) in SHOTS.items():
        shot = wb.roll(setup, lane, LINE)
        skipped = ("rings", "path", "notes")
        found = {f.name: getattr(shot, f.name) for f in fields(shot) if f.name not in skipped}
        found["rings"] = [[*ring.axis, ring.opening_deg, ring.distance_ft] for ring in shot.rings]
        found["last row"] = shot.path.table[-1].tolist()
        result[name] = found
    return result


def same(one, two):
    if isinstance(one, list):
        return len(one) == len(two) and all(map(same, one, two))
    if one is None or two is None:
        return one is two
    return math.isclose(one, two, rel_tol=BILLIONTH, abs_tol=1e-12)


@pytest.mark.skipif(not compiled.COMPILED, reason="numba is not installed: all is plain Python")
def test_plain_python_agrees_to_a_billionth():
    program = f"import json; from {__name__} import numbers; print(json.dumps(numbers()))"
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=ROOT, env=dict(os.environ, WORKBOOK_PLAIN="1"),
        capture_output=True, text=True, check=True,
    )  # fmt: skip
    plain, here = json.loads(done.stdout), numbers()
    assert here["compiled"] and not plain["compiled"]
    for name in SHOTS:
        assert plain[name].keys() == here[name].keys()
        wrong = [q for q in here[name] if not same(here[name][q], plain[name][q])]
        assert not wrong, (name, [(q, here[name][q], plain[name][q]) for q in wrong])
