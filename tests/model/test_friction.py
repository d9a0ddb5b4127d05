"""Friction at the contact, by hand and by quadrature: rings, films, carried oil, roughness, units.

The values are the textbook's or worked out by hand from what the docstrings say; which of the
constants are assumptions, and their ranges, is not at stake here.
"""

import math

import numpy as np
import pytest
from scipy.integrate import quad

import workbook as wb
from tests.conftest import changed
from workbook import lane, rolling
from workbook.core import friction
from workbook.core import roll as kernel

UM, INCH, FOOT = 1e-6, 0.0254, 0.3048
BOARD = 41.5 / 39 * INCH
CAP, SCALE, MU_OIL, MU_DRY = 6 * UM, 0.25 * UM, 0.03, 0.20


# Rings: two great circles whose axes are g/R apart cross at two points; at the angle t from there
# they are g|sin t| apart. Each leaves a band of the width w, so that of the new band the share
# max(0, 1 - g|sin t|/w) lies on the old one; the mean is taken over the circle.
@pytest.mark.parametrize("r", [0, 0.1, 0.5, 0.9, 0.999, 1, 1.001, 1.2, 1.5, 2, 3, 4, 5])
def test_ring_overlap_is_the_mean_share_of_the_band(r):
    def share(t):
        return max(0.0, 1.0 - r * math.sin(t))

    end = math.asin(1 / r) if r > 1 else math.pi / 2  # the circle has four such quarters
    mean = quad(share, 0, end)[0] / (math.pi / 2)
    for width in (0.25 * INCH, 0.8 * INCH):
        assert friction.ring_overlap(r * width, width) == pytest.approx(mean, abs=1e-9)


def coefficient(film_um):
    return friction.coefficient(film_um * UM, CAP, SCALE, MU_OIL, MU_DRY)


def test_coefficient_between_its_limits():
    """Dry boards give the dry value; a flood gives what the most film in the contact leaves."""
    assert coefficient(0) == pytest.approx(MU_DRY, abs=1e-15)
    starved = MU_OIL + (MU_DRY - MU_OIL) * math.exp(-CAP / (0.25 * UM))
    assert coefficient(1e9) == pytest.approx(starved, rel=1e-9)
    # halves meet: a film equal to the cap is held to half of it; 0.3 um against a cap of 6: 0.2857
    assert coefficient(6) == pytest.approx(0.03 + 0.17 * math.exp(-3 / 0.25), rel=1e-12)
    assert coefficient(0.3) == pytest.approx(0.03 + 0.17 * math.exp(-(1.8 / 6.3) / 0.25))
    films = np.geomspace(1e-3, 6, 200)
    assert np.all(np.diff([coefficient(f) for f in films]) < 0)


def test_roughness_scale_is_the_film_that_leaves_a_third_of_the_dry_share():
    """At one roughness scale of film the dry share is 1/e = 0.367879 (by hand)."""
    found = friction.coefficient(SCALE, 1.0, SCALE, MU_OIL, MU_DRY)  # a metre: no cap at all
    assert found == pytest.approx(0.03 + 0.17 * 0.367879, abs=1e-7)


def film_at(film, board, feet):
    return friction.film_at(film, (20 - board) * BOARD, feet * FOOT, BOARD, FOOT)


@pytest.fixture
def film():
    """Films without any pattern, in um."""
    return np.random.default_rng(4).uniform(0, 5, (61, 39))


def test_film_is_bilinear_between_boards_and_feet(film):
    for board, feet in ((7, 12), (1, 0), (39, 60), (20, 33)):
        assert film_at(film, board, feet) == pytest.approx(film[feet, board - 1])
    # a quarter of a board and three tenths of a foot on: the four corners by hand
    a, b, c, d = film[12, 6], film[12, 7], film[13, 6], film[13, 7]
    expected = 0.525 * a + 0.175 * b + 0.225 * c + 0.075 * d
    assert film_at(film, 7.25, 12.3) == pytest.approx(expected)


def test_film_keeps_its_edge_outside_of_the_outermost_centres(film):
    for board, feet, kept in (
        (0.5, 10, (10, 0)), (-40, 10, (10, 0)), (39.5, 10, (10, 38)), (90, 10, (10, 38)),
        (5, -3, (0, 4)), (5, 61.5, (60, 4)),
    ):  # fmt: skip
        assert film_at(film, board, feet) == pytest.approx(film[kept])


def test_left_hander_counts_the_boards_from_the_other_side(film):
    """Board 1 of the table is at the right edge of the lane: a left-hander's board 39."""
    one = wb.Lane("no pattern", film)
    right, left = (one.kernel_arrays(hand)[0] / UM for hand in ("right", "left"))
    for board, feet in ((1, 0), (5, 20), (20, 33), (39, 60)):
        assert film_at(right, board, feet) == pytest.approx(film[feet, board - 1])
        assert film_at(left, board, feet) == pytest.approx(film[feet, 39 - board])
    setup = changed(hand="left", grip=wb.Grip.usual())
    path = wb.roll(setup, one, wb.Line(laydown_board=12, launch_deg=0), gutters=False).path
    here = [film_at(film[:, ::-1], b, d)
            for b, d in zip(path.board, path.distance_ft, strict=True)]  # fmt: skip
    assert path.lane_film_um == pytest.approx(np.array(here), abs=1e-9)


# One moment of an asymmetric ball, SI: 0.9 um on the lane and 0.4 um on the ball
MOMENTS = np.array([0.0040, 0.0041, 0.0042])  # m^2
SPIN = np.array([20.0, -10.0, 30.0])  # rad/s, along the principal axes
LANE_FILM, CARRIED, ABSORBED, KEPT, WIDTH = 0.9 * UM, 0.4 * UM, 0.2, 0.5, 0.4 * INCH


def moment(spin=SPIN, moments=MOMENTS, **changes):
    """The kernel's state and what it makes of it: (change of the state, what is seen)."""
    setup = changed()
    given = rolling.record(rolling.Body.of(setup), setup, wb.Line(laydown_board=20, launch_deg=0),
                           rolling.friction(setup))  # fmt: skip
    record = np.array(given, kernel.SHOT)
    new = dict(zip(("k1", "k2", "k3"), moments, strict=True)) | dict(
        c1=0, c2=0, c3=0, absorbed=ABSORBED, kept=KEPT, track_width=WIDTH, film_cap=CAP,
        roughness_scale=SCALE, mu_oil=MU_OIL, mu_dry=MU_DRY,
    )  # fmt: skip
    for name, value in (new | changes).items():
        record[name] = value
    state = np.array([0, 5, 0.5, 8, *(np.array(moments) * spin), 1, 0, 0, 0, CARRIED])
    out, seen = np.empty(kernel.STATE), np.empty(kernel.SEEN)
    kernel.derivative(state, record[()], np.full((61, 39), LANE_FILM), -1.0, out, seen)
    return out, dict(zip(("slip", "film", "contact", "mu", "load"), seen[:5], strict=True))


def test_carried_oil_by_hand():
    """db/dt = (kept (1 - absorbed) (lane film + overlap b) - b) turns per second."""
    # torque-free change of spin in the body: (I2 - I3) w2 w3 / I1 and so on
    change = np.array([-1e-4 * -300 / 4.0e-3, 2e-4 * 600 / 4.1e-3, -1e-4 * -200 / 4.2e-3])
    size = math.sqrt(1400)  # 20^2 + 10^2 + 30^2
    assert change == pytest.approx([7.5, 29.2683, 4.7619], abs=1e-4)
    square = change - (change @ SPIN) / 1400 * SPIN
    rate = np.linalg.norm(square) / size  # of the axis in the ball [rad/s]
    gap = rate * 27 * INCH / (2 * math.pi) * 2 * math.pi / size  # circumference x rate / size
    r = gap / WIDTH
    assert 1 < r < 2  # part of the rings lie clear of each other
    t = math.asin(1 / r)
    overlap = quad(lambda x: 1 - r * math.sin(x), 0, t)[0] / (math.pi / 2)
    contact = LANE_FILM + overlap * CARRIED
    out, seen = moment()
    assert seen["film"] == pytest.approx(LANE_FILM)
    assert seen["contact"] == pytest.approx(contact, rel=1e-6)
    held = contact * CAP / (contact + CAP)
    assert seen["mu"] == pytest.approx(0.03 + 0.17 * math.exp(-held / SCALE), rel=1e-6)
    turns = size / (2 * math.pi)
    assert out[11] == pytest.approx((0.5 * 0.8 * contact - CARRIED) * turns, rel=1e-6)


def test_carried_oil_of_a_ball_that_keeps_its_axis():
    """Whole overlap: contact 0.9 + 0.4 = 1.3 um; (0.4 x 1.3 - 0.4) um x 5 turns = 0.6 um/s."""
    still = np.array([0.0, 0.0, 10 * math.pi])
    out, seen = moment(spin=still)
    assert seen["contact"] == pytest.approx(1.3 * UM)
    assert out[11] == pytest.approx(0.6 * UM)
    out, _ = moment(spin=still, kept=0.6, absorbed=0.5)  # 0.3 x 1.3 - 0.4 = -0.01
    assert out[11] == pytest.approx(-0.05 * UM)


def test_ra_by_grit():
    """16 uin = 0.4064 um at 2000; four times as coarse: 4^0.65 = 2.462289 times; polish 4 uin."""
    assert wb.Surface(grit=2000).ra_um() == pytest.approx(0.4064)
    assert wb.Surface(grit=500).ra_um() == pytest.approx(0.4064 * 2.462289, rel=1e-6)
    assert wb.Surface(polished=True).ra_um() == pytest.approx(0.1016)
    other = wb.Assumptions(ra_at_2000=20, ra_exponent=0.75, ra_polished=5)
    assert wb.Surface(grit=500).ra_um(other) == pytest.approx(0.508 * 2 * math.sqrt(2))
    assert wb.Surface(polished=True).ra_um(other) == pytest.approx(0.127)


def test_combined_roughness():
    """Rq = sqrt(pi/2) Ra of a Gaussian surface (textbook): 0.509347 um, with 0.3 um 0.591129 um."""
    assert wb.Surface(grit=2000).combined_roughness_um() == pytest.approx(0.591129, abs=2e-6)
    rougher = wb.Assumptions(lane_roughness=0.4)
    expected = math.sqrt(math.pi / 2 * 0.1016**2 + 0.16)
    assert wb.Surface(polished=True).combined_roughness_um(rougher) == pytest.approx(expected)
    # what the kernel is given: the film at which the dry share is 1/e, 0.45 of it
    fields = rolling.friction(changed(surface=wb.Surface(grit=2000)))
    assert fields[4] == pytest.approx(0.45 * 0.591129 * UM, rel=1e-5)


def test_unit_of_oil():
    """0.0167 mL (memory) on 0.09290304 m^2: 0.179757 um."""
    assert pytest.approx(0.179757, abs=1e-6) == lane.UNIT_UM
    even = wb.Lane("even", np.full((61, 39), 10 * 0.179757))
    assert even.units_table == pytest.approx(10.0, rel=1e-5)
    # 10 units x 0.0167 mL on 60 ft x 41.5/12 ft = 207.5 square feet
    assert even.volume_ml == pytest.approx(0.167 * 207.5, rel=1e-5)
