"""What must hold whatever the input: energy, mirror, round trips, and that each input counts."""

from dataclasses import fields, replace

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import workbook as wb
from tests.conftest import SETUP, changed
from tests.model.test_energy import STRAIGHT, energy
from tests.model.test_sweep import inputs
from workbook import rolling, units
from workbook.inputs import limits

pytestmark = pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
HOUSE = wb.Lane.house()
SWING = wb.Line(laydown_board=25, launch_deg=2.0)
A_THOUSANDTH = 1e-3


@pytest.mark.parametrize("seed", range(6))
def test_energy_lost_is_the_work_of_friction_to_a_thousandth(seed, monkeypatch):
    """With steps so small that trapezoids over them do for the integral."""
    monkeypatch.setattr(rolling, "TOLERANCE", 1e-10)
    draw = np.random.default_rng(seed).uniform
    setup = changed(
        speed_mph=draw(14, 21), rev_rate_rpm=draw(150, 500), axis_rotation_deg=draw(0, 90),
        axis_tilt_deg=draw(0, 30), release_phase_deg=draw(-180, 180), top_weight_oz=draw(-3, 3),
    )  # fmt: skip
    total, path = energy(setup, HOUSE)
    t = path.table
    power = t[:, rolling.kernel.MU] * t[:, rolling.kernel.LOAD] * t[:, rolling.kernel.SLIP]
    power *= np.tanh(t[:, rolling.kernel.SLIP] / setup.assumptions.slip_scale)
    work = np.trapezoid(power, path.time_s)
    assert total[0] - total[-1] == pytest.approx(work, rel=A_THOUSANDTH)


@settings(max_examples=60)
@given(inputs(wb.Layout), st.floats(3.5, 6.0), st.floats(-1.0, 1.0))
def test_a_mirrored_bowler_gets_the_same_numbers(layout, over, up):
    setup = changed(layout=wb.Layout(**layout), pap_over_in=over, pap_up_in=up)
    left = changed(setup, hand="left")
    right, mirrored = (wb.roll(s, HOUSE, SWING) for s in (setup, left))
    assert mirrored.breakpoint_board == pytest.approx(right.breakpoint_board, abs=1e-6)
    assert mirrored.flare_in == pytest.approx(right.flare_in, abs=1e-6)
    assert mirrored.entry_board == pytest.approx(right.entry_board, abs=1e-6)


UNITS = ["INCH", "FOOT", "POUND", "OUNCE", "MPH", "RPM", "DEGREE", "MILLILITRE", "MICROMETRE"]


@settings(max_examples=200)
@given(st.floats(-1e3, 1e3), st.sampled_from(UNITS))
def test_units_go_and_come_back(value, name):
    unit = getattr(units, name)
    assert value * unit / unit == pytest.approx(value, rel=1e-12, abs=1e-12)


def test_units_are_those_of_the_standards():
    """Published: the inch is 25.4 mm and the pound 0.45359237 kg (agreement of 1959)."""
    assert (units.INCH, units.FOOT, units.POUND) == (0.0254, 12 * 0.0254, 0.45359237)
    assert pytest.approx(units.POUND) == units.OUNCE * 16
    assert pytest.approx(units.MPH) == 5280 * 0.3048 / 3600
    assert pytest.approx(units.RPM) == 2 * np.pi / 60


def answers(setup, line=SWING):
    """Everything that is told of a setup, as one row."""
    d = setup.drilled
    shot = wb.roll(setup, HOUSE, line)
    balls = [d.rg_low_in, d.rg_high_in, d.rg_intermediate_in, d.removed_oz, *d.static_balance_oz]
    shots = [getattr(shot, f.name) for f in fields(wb.Shots)]
    rated = wb.rate(setup)
    return np.array([np.nan if v is None else v for v in [*balls, *shots, len(shot.rings),
                     rated.hook_potential_boards, rated.length_ft]], dtype=float)  # fmt: skip


def numbers_of(part):
    record = getattr(SETUP, part)
    for f in fields(record):
        if "unit" in f.metadata:
            yield pytest.param(part, f.name, id=f"{part} {f.name}")


INPUTS = [case for part in ("bowler", "ball", "layout", "surface", "assumptions")
          for case in numbers_of(part) if case.values[1] != "ring_film"]  # fmt: skip


@pytest.mark.parametrize(("part", "name"), INPUTS)
def test_each_input_changes_some_answer(part, name):
    base = changed(top_weight_oz=2.0, cover=name.split("_")[-1]) if name.endswith(
        ("polyester", "urethane", "reactive")) else changed(top_weight_oz=2.0)  # fmt: skip
    if name == "ra_polished":
        base = replace(base, surface=wb.Surface(polished=True))
    if name == "ra_exponent":
        base = replace(base, surface=wb.Surface(grit=500))
    record = getattr(base, part)
    low, high, _ = limits(type(record), name)
    now = getattr(record, name)
    if now is None:
        now = low
    other = now + 0.25 * (high - now) if high - now > now - low else now - 0.25 * (now - low)
    moved = replace(base, **{part: replace(record, **{name: other})})
    assert not np.allclose(answers(base), answers(moved), rtol=1e-9, atol=1e-9, equal_nan=True)


def test_a_thicker_least_film_leaves_fewer_rings():
    """Rings come one a revolution, so one shot may not show it: 40 of different speeds do."""
    tapered = wb.Lane("tapered", np.linspace(5.0, 0.0, 61)[:, None] * np.ones(39))
    counts = [
        sum(len(wb.roll(changed(speed_mph=v, ring_film=film), tapered, STRAIGHT).rings)
            for v in np.linspace(15, 20, 40))
        for film in (0.02, 0.2)
    ]  # fmt: skip
    assert counts[1] < counts[0]


@pytest.mark.parametrize("name", [
    "over_in", "up_in", "diameter_in", "depth_in", "forward_pitch_in", "lateral_pitch_in",
    "insert_inner_in",
])  # fmt: skip
def test_each_number_of_a_hole_changes_the_drilled_ball(name):
    hole = SETUP.grip.holes[2]
    other = replace(hole, **{name: getattr(hole, name) + 0.1})
    moved = changed(grip=wb.Grip((*SETUP.grip.holes[:2], other)))
    assert not np.allclose(answers(SETUP), answers(moved), rtol=1e-9, atol=1e-9, equal_nan=True)


@pytest.mark.parametrize("change", [dict(laydown_board=26), dict(launch_deg=2.5)])
def test_each_number_of_the_line_changes_the_shot(change):
    moved = replace(SWING, **change)
    assert not np.allclose(answers(SETUP), answers(SETUP, moved), equal_nan=True)


@settings(max_examples=80)
@given(st.floats(14, 21), st.floats(150, 500), st.floats(0, 90), st.floats(0, 30))
def test_the_shot_is_in_order(speed, revs, rotation, tilt):
    """Half slip before roll, slower at the pins than at release, flare within the ball."""
    setup = changed(speed_mph=speed, rev_rate_rpm=revs, axis_rotation_deg=rotation,
                    axis_tilt_deg=tilt)  # fmt: skip
    shot = wb.roll(setup, HOUSE, STRAIGHT, gutters=False)
    if shot.length_ft is not None and shot.roll_ft is not None:
        assert shot.length_ft < shot.roll_ft
    assert 60 / (speed * 5280 / 3600) < shot.time_s < 1.5 * 60 / (speed * 5280 / 3600)
    assert 0 <= shot.flare_in < 13.5
    assert np.all(np.diff(shot.path.distance_ft) > 0)
    distances = [ring.distance_ft for ring in shot.rings]
    assert distances == sorted(distances)
