"""FEPA 43 / ISO 6344, the P series of abrasives (published): mean grain sizes.

Roughness by grit is an assumption of the model. The published grain guards it: what a grain cuts
is far shallower than the grain, and grows with it.
"""

import math
import re

import pytest

import workbook as wb
from tests.published.facts import fact

SERIES = ["P180", "P220", "P240", "P280", "P320", "P360", "P400", "P500", "P600", "P800", "P1000",
          "P1200", "P1500", "P2000", "P2500"]  # fmt: skip


@pytest.mark.parametrize("row", SERIES)
def test_roughness_is_between_a_hundredth_and_a_tenth_of_the_grain(row):
    ra_um = wb.Surface(grit=float(row[1:])).ra_um()
    share = ra_um / fact(row).value
    found = f"{ra_um:.2f} um, {100 * share:.1f} %"
    fact(row).check_that(0.01 < share < 0.1, "Ra 1 to 10 % of it", found)


def test_roughness_grows_with_the_grain_and_less_than_in_proportion():
    grains = [math.log(fact(row).value) for row in SERIES]
    ras = [math.log(wb.Surface(grit=float(row[1:])).ra_um()) for row in SERIES]
    slope = (ras[0] - ras[-1]) / (grains[0] - grains[-1])
    assert ras == sorted(ras, reverse=True) and 0.5 < slope < 1.0


def test_makers_labels_beyond_the_series_are_taken_and_said_to_be_labels():
    end = fact("P_end")
    assert f"P{end.text}" == SERIES[-1] and f"P{end.text}" in wb.Surface.__doc__
    assert wb.Surface(grit=5000).ra_um() < wb.Surface(grit=end.value).ra_um()
    end.check_taken(float(re.search(r"series of abrasives ends at P(\d+)", wb.Surface.__doc__)[1]))
