"""What mechanics gives exactly (textbook), for random releases over the whole range.

Sliding: symmetric core, centre of mass in the centre, uniform friction. Coulomb's law is smoothed
below a slip u0 of 0.02 m/s: the slip obeys du/dt = -a tanh(u/u0), so that it is the straight line
U - a t to within u0 exp(-2u/u0), which is 1e-6 m/s at 5 u0, and at the Coulomb time of rolling
u0 arsinh(1/2), about 1 cm/s, is left. What is measured above 5 u0 or long after that time is
therefore good to the accuracy of the integration (1e-6 of a metre per second and step).
"""

import math

import numpy as np
import pytest
from scipy.special import ellipj, ellipkinc

import workbook as wb
from tests.conftest import changed
from workbook.core import roll as kernel

G, MPH, RPM, INCH = 9.80665, 0.44704, 2 * math.pi / 60, 0.0254
RADIUS = 27 * INCH / (2 * math.pi)
SMOOTHED_BELOW = 5 * 0.02  # m/s of slip
HUNDREDTH_MILLIMETRE_A_SECOND = 1e-5
TEN_MICROSECONDS = 1e-5
# after some hundred steps of the integration; a ring is seen to a sixteenth of an inch
FIVE_THOUSANDTHS_INCH_ON_THE_BALL = 5e-3 * INCH / RADIUS  # rad
RELEASES = 120


def release(rng):
    return dict(
        speed_mph=rng.uniform(8, 25), rev_rate_rpm=rng.uniform(0, 700),
        axis_rotation_deg=rng.uniform(-20, 110), axis_tilt_deg=rng.uniform(0, 60),
        release_phase_deg=rng.uniform(-180, 180),
    )  # fmt: skip


class Slide:
    """A random sliding ball with friction enough to roll by 45 ft, and its textbook answer."""

    def __init__(self, seed):
        rng = np.random.default_rng(seed)
        r = release(rng)
        rg, launch = rng.uniform(2.46, 2.80), rng.uniform(-3, 3)
        self.k = k = (rg * INCH / RADIUS) ** 2
        rho, tau, delta = np.radians(
            [r["axis_rotation_deg"], r["axis_tilt_deg"], launch]
        )  # fmt: skip
        forward = np.array([math.sin(delta), math.cos(delta)])
        hooking = np.array([-math.cos(delta), math.sin(delta)])  # away from the bowling hand
        self.v0 = r["speed_mph"] * MPH * forward
        surface = RADIUS * r["rev_rate_rpm"] * RPM * math.cos(tau)
        rolling = surface * (math.cos(rho) * forward + math.sin(rho) * hooking)
        self.u0 = self.v0 - rolling
        self.size = float(np.linalg.norm(self.u0))
        self.final = (self.v0 + k * rolling) / (1 + k)
        fastest = max(np.linalg.norm(self.v0), np.linalg.norm(self.final))
        least = self.size * k / ((1 + k) * G) * fastest / (45 * 0.3048)
        self.mu = least * rng.uniform(1.0, 3.0)
        self.turn = math.atan2(
            k * surface * math.sin(rho), r["speed_mph"] * MPH + k * surface * math.cos(rho)
        )
        self.setup = changed(
            rg_low_in=rg, differential_in=0, intermediate_in=0, grip=wb.Grip(), **r
        )
        lane = wb.Lane.of_friction([(0, self.mu)])
        line = wb.Line(laydown_board=20, launch_deg=launch)
        self.shot = wb.roll(self.setup, lane, line, gutters=False)
        self.path = self.shot.path
        t = self.path.table
        self.v, self.slip, self.time = t[:, [kernel.VX, kernel.VY]], t[:, kernel.SLIP], t[:, 0]
        self.spin = t[:, kernel.W1 : kernel.W3 + 1]
        self.sliding = self.slip > SMOOTHED_BELOW


@pytest.fixture(scope="module")
def slides():
    found = [s for s in map(Slide, range(RELEASES + 10)) if s.size > 1.0]
    assert len(found) >= RELEASES
    return found


def test_direction_of_slip_is_constant(slides):
    for s in slides:
        spin = np.einsum("nij,nj->ni", s.path.ball_to_lane, s.spin @ s.path.axes)
        slip = s.v + RADIUS * np.stack([-spin[:, 1], spin[:, 0]], axis=1)  # v + w x (-R z)
        across = (slip[:, 0] * s.u0[1] - slip[:, 1] * s.u0[0]) / s.size
        assert np.max(np.abs(across)) < HUNDREDTH_MILLIMETRE_A_SECOND
        assert slip[0] == pytest.approx(s.u0, abs=1e-9)


def test_slip_falls_evenly_and_ends_at_the_time_to_roll(slides):
    for s in slides:
        time_to_roll = s.size * s.k / (s.mu * G * (1 + s.k))
        last = np.flatnonzero(s.sliding)[-1]
        straight = s.size * (1 - s.time / time_to_roll)
        assert np.max(np.abs(s.slip - straight)[s.sliding]) < HUNDREDTH_MILLIMETRE_A_SECOND
        measured = s.time[last] * s.size / (s.size - s.slip[last])
        assert measured == pytest.approx(time_to_roll, abs=TEN_MICROSECONDS)


def test_final_velocity_whatever_the_friction(slides):
    for s in slides:
        assert s.v[-1] == pytest.approx(s.final, abs=HUNDREDTH_MILLIMETRE_A_SECOND)
    assert max(s.mu for s in slides) > 5 * min(s.mu for s in slides)


def test_energy_lost_is_friction_work(slides):
    """To 2 in 10 000: the last 5 u0 of slip, where steps are few and tanh bends, hold no more."""
    for s in slides:
        kinetic = 0.5 * np.sum(s.v**2, axis=1)
        kinetic += 0.5 * s.k * RADIUS**2 * np.sum(s.spin**2, axis=1)
        lost = 0.5 * s.k / (1 + s.k) * s.size**2
        assert kinetic[0] - kinetic[-1] == pytest.approx(lost, rel=1e-6)
        power = s.path.friction * G * s.slip * np.tanh(s.slip / 0.02)
        assert np.trapezoid(power, s.time) == pytest.approx(lost, rel=2e-4)


def test_most_turn(slides):
    for s in slides:
        rg = s.setup.ball.rg_low_in
        most = math.degrees(s.turn)
        assert s.setup.bowler.most_turn_deg(rg, 27.0) == pytest.approx(most, abs=1e-9)
        turned = math.degrees(math.atan2(-s.v[-1, 0], s.v[-1, 1])) - math.degrees(
            math.atan2(-s.v0[0], s.v0[1])
        )
        assert turned == pytest.approx(most, abs=1e-4)


def test_what_is_reported_of_a_slide(slides):
    """Length, roll, hook, breakpoint and sharpness of the parabola and the straight line after."""
    hundredth_foot, hundredth_board, foot, board = 0.01, 0.01, 0.3048, 41.5 / 39 * INCH
    for s in slides:
        time_to_roll = s.size * s.k / (s.mu * G * (1 + s.k))
        pull = -s.mu * G * s.u0 / s.size
        end = s.v0 * time_to_roll + 0.5 * pull * time_to_roll**2
        end_time = time_to_roll + (60 * foot - end[1]) / s.final[1]

        def place(t, s=s, pull=pull, time_to_roll=time_to_roll):
            slid = np.minimum(t, time_to_roll)[:, None]
            rolled = (t[:, None] - slid) * s.final
            return s.v0 * slid + 0.5 * pull * slid**2 + rolled

        time = np.linspace(0.0, end_time, 20_001)
        x, y = place(time).T
        half, tenth = place(np.array([0.5, 0.9]) * time_to_roll)[:, 1] / foot
        assert s.shot.length_ft == pytest.approx(half, abs=hundredth_foot)
        assert s.shot.roll_ft == pytest.approx(tenth, abs=hundredth_foot)
        hook = s.v0[0] / s.v0[1] * y[-1] - x[-1]
        assert s.shot.total_hook_boards == pytest.approx(hook / board, abs=hundredth_board)
        assert s.shot.time_s == pytest.approx(end_time, abs=1e-4)
        outermost = 20 - np.max(x) / board
        assert s.shot.breakpoint_board == pytest.approx(outermost, abs=hundredth_board)
        velocity = s.v0 + pull * np.minimum(time, time_to_roll)[:, None]
        direction = np.unwrap(np.arctan2(-velocity[:, 0], velocity[:, 1]))
        five_on = np.interp(y + 5 * foot, y, direction)
        sharpest = math.degrees(np.max(np.abs(five_on - direction)))
        # the library's windows begin at its own steps, which are a few inches to a foot long
        assert s.shot.sharpness_deg == pytest.approx(sharpest, rel=0.02, abs=1e-3)


# Free of torque: no friction, centre of mass in the centre. Spins in the ball frame [rad/s].
def free(seed, **core):
    rng = np.random.default_rng(seed)
    layout = wb.Layout(
        drilling_angle_deg=rng.uniform(0, 180), pin_to_pap_in=rng.uniform(0.5, 6.2),
        val_angle_deg=rng.uniform(0, 90),
    )  # fmt: skip
    spinning = dict(release(rng), rev_rate_rpm=rng.uniform(50, 700))
    setup = changed(grip=wb.Grip(), layout=layout, **core, **spinning)
    path = wb.roll(
        setup, wb.Lane.of_friction([(0, 0.0)]), wb.Line(laydown_board=20, launch_deg=0)
    ).path
    marks = setup.drilled.marks
    pin, psa = (wb.Pap(*at).vector(27.0) for at in (marks.pin_in, marks.psa_in))
    spin = path.spin_axis * path.rev_rate_rpm[:, None] * RPM
    return setup, path.time_s, spin, np.array([pin, np.cross(psa, pin), psa])


@pytest.mark.parametrize("about", ["pin", "psa"])
def test_symmetric_top_precesses_in_the_ball(about):
    """Euler's equations: about the axis of symmetry 3 at the rate (I3 - I) w3 / I."""
    for seed in range(RELEASES):
        intermediate = 0.0 if about == "pin" else 0.050
        setup, time, spin, marks = free(seed, differential_in=0.050, intermediate_in=intermediate)
        low, high = setup.ball.rg_low_in**2, setup.ball.rg_high_in**2
        axis, own, other = (marks[0], low, high) if about == "pin" else (marks[2], high, low)
        along = float(spin[0] @ axis)
        turn = (own - other) / other * along * time
        flat = spin[0] - along * axis
        expected = (
            along * axis
            + np.cos(turn)[:, None] * flat
            + np.sin(turn)[:, None] * np.cross(axis, flat)
        )
        off = np.linalg.norm(spin - expected, axis=1) / np.linalg.norm(spin[0])
        assert np.max(off) < FIVE_THOUSANDTHS_INCH_ON_THE_BALL


def jacobi(inertia, spin, time):
    """Torque-free spin of an asymmetric body (Landau and Lifshitz, Mechanics, section 37)."""
    energy2, momentum2 = np.sum(inertia * spin**2), np.sum((inertia * spin) ** 2)
    if (momentum2 - energy2 * inertia[1]) * (inertia[2] - inertia[0]) < 0:  # around the first axis
        return jacobi(inertia[::-1], spin[::-1], time)[:, ::-1]
    a, b, c = inertia
    about_1, about_3 = energy2 * c - momentum2, momentum2 - energy2 * a
    sizes = np.sqrt([about_1 / (a * (c - a)), about_1 / (b * (c - b)), about_3 / (c * (c - a))])
    m = (b - a) * about_1 / ((c - b) * about_3)
    rate = math.sqrt((c - b) * about_3 / (a * b * c))
    sign = math.copysign(1.0, spin[2])
    start = ellipkinc(math.atan2(spin[1] / sizes[1], spin[0] / sizes[0]), m)
    sn, cn, dn, _ = ellipj(start + sign * rate * time, m)
    return np.stack([sizes[0] * cn, sizes[1] * sn, sign * sizes[2] * dn], axis=1)


def test_asymmetric_body_keeps_energy_and_momentum_and_follows_jacobi():
    for seed in range(RELEASES):
        setup, time, spin, marks = free(seed, differential_in=0.060, intermediate_in=0.025)
        ball = setup.ball
        inertia = np.array([ball.rg_low_in, ball.rg_intermediate_in, ball.rg_high_in]) ** 2
        spin = spin @ marks.T
        for power in (1, 2):  # twice the energy; the square of the angular momentum
            kept = np.sum(inertia**power * spin**2, axis=1)
            assert kept == pytest.approx(np.full(len(kept), kept[0]), rel=1e-5)
        expected = jacobi(inertia, spin[0], time)
        off = np.linalg.norm(spin - expected, axis=1) / np.linalg.norm(spin[0])
        assert np.max(off) < FIVE_THOUSANDTHS_INCH_ON_THE_BALL


def test_undrilled_ball_is_as_its_spec_sheet_says():
    rng = np.random.default_rng(7)
    for _ in range(100):
        total = rng.uniform(0.01, 0.06)
        layout = wb.Layout(
            drilling_angle_deg=rng.uniform(0, 180), pin_to_pap_in=rng.uniform(0, 6.75),
            val_angle_deg=rng.uniform(0, 90),
        )  # fmt: skip
        core = dict(rg_low_in=rng.uniform(2.46, 2.70), differential_in=total,
                    intermediate_in=total * rng.uniform(0.1, 0.9))  # fmt: skip
        setup = changed(grip=wb.Grip(), layout=layout, **core)
        d, ball = setup.drilled, setup.ball
        found = d.rg_low_in, d.differential_in, d.intermediate_in
        assert found == pytest.approx(tuple(core.values()), abs=1e-9)
        assert (d.low_axis_moved_deg, d.high_axis_moved_deg) == pytest.approx((0, 0), abs=1e-4)
        assert d.removed_oz == pytest.approx(0) and d.weight_lb == pytest.approx(15)
        for at, rg in ((d.marks.pin_in, ball.rg_low_in), (d.marks.psa_in, ball.rg_high_in)):
            axis = wb.Pap(*at).vector(27.0)
            assert d.inertia_per_mass @ axis == pytest.approx((rg * INCH) ** 2 * axis, abs=1e-12)
