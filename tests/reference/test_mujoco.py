"""Rolling by a second program: MuJoCo, a general-purpose engine for rigid bodies in contact.

Todorov, Erez and Tassa, IROS 2012, 5026 (memory). It gets the ball's mass properties, a plane with
Coulomb friction, and a release put together here by hand; the principal axes it finds itself. Its
contact softens the hard one, and three things keep that from being seen:
* The impedance is low (`solimp`), so that normal and friction force are a spring and dampers. With
  the usual 0.9 to 0.999 friction would point along what a step leaves of the slip, which unequal
  moments and an off-centre mass turn aside: a tenth of a board.
* A damper of the time constant T opposes the slip u until the cone is reached, at 1 to 4 mm/s when
  T is 1 ms. With the cone it lifts a sliding ball by 2 mu u/T; a T that holds that to 4 g keeps the
  ball from hopping by more than hundredths of a millimetre.
* The ball starts just touching, its centre without vertical velocity.
What is left is 0.01 board and 0.01 degree. Mark: textbook mechanics, computed by other people's
code.
"""

import math

import numpy as np
import pytest
from scipy.spatial.transform import Rotation

import workbook as wb
from tests.conftest import USUAL, changed
from workbook import demo
from workbook.core import roll as kernel
from workbook.rolling import Body, friction, record, roll_records

mujoco = pytest.importorskip("mujoco", reason="mujoco has no wheel for this Python or system")
pytestmark = pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")

G, MPH, RPM, INCH, POUND = 9.80665, 0.44704, 2 * math.pi / 60, 0.0254, 0.45359237
FOOT, BOARD, END_FT = 12 * INCH, 41.5 / 39 * INCH, 60
RADIUS = 27 * INCH / (2 * math.pi)
STEP = 2e-4  # s
BLOCK = 25  # steps between two settings of the damper
NEARLY_COULOMB = 0.001  # slip scale [m/s] given to the kernel: smoothing is not what is asked
SHARPEST = 0.005  # slip scale [m/s], the smallest that the library takes
TWENTIETH_BOARD, HALF_BOARD = 0.05, 0.5
FIFTIETH_DEGREE = 0.02
TENTH_MILLIMETRE = 1e-4
HUNDREDTH = 0.01
RELEASES = 10
FRICTIONS = (0.05, 0.10, 0.20)
MODEL = """
<mujoco>
  <option timestep="{step}" gravity="0 0 -{g}" cone="elliptic" integrator="implicitfast"
    iterations="100" tolerance="1e-14" ls_iterations="100" ls_tolerance="1e-6"/>
  <worldbody>
    <geom name="lane" type="plane" size="0 0 1" contype="0" conaffinity="0"/>
    <body>
      <freejoint/>
      <inertial pos="0 0 0" mass="{mass}" fullinertia="{inertia}"/>
      <geom name="ball" type="sphere" size="{radius}" pos="{centre}" contype="0" conaffinity="0"/>
    </body>
  </worldbody>
  <contact>
    <pair geom1="lane" geom2="ball" condim="3" solref="0.001 1" solreffriction="0.001 1"
      solimp="0.02 0.02 0.001"/>
  </contact>
</mujoco>
"""


def words(numbers):
    return " ".join(repr(float(n)) for n in numbers)


def point(over, up):
    """Unit vector of a place on the ball [in], by hand."""
    a, b = over * INCH / RADIUS, up * INCH / RADIUS
    return np.array([math.cos(b) * math.sin(a), math.sin(b), math.cos(b) * math.cos(a)])


class Throw:
    """A ball in MuJoCo from its release on; `c` is its centre of mass in the ball frame [m]."""

    def __init__(self, setup, c, line):
        self.c = c
        drilled = setup.drilled
        mass = drilled.weight_lb * POUND
        tensor = mass * drilled.inertia_per_mass
        self.model = mujoco.MjModel.from_xml_string(
            MODEL.format(
                step=STEP, g=G, mass=mass, radius=RADIUS, centre=words(-c),
                inertia=words(tensor[[0, 1, 2, 0, 0, 1], [0, 1, 2, 1, 2, 2]]),
            )
        )  # fmt: skip
        self.data = mujoco.MjData(self.model)
        bowler, launch = setup.bowler, math.radians(line.launch_deg)
        rho, tau = math.radians(bowler.axis_rotation_deg), math.radians(bowler.axis_tilt_deg)
        axis = [-math.cos(rho) * math.cos(tau), -math.sin(rho) * math.cos(tau), math.sin(tau)]
        axis = Rotation.from_rotvec([0, 0, -launch]).apply(axis)  # turned toward the hand's side
        pap = point(bowler.pap_over_in, bowler.pap_up_in)
        fingers = sum(point(h.over_in, h.up_in) for h in setup.grip.holes if h.up_in > 0)
        # exactly PAP to axis, and then the fingers as low as can be
        lane, ball = [axis, [0, 0, -1]], [pap, fingers]
        lowest, _ = Rotation.align_vectors(lane, ball, weights=[math.inf, 1])
        turned = Rotation.from_rotvec(math.radians(bowler.release_phase_deg) * axis) * lowest
        spin, arm = bowler.rev_rate_rpm * RPM * axis, turned.apply(c)
        speed = bowler.speed_mph * MPH
        start = np.array([(20 - line.laydown_board) * BOARD, 0, RADIUS])
        self.data.qpos[:3] = start + arm
        self.data.qpos[3:] = turned.as_quat()[[3, 0, 1, 2]]
        # speed and line are the centre of mass's; up and down the ball's centre is at rest
        climb = np.cross(spin, arm)[2]
        self.data.qvel[:3] = speed * math.sin(launch), speed * math.cos(launch), climb
        self.data.qvel[3:] = turned.inv().apply(spin)

    def state(self):
        """Place and velocity of the ball's centre, and spin, in the lane frame: one array (9,)."""
        to_lane = Rotation.from_quat(self.data.qpos[[4, 5, 6, 3]])
        arm, spin = to_lane.apply(self.c), to_lane.apply(self.data.qvel[3:])
        velocity = self.data.qvel[:3] - np.cross(spin, arm)
        return np.concatenate([self.data.qpos[:3] - arm, velocity, spin])

    def reach(self, distance, mu):
        """Go on under friction `mu` to a distance [m]; the state there, between two steps."""
        self.model.pair_friction[0] = [mu, mu, 0, 0, 0]
        here = self.state()
        while here[1] < distance:
            before = here
            slip = math.hypot(here[3] - RADIUS * here[7], here[4] + RADIUS * here[6])
            self.model.pair_solreffriction[0, 0] = max(0.001, mu * slip / (2 * G))
            left = (distance - here[1]) / (here[4] * STEP)  # in steps; the last is a single one
            mujoco.mj_step(self.model, self.data, max(1, min(BLOCK, int(0.5 * left))))
            here = self.state()
            assert abs(here[2] - RADIUS) < TENTH_MILLIMETRE
        return before + (distance - before[1]) / (here[1] - before[1]) * (here - before)


def in_mujoco(setup, c, line, zones):
    """Board and entry angle [deg] at 60 ft, after zones (from ft, friction) of the lane."""
    throw = Throw(setup, c, line)
    ends = [start for start, _ in zones[1:]] + [END_FT]
    for end, (_, mu) in zip(ends, zones, strict=True):
        there = throw.reach(end * FOOT, mu)
    return 20 - there[0] / BOARD, math.degrees(math.atan2(-there[3], there[4]))


def in_library(setup, c, line, mu):
    body = Body(RADIUS, setup.drilled.inertia_per_mass, c)
    shot = np.array([record(body, setup, line, friction(setup), gutters=False)], kernel.SHOT)
    shot["slip_scale"] = NEARLY_COULOMB
    (end,) = roll_records(shot, wb.Lane.of_friction([(0, mu)]), "right")
    assert end["end"] == kernel.AT_PINS and end["least_load"] > 0
    return 20 - end["x"] / BOARD, math.degrees(end["direction"])


def throws():
    """Setups, directions of the centre of mass and lines for random releases and layouts."""
    rng = np.random.default_rng(0)
    for _ in range(RELEASES):
        layout = wb.Layout(
            drilling_angle_deg=rng.uniform(0, 180), pin_to_pap_in=rng.uniform(1, 6),
            val_angle_deg=rng.uniform(0, 90),
        )  # fmt: skip
        setup = changed(
            layout=layout, grip=USUAL, intermediate_in=rng.uniform(0, 0.03),
            speed_mph=rng.uniform(14, 21), rev_rate_rpm=rng.uniform(150, 500),
            axis_rotation_deg=rng.uniform(0, 90), axis_tilt_deg=rng.uniform(0, 30),
            release_phase_deg=rng.uniform(-180, 180),
        )  # fmt: skip
        direction = rng.normal(size=3)
        line = wb.Line(laydown_board=rng.uniform(5, 35), launch_deg=rng.uniform(-4, 4))
        yield setup, direction / np.linalg.norm(direction), line


@pytest.mark.parametrize("mu", FRICTIONS)
@pytest.mark.parametrize("off_mm", [0, 1])
def test_board_and_entry_angle(off_mm, mu):
    for setup, direction, line in throws():
        c = off_mm / 1000 * direction
        board, angle = in_library(setup, c, line, mu)
        other_board, other_angle = in_mujoco(setup, c, line, [(0, mu)])
        assert board == pytest.approx(other_board, abs=TWENTIETH_BOARD)
        assert angle == pytest.approx(other_angle, abs=FIFTIETH_DEGREE)


LANES = {f"friction {mu}": [(0, mu)] for mu in FRICTIONS}
LANES["0.04, from 40 ft on 0.20"] = [(0, 0.04), (40, 0.20)]


@pytest.mark.parametrize("style", ["in the middle", "junior"])
@pytest.mark.parametrize("zones", LANES.values(), ids=LANES)
def test_shift_by_top_weight(zones, style):
    """2.5 oz of it against none, drilled with a usual grip: as many boards more hook in both.

    At the default slip scale too, to a hundredth of the shift: an off-centre ball that rolls slips
    now and then, and smoothing is felt there.
    """
    lane, line = wb.Lane.of_friction(zones), wb.Line(laydown_board=20, launch_deg=0)
    boards = []
    for top_weight in (0.0, 2.5):
        setup = changed(demo.setup(val_angle_deg=25, style=style), top_weight_oz=top_weight)
        c = np.array(setup.drilled.center_of_mass_in) * INCH
        rolled = [
            wb.roll(s, lane, line, gutters=False)
            for s in (setup, changed(setup, slip_scale=SHARPEST))
        ]
        boards.append([in_mujoco(setup, c, line, zones)[0], *(shot.entry_board for shot in rolled)])
    shift, default, sharpest = np.subtract(boards[1], boards[0])
    assert shift > HALF_BOARD
    assert sharpest == pytest.approx(shift, abs=TWENTIETH_BOARD)
    assert default == pytest.approx(shift, rel=HUNDREDTH)
