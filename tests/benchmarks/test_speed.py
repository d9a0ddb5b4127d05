"""The benchmark runs and its answers are right; it asserts no time (the machine is shared)."""

import sys
from pathlib import Path

import numpy as np
import pytest

import workbook as wb

sys.path.insert(0, str(Path(__file__).parent))
import speed

A_HUNDREDTH_OF_A_BOARD = 0.01
A_HUNDREDTH_OF_A_DEGREE = 0.01


def test_board_and_angle_are_right_over_the_teaching_range():
    shots = speed.records(speed.releases(40), wb.Line(laydown_board=26, arrow_board=18))
    boards, degrees = speed.errors(shots, wb.Lane.house())
    assert np.percentile(boards, 95) < A_HUNDREDTH_OF_A_BOARD
    assert np.percentile(degrees, 95) < A_HUNDREDTH_OF_A_DEGREE


@pytest.mark.slow
def test_the_table_is_complete(capsys):
    assert speed.main(["200"]) == 0
    printed = capsys.readouterr().out
    assert len(printed.splitlines()) == 18
    assert "nan" not in printed


def test_one_shot(benchmark):
    """With `--benchmark-enable`: one shot through the front door, its path kept."""
    setup, lane = speed.releases(1)[0], wb.Lane.house()
    shot = benchmark(wb.roll, setup, lane, wb.Line(laydown_board=26, arrow_board=18))
    assert shot.flare_in > 0
