"""A left-hander is the mirror image: the same numbers from the bowler's own side."""

import numpy as np
import pytest

import workbook as wb
from tests.conftest import changed

LINE = wb.Line(laydown_board=26, arrow_board=18)
REPORTED = ("entry_board", "entry_angle_deg", "entry_speed_mph", "time_s", "arrow_board",
            "breakpoint_board", "breakpoint_ft", "total_hook_boards", "length_ft", "roll_ft",
            "sharpness_deg", "flare_in")  # fmt: skip


def numbers(hand, lane):
    shot = wb.roll(changed(hand=hand), lane, LINE)
    return [getattr(shot, name) for name in REPORTED]


def table(path, boards):
    """A lane's table with film falling off to one side; `boards` is the order across."""
    across = np.linspace(2.0, 40.0, 39)[boards]
    rows = [",".join([str(feet), *(f"{share * u:.3f}" for u in across)])
            for feet, share in ((0, 1.0), (38, 0.4), (41, 0.0))]  # fmt: skip
    header = ",".join(["distance_ft", *map(str, range(1, 40))])
    path.write_text("\n".join(["# invented", header, *rows]) + "\n", encoding="utf-8")
    return wb.Lane.from_csv(path)


@pytest.mark.parametrize("condition", ["house", "flat", "heavy", "dry", "reference"])
def test_same_numbers_on_a_symmetric_lane(condition):
    lane = getattr(wb.Lane, condition)()
    assert numbers("left", lane) == pytest.approx(numbers("right", lane), rel=1e-12)


def test_asymmetric_lane_mirrors_with_the_bowler(tmp_path):
    lane = table(tmp_path / "one way.csv", slice(None))
    mirrored = table(tmp_path / "other way.csv", slice(None, None, -1))
    right, left = numbers("right", lane), numbers("left", mirrored)
    assert left == pytest.approx(right, rel=1e-12)
    other = numbers("left", lane)
    assert abs(other[0] - right[0]) > 1.0  # boards: the lane is not symmetric
