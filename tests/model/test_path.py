"""What a path says of the spin, seen against the direction of travel (textbook)."""

import numpy as np
import pytest

import workbook as wb
from tests.conftest import changed

HUNDREDTH_DEGREE = 0.01


@pytest.mark.parametrize("launch", [-8.0, 0.0, 8.0])
@pytest.mark.parametrize("rotation", [-20.0, 0.0, 50.0, 90.0])
def test_release_is_in_line_with_the_launch(launch, rotation):
    """Rotation and tilt of the bowler are told against the line, wherever that points."""
    setup = changed(axis_rotation_deg=rotation, axis_tilt_deg=12.0)
    line = wb.Line(laydown_board=20, launch_deg=launch)
    path = wb.roll(setup, wb.Lane.house(), line, gutters=False).path
    # boards grow to the other side
    assert path.direction_deg[0] == pytest.approx(-launch, abs=1e-9)
    assert path.axis_rotation_deg[0] == pytest.approx(rotation, abs=1e-9)
    assert path.axis_tilt_deg[0] == pytest.approx(12.0, abs=1e-9)


@pytest.mark.parametrize("rotation", [-20.0, 20.0, 50.0, 90.0])
def test_a_rolling_ball_has_no_rotation_left(rotation):
    """Without slip v = w x R z: the level part of the spin is square to the way, ends over ends."""
    setup = changed(
        axis_rotation_deg=rotation, grip=wb.Grip(), differential_in=0.0, intermediate_in=0.0
    )
    grippy = wb.Lane.of_friction([(0, 0.3)])
    line = wb.Line(laydown_board=20, launch_deg=3.0)
    path = wb.roll(setup, grippy, line, gutters=False).path
    assert abs(path.direction_deg[-1] + 3.0) > 1.0  # it has turned from its line
    assert path.axis_rotation_deg[-1] == pytest.approx(0.0, abs=HUNDREDTH_DEGREE)
    speed = path.speed_mph[-1] * 0.44704
    level = 2 * np.pi / 60 * path.rev_rate_rpm[-1] * np.cos(np.radians(path.axis_tilt_deg[-1]))
    assert level * 27 * 0.0254 / (2 * np.pi) == pytest.approx(speed, rel=1e-5)


@pytest.mark.parametrize(
    ("phase", "expected"),
    [(0.0, (0, 0, -1)), (90.0, (0, -1, 0)), (-90.0, (0, 1, 0)), (180.0, (0, 0, 1))],
)
def test_phase_turns_the_fingers_on_from_below(phase, expected):
    """End over end without tilt: what is below goes back, up and over, as the ball rolls."""
    finger = wb.Hole(over_in=0.0, up_in=2.6, diameter_in=1.0, depth_in=1.0)
    setup = changed(
        axis_rotation_deg=0.0, axis_tilt_deg=0.0, release_phase_deg=phase, grip=wb.Grip((finger,)),
        pap_over_in=6.75, pap_up_in=0.0,  # square to the finger
    )  # fmt: skip
    path = wb.roll(setup, wb.Lane.house(), wb.Line(laydown_board=20, launch_deg=0.0)).path
    place = wb.Pap(finger.over_in, finger.up_in).vector(27.0)
    assert path.ball_to_lane[0] @ place == pytest.approx(np.array(expected), abs=1e-9)
