"""The pocket: USBC (Ridenour, 3 pin 10 pin) and Physics 18, 96 (2025), both published."""

import pytest

from tests.published.facts import fact
from workbook import line, sources


@pytest.mark.parametrize(
    ("row", "keys"),
    [("pocket_boards", ("pocket_low", "pocket_high")),
     ("pocket_angle", ("pocket_angle_low", "pocket_angle_high"))],
)  # fmt: skip
def test_pocket_window(row, keys):
    window = tuple(sources.value(key) for key in keys)
    fact(row).check_taken(*window)


def test_older_target_six_centimetres_off_the_head_pin_lies_in_the_window():
    six = fact("six_cm")
    board = line.board_at(six.value / 100)
    low, high = fact("pocket_boards").band
    six.check_that(
        f"board {board:.2f}" == six.tolerance and low <= board <= high,
        "lies on the best pocket boards, 17 to 18",
        f"board {board:.2f}",
    )
