"""What is drawn, draw by draw (evenly where it is said to be), and whose band is whose.

Plain statistics; tolerances of the marks: USBC equipment specifications (published).
"""

import math

import numpy as np
import pytest

import workbook as wb
from tests.conftest import SETUP, STRAIGHT_FROM_8, changed
from workbook import draws
from workbook.certainty import bands
from workbook.scatter import Scatter

STEADY = Scatter(**dict.fromkeys(Scatter.__dataclass_fields__, 0.0))
QUARTER_INCH = 0.25
DRAWS = 256


@pytest.fixture(scope="module")
def bowlers():
    """Of all draws but the first, which is the best value."""
    drawn = draws.draw(SETUP, STRAIGHT_FROM_8, STEADY, DRAWS)
    assert drawn[0].thrower == SETUP and len(drawn) == 1 + DRAWS
    return [one.thrower.bowler for one in drawn[1:]]


def test_pap_lies_evenly_within_a_quarter_inch(bowlers):
    """Half of a disk's area lies within 1/sqrt(2) of its radius, a quarter within half of it."""
    over, up = np.array([b.pap for b in bowlers]).T - np.array([[5.0], [0.5]])
    off = np.hypot(over, up)
    assert 0.98 * QUARTER_INCH < off.max() <= QUARTER_INCH + 1e-9
    assert np.mean(off < QUARTER_INCH / math.sqrt(2)) == pytest.approx(0.5, abs=0.03)
    assert np.mean(off < QUARTER_INCH / 2) == pytest.approx(0.25, abs=0.03)
    for sideways, upward in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
        share = np.mean((sideways * over > 0) & (upward * up > 0))
        assert share == pytest.approx(0.25, abs=0.03)


def test_ball_is_turned_any_way_at_release(bowlers):
    """Each eighth of the circle as often as any other."""
    phases = [b.release_phase_deg for b in bowlers]
    counts, _ = np.histogram(phases, np.linspace(-180, 180, 9))
    assert counts == pytest.approx(np.full(8, DRAWS / 8), abs=2)


def test_top_weight_in_ounces_is_known_whatever_the_scale():
    """A spec sheet's ounces were read off a scale: what they are worth in inch ounces is drawn.

    So the ounces of an undrilled ball have no band, and the place of its centre of mass has.
    """
    setup = changed(grip=wb.Grip(), top_weight_oz=2.5)
    found = bands(setup, setup, draws=32, scatter=STEADY).a
    balance = setup.drilled.static_balance
    assert math.hypot(balance.top_oz, balance.side_oz, balance.finger_oz) == pytest.approx(2.5)
    for key in ("top_oz", "side_oz", "finger_oz"):
        ends = found[key].low, found[key].high
        assert ends == pytest.approx([getattr(balance, key)] * 2, abs=1e-9)
    off = [np.linalg.norm(one.body.c) for one in draws.draw(setup, STRAIGHT_FROM_8, STEADY, 32)]
    assert max(off) > 1.5 * min(off)


def test_axes_of_the_core_fill_the_tolerances_of_their_marks():
    """USBC equipment specifications: 1 in around the pin, 1 1/2 in around the mass-bias mark.

    The two axes stay square, so of the second one only the part across the line to the pin shows.
    """
    setup = changed(grip=wb.Grip(), differential_in=0.050, intermediate_in=0.020)
    marks = setup.drilled.marks
    pin, psa = (wb.Pap(*at).vector(27.0) for at in (marks.pin_in, marks.psa_in))
    third = np.cross(pin, psa)
    inch = 27.0 / (2 * math.pi)
    low, across = [], []
    for one in draws.draw(setup, STRAIGHT_FROM_8, STEADY, DRAWS)[1:]:
        _, axes = np.linalg.eigh(one.body.inertia)
        low.append(inch * math.acos(abs(float(axes[:, 0] @ pin))))
        across.append(inch * math.asin(abs(float(axes[:, 2] @ third))))
    assert 0.98 < max(low) < 1.0 + 1e-6
    assert np.mean(np.array(low) < math.sqrt(0.5)) == pytest.approx(0.5, abs=0.03)
    assert 1.35 < max(across) < 1.52


def test_each_ball_has_its_own_band_of_the_path():
    other = changed(rev_rate_rpm=250)
    one, two = bands(SETUP, other, draws=16), bands(other, SETUP, draws=16)
    assert np.array_equal(one.path_a, two.path_b) and np.array_equal(one.path_b, two.path_a)
    assert one.path_b[1, -1] < one.path_a[1, -1] - 1.0  # fewer revs end on a lower board


def test_what_either_ball_lacks_is_missing_from_the_difference():
    """A fast polished ball without revs still slides at the pins on much oil."""
    polished = wb.Surface(polished=True)
    lost = changed(speed_mph=25, rev_rate_rpm=0, cover="polyester", surface=polished)
    assert wb.roll(lost, wb.Lane.heavy(), STRAIGHT_FROM_8).roll_ft is None
    for pair in ((SETUP, lost), (lost, SETUP)):
        found = bands(*pair, wb.Lane.heavy(), STRAIGHT_FROM_8, draws=16, scatter=STEADY)
        assert found.missing["roll_ft"] >= 15 and "roll_ft" not in found.difference


def test_what_is_known_is_not_drawn():
    weighed = changed(kappa=0.8, top_weight_oz=2.0)
    free, held = (wb.drilled_bands(weighed, draws=64, known=known) for known in ((), ("kappa",)))
    assert held["top_oz"].high - held["top_oz"].low < free["top_oz"].high - free["top_oz"].low
    for key in ("flare_in", "hook_potential_boards", "rated_length_ft"):
        assert free[key].low < free[key].high
