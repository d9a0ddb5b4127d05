"""Bands: against plain Monte Carlo draws made here, of the same ranges."""

import math
from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from workbook import demo, draws
from workbook.assumptions import Assumptions
from workbook.certainty import Range, bands
from workbook.comparison import USUAL_LINE, compare
from workbook.rolling import friction, record, roll_records, shots_from
from workbook.scatter import Scatter
from workbook.sources import FACTS

UP, DOWN = demo.pin_up_and_down()
HOUSE = wb.Lane.house()
STEADY = Scatter(**dict.fromkeys(Scatter.__dataclass_fields__, 0.0))


@pytest.fixture(scope="module")
def pin():
    return bands(UP, DOWN, draws=256)


def turned(v, axis, angle):
    """Rodrigues."""
    return (
        v * math.cos(angle)
        + np.cross(axis, v) * math.sin(angle)
        + axis * (axis @ v) * (1 - math.cos(angle))
    )


def disk(rng, radius):
    """A place evenly in a disk, by throwing away what falls outside."""
    while True:
        x, y = rng.uniform(-radius, radius, 2)
        if math.hypot(x, y) <= radius:
            return x, y


def point(over_up, radius=27.0 / (2 * math.pi)):
    a, b = np.array(over_up) / radius
    return np.array([math.cos(b) * math.sin(a), math.sin(b), math.cos(b) * math.cos(a)])


def plainly_drawn(setup, rng, scatter):
    """A record for the kernel, with everything that nobody knows well drawn anew."""
    radius = setup.ball.circumference_in / (2 * math.pi)
    assumed = {
        key: rng.uniform(*fact.range) for key, fact in FACTS.items()
        if key in Assumptions.__dataclass_fields__ and key not in ("slip_scale", "ring_film")
    }  # fmt: skip
    over, up = disk(rng, 0.25)
    bowler = setup.bowler
    bowler = replace(
        bowler,
        release_phase_deg=rng.uniform(-180, 180),
        pap_over_in=bowler.pap_over_in + over, pap_up_in=bowler.pap_up_in + up,
        **{k: getattr(bowler, k) + rng.normal(0, getattr(scatter, k))
           for k in ("speed_mph", "rev_rate_rpm", "axis_rotation_deg", "axis_tilt_deg")},
    )  # fmt: skip
    line = wb.Line(
        laydown_board=USUAL_LINE.laydown_board + rng.normal(0, scatter.laydown_board),
        launch_deg=USUAL_LINE.angle_deg + rng.normal(0, scatter.launch_deg),
    )
    thrower = replace(setup, bowler=bowler, assumptions=replace(setup.assumptions, **assumed))
    marks = setup.drilled.marks
    pin, psa, cg = (point(at, radius) for at in (marks.pin_in, marks.psa_in, marks.cg_in))
    third = np.cross(pin, psa)
    x, y = np.array(disk(rng, 1.0)) / radius
    low = turned(turned(pin, third, x), psa, y)
    high = psa - (psa @ low) * low
    high /= np.linalg.norm(high)
    along = radius * math.acos(high @ psa)
    high = turned(high, low, rng.uniform(-1, 1) * math.sqrt(1.5**2 - along**2) / radius)
    total, c, inertia = wb.drilling.cut(
        setup.ball, setup.grip, low, high,
        assumed["kappa"] * cg, assumed["insert_density"], assumed["filler_ratio"],
    )  # fmt: skip
    body = wb.rolling.Body(setup.ball.radius_m, inertia / total, c)
    return record(body, thrower, line, friction(thrower))


@pytest.fixture(scope="module")
def plain():
    """1,000 draws of pin up and of pin down, the same for both."""
    out = []
    for setup in (UP, DOWN):
        shots = np.array(
            [plainly_drawn(setup, np.random.default_rng(i), Scatter()) for i in range(1000)],
            wb.core.roll.SHOT,
        )
        out.append(shots_from(roll_records(shots, HOUSE, "right"), shots))
    return out


@pytest.mark.parametrize(("key", "near"), [
    ("total_hook_boards", 0.12), ("roll_ft", 0.15), ("flare_in", 0.12), ("entry_board", 0.12),
])  # fmt: skip
def test_bands_hold_the_middle_four_fifths(pin, plain, key, near):
    one, two = (getattr(shots, key) for shots in plain)
    c = compare(UP, DOWN)
    best_a, best_b = getattr(c.shot_a, key), getattr(c.shot_b, key)
    for found, drawn, best, slack in (
        (pin.a[key], one, best_a, 8 * near),
        (pin.difference[key], two - one, best_b - best_a, near),
    ):
        low, high = np.percentile(drawn[np.isfinite(drawn)], (10, 90))
        assert found.low == pytest.approx(min(low, best), abs=slack)
        assert found.high == pytest.approx(max(high, best), abs=slack)


def test_the_same_twice_differs_by_nothing_whatever_is_drawn():
    same = bands(UP, UP, draws=32)
    assert all(band == Range(0.0, 0.0) for band in same.difference.values())
    assert same.a == same.b


def test_bands_of_the_ball_hold_the_drilled_figures(pin):
    for setup, found in ((UP, pin.a), (DOWN, pin.b)):
        d = setup.drilled
        for key in ("rg_low_in", "rg_high_in", "differential_in", "intermediate_in", "weight_lb"):
            assert found[key].low - 1e-9 <= getattr(d, key) <= found[key].high + 1e-9
            assert found[key].low < found[key].high
        balance = d.static_balance
        for key in ("top_oz", "side_oz", "finger_oz"):
            assert found[key].low - 1e-9 <= getattr(balance, key) <= found[key].high + 1e-9


def test_the_path_band_holds_the_path_and_opens_down_the_lane(pin):
    shot = wb.roll(UP, HOUSE, USUAL_LINE)
    best = np.interp(np.arange(61), shot.path.distance_ft, shot.path.board)
    assert np.all(pin.path_a[0] <= best + 0.02) and np.all(best - 0.02 <= pin.path_a[1])
    width = pin.path_a[1] - pin.path_a[0]
    assert width[0] == pytest.approx(2 * 1.2816 * 0.5, abs=0.1)  # the laydown's scatter alone
    assert width[60] > 3 * width[0]
    assert width[60] == pytest.approx(pin.a["entry_board"].high - pin.a["entry_board"].low, abs=0.3)


def test_a_ball_in_the_gutter_stays_there():
    line = wb.Line(laydown_board=5, launch_deg=4.0)
    found = bands(UP, DOWN, HOUSE, line, draws=32, scatter=STEADY)
    assert found.missing["entry_board"] == 32 and "entry_board" not in found.a
    gutter = wb.roll(UP, HOUSE, line)
    assert found.path_a[:, -1] == pytest.approx(gutter.path.board[-1], abs=0.05)


def test_without_scatter_the_line_is_as_aimed(pin):
    steady = bands(UP, DOWN, draws=64, scatter=STEADY)
    assert np.ptp(steady.path_a[:, 0]) < 0.2  # the ball's centre against its centre of mass
    wide = [b.a["entry_board"].high - b.a["entry_board"].low for b in (pin, steady)]
    assert wide[1] < wide[0]


def test_axes_of_the_core_stay_within_the_tolerances_and_square():
    """USBC equipment specifications: low-RG axis within 1 in of the pin, high-RG axis 1 1/2 in."""
    arc = 2 * math.pi / 27.0
    pin, psa = np.array([0.0, 0.6, 0.8]), np.array([1.0, 0.0, 0.0])
    offs = []
    for row in draws._rows(256):
        low, high = draws._core(pin, psa, row, arc)
        assert abs(low @ high) < 1e-12
        offs.append((math.acos(low @ pin) / arc, math.acos(high @ psa) / arc))
    far, off = np.array(offs).T
    assert 0.97 < far.max() <= 1.0 + 1e-9 and np.median(far) == pytest.approx(0.5**0.5, abs=0.03)
    assert 1.4 < off.max() <= 1.5


def test_what_is_no_setup_or_count_is_refused():
    with pytest.raises(wb.InputRefused, match="setup B"):
        bands(UP, 3)
    with pytest.raises(wb.InputRefused, match="number of draws 1 is outside 2 to"):
        bands(UP, DOWN, draws=1)
    with pytest.raises(wb.InputRefused, match="number of draws must be a whole number"):
        bands(UP, DOWN, draws=64.5)
    with pytest.raises(wb.InputRefused, match="scatter of the speed 9 mph is outside 0 to 1 mph"):
        Scatter(speed_mph=9)


def test_any_count_of_draws_will_do_and_a_steep_line_is_drawn_where_it_is():
    steep = wb.Line(laydown_board=1, arrow_board=36)
    assert steep.angle_deg < -14
    drawn = draws.draw(UP, steep, Scatter(), 100)
    angles = [one.line.angle_deg for one in drawn]
    assert len(angles) == 101 and np.mean(angles[1:]) == pytest.approx(steep.angle_deg, abs=0.02)
    assert np.std(angles[1:]) == pytest.approx(0.25, rel=0.05)
