"""USBC lane and pin specifications (published), and what follows from them (derived)."""

import math

import pytest

import workbook as wb
from tests.conftest import SETUP, changed
from tests.published.facts import fact
from tests.published.limit import last_before, refused
from workbook import line as lines
from workbook import sources, units

ICE = wb.Lane.of_friction([(0, 0.0)])
BALANCED = changed(grip=wb.Grip(), rev_rate_rpm=0)


def test_a_shot_ends_at_the_head_pin():
    shot = wb.roll(SETUP, wb.Lane.house(), wb.Line(laydown_board=26, arrow_board=18))
    fact("lane_length").check(shot.path.distance_ft[-1], rel=1e-6)


def test_the_gutter_begins_half_a_lane_width_from_the_middle():
    """The ball's centre leaves the lane: from mid-lane at 10 degrees after this many feet."""
    shot = wb.roll(BALANCED, ICE, wb.Line(laydown_board=20, launch_deg=10))
    half_ft = shot.gutter_ft * math.tan(math.radians(10))
    fact("lane_width").check(2 * 12 * half_ft, rel=1e-6)
    boards = fact("boards")
    assert shot.path.board[-1] == pytest.approx(0.5)  # the outer edge of board 1
    with pytest.raises(wb.InputRefused, match="laydown board 40 is outside 1 to 39"):
        wb.Line(laydown_board=boards.value + 1, launch_deg=0)
    boards.check(
        last_before(lambda b: refused(lambda: wb.Line(laydown_board=b, launch_deg=0)), 20, 60)
    )


def test_board_width():
    one = lines.across_m(10) - lines.across_m(11)
    fact("board_width").check(one / units.INCH)


def test_arrows():
    """On every fifth board, a V, about 12 to 16 ft out (common practice, no source)."""
    boards = [int(b) for b in fact("arrows").text.split()]
    distances = [lines.arrow_ft(b) for b in boards]
    assert distances == distances[::-1] and max(distances) == distances[3]
    assert distances[:4] == sorted(distances[:4])
    assert all(12.0 <= d <= 16.0 for d in distances)
    # a line aimed at an arrow crosses it
    lines_at = [wb.Line(laydown_board=20, arrow_board=board) for board in boards]
    crossed = [wb.roll(BALANCED, ICE, line).arrow_board for line in lines_at]
    fact("arrows").check_that(
        crossed == pytest.approx(boards, abs=0.01),
        "a line aimed at an arrow crosses its board",
        " ".join(f"{board:.2f}" for board in crossed),
    )


def test_pins_are_a_foot_apart_in_a_triangle_that_ends_where_the_back_row_is():
    """Back row: published, Int. J. Sports Sci. Coaching, doi 10.1177/17479541241306543."""
    fact("pin_spacing").check_taken(sources.value("pin_spacing"))
    depth = 3 * sources.value("pin_spacing") * units.INCH * math.sqrt(3) / 2
    fact("back_row").check(sources.value("lane_length") * units.FOOT + depth)


def test_steepest_straight_ball_onto_the_head_pin():
    """Derived: an 8.5 in ball wholly on the lane; why 4 to 6 degrees needs a hook."""
    steepest, radius_in = fact("straight_limit"), fact("ball_diameter_min").value / 2
    outermost = 20 - (fact("lane_width").value / 2 - radius_in) / fact("board_width").value
    shot = wb.roll(BALANCED, ICE, wb.Line(laydown_board=outermost, launch_deg=-steepest.value))
    assert shot.entry_board == pytest.approx(20.0, abs=0.02)
    steepest.check(shot.entry_angle_deg)


def test_pin_belly_from_memory():
    belly = fact("pin_belly")
    assert sources.FACTS["pin_belly"].mark == belly.mark == "memory"
    belly.check_taken(sources.value("pin_belly"))
