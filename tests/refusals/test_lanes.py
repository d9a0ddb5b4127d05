"""Lanes made of arrays and zones: how much oil they hold, and what is refused.

One unit is 0.0167 mL on a square foot (memory); a lane is 60 ft by 41.5 in (published: USBC lane
specifications) and has 39 boards.
"""

import math
import warnings

import numpy as np
import pytest

import workbook as wb
from tests.refusals.refusal import refused

UNIT_ML, WIDTH_FT = 0.0167, 41.5 / 12
UNIT_UM = 0.0167e-6 / 0.3048**2 * 1e6
RELATIVE = 1e-9


def film(units=0.0, *changes):
    """A film [um] of so many units everywhere but at (foot, board number, units)."""
    made = np.full((61, 39), float(units))
    for foot, board, other in changes:
        made[foot, board - 1] = other
    return made * UNIT_UM


def test_volumes_by_hand():
    # 1 unit everywhere: 60 ft x 41.5 in
    assert wb.Lane("even", film(1)).volume_ml == pytest.approx(
        UNIT_ML * 60 * WIDTH_FT, rel=RELATIVE
    )
    # one cell in the middle: it falls to none within a foot either way, on one board
    one = wb.Lane("cell", film(0, (20, 7, 12)))
    assert one.volume_ml == pytest.approx(UNIT_ML * 12 * WIDTH_FT / 39, rel=RELATIVE)
    # 10 units to 10 ft, then straight to none at 20 ft: 100 + 50 unit-feet
    along = np.interp(np.arange(61), [0, 10, 20], [10, 10, 0]) * UNIT_UM
    lane = wb.Lane("ramp", np.repeat(along[:, None], 39, axis=1))
    assert lane.volume_ml == pytest.approx(8.66313, abs=1e-5)
    assert lane.length_ft == 18  # 2 units there, 1 a foot later
    # 27 mL on 42 ft are a film of 2.001 um (derived: volume over area); the half film at the end
    # makes the straight fall there as much oil as a sharp end
    even = np.where(np.arange(61) < 42, 2.001, 0.0)
    even[42] = 2.001 / 2
    lane = wb.Lane("27 mL", np.repeat(even[:, None], 39, axis=1))
    assert lane.volume_ml == pytest.approx(27.0, abs=0.007)


def test_the_house_lane_is_what_we_say():
    house = wb.Lane.house()
    assert house.volume_ml == pytest.approx(24.0, abs=0.1) and house.length_ft == 40
    at_foul_line = house.units_table[0]
    assert at_foul_line[17:22] == pytest.approx(np.full(5, 28.0), abs=0.1)
    assert at_foul_line[[0, 1, 37, 38]] == pytest.approx(np.full(4, 4.0), abs=0.05)
    assert house.units_table[40] == pytest.approx(at_foul_line / 4)  # 75 % less at the end
    assert not house.units_table[41:].any()


@pytest.mark.parametrize(
    ("lane", "least", "most", "length"),
    [
        (wb.Lane.flat(), 20, 30, 40),  # real patterns hold 20 to 30 mL (common practice)
        (wb.Lane.heavy(), 20, 30, 46),
        (wb.Lane.dry(), 13, 15, 34),
        (wb.Lane.reference(), 24, 26, 40),
    ],
    ids=lambda value: getattr(value, "name", ""),
)
def test_our_other_lanes_hold_sensible_volumes(lane, least, most, length):
    assert least < lane.volume_ml < most and lane.length_ft == length
    units = lane.units_table
    assert units == pytest.approx(units[:, ::-1])  # the same from either side
    assert np.all(np.diff(units, axis=0) <= 1e-12)  # never more further down


def test_flat_is_flat_and_house_is_not():
    ratio = {lane.name: lane.units_table[0, 19] / lane.units_table[0, 0]
             for lane in (wb.Lane.house(), wb.Lane.flat(), wb.Lane.reference())}  # fmt: skip
    # flatter than 3 to 1 (published: USBC sport pattern calculations)
    assert ratio["house"] > 3 > ratio["flat"] > ratio["reference"] == pytest.approx(1)


def test_a_film_of_the_wrong_kind_or_shape_is_refused():
    for bad in (None, "oil", b"", {}, object(), np.full((61, 39), 1j), np.full((61, 39), True),
                np.full((61, 39), "1"), [[1, 2], [3]], [[None] * 39] * 61, np.datetime64("NaT"),
                [[10**400] * 39] * 61):  # fmt: skip
        with warnings.catch_warnings():
            warnings.simplefilter("error")  # no imaginary part is dropped under way
            refused(lambda bad=bad: wb.Lane("mine", bad), "film must be a table of (61, 39)", "um")
    for bad in (3.0, [], np.zeros(5), film().T, film()[:60], film()[:, :38], np.zeros([1] * 40)):
        refused(lambda bad=bad: wb.Lane("mine", bad), "film has the shape (", "not (61, 39)")
    refused(wb.Lane, "lane name is missing")
    refused(lambda: wb.Lane("mine"), "film must be a table", "None")
    whole = wb.Lane("mine", np.ones((61, 39), dtype=int).tolist())
    assert whole.film_um.dtype == float and whole.film_um.sum() == 61 * 39


@pytest.mark.parametrize("bad", [-1e-9, -1.0, math.nan, math.inf, -math.inf, 35.96, 1e9])
def test_a_film_beyond_its_limits_is_refused_with_its_place(bad):
    made = film(1)
    made[42, 11] = bad
    # 200 units, by hand: 200 x 0.0167e-6 m3 / 0.09290304 m2
    text = refused(
        lambda: wb.Lane("mine", made), "um at 42 ft, board 12 is outside 0 to 35.9515 um"
    )
    assert float(text.split()[1]) == pytest.approx(bad, nan_ok=True)


def test_the_limits_of_the_film_are_allowed():
    for made in (film(0), film(200)):
        assert np.array_equal(wb.Lane("mine", made).film_um, made)


def test_zones_of_friction():
    lane = wb.Lane.of_friction([(0, 0), (40, 1), [40.1, np.float32(0.5)], (60, 0.2)])
    assert lane.zones == ((0.0, 0.0), (40.0, 1.0), (40.1, 0.5), (60.0, 0.2))
    assert lane.volume_ml == 0 and lane.length_ft == 0


@pytest.mark.parametrize(
    ("zones", "parts"),
    [
        ([], ("zones are missing", "at least one")),
        *(
            (bad, ("zones must be a list of (from ft, friction), not ",))
            for bad in (None, 3, "ab", b"ab", {}, {0: 1}, object(), np.zeros((2, 2)))
        ),
        *(
            ([(0, 0.1), bad], ("zone 2 must be two numbers (from ft, friction), not ",))
            for bad in (None, 3, "ab", (), (1,), (1, 2, 3), {1: 2}, np.zeros(2))
        ),
        ([(1, 0.1)], ("zone-1 start 1 ft must be 0 ft",)),
        ([(-1, 0.1)], ("zone-1 start -1 ft is outside 0 to 60 ft",)),
        ([(0, 0.1), (60.01, 0.1)], ("zone-2 start 60.01 ft is outside 0 to 60 ft",)),
        ([(0, 0.1), (40, 0.1), (40, 0.2)], ("zone-3 start 40 ft", "0.1 ft past zone 2", "40 ft")),
        ([(0, 0.1), (40, 0.1), (30, 0.2)], ("zone-3 start 30 ft", "past zone 2", "40 ft")),
        ([(0, 0.1), (0.05, 0.2)], ("zone-2 start 0.05 ft", "0.1 ft past zone 1")),
        ([("0", 0.1)], ("zone-1 start must be a number from 0 to 60 ft, not '0'",)),
        ([(0, 0.1), (math.nan, 0.1)], ("zone-2 start", "finite", "0 to 60 ft", "nan")),
        ([(0, 1.01)], ("zone-1 friction 1.01 is outside 0 to 1",)),
        ([(0, -0.01)], ("zone-1 friction -0.01 is outside 0 to 1",)),
        ([(0, None)], ("zone-1 friction is missing", "0 to 1")),
        ([(0, True)], ("zone-1 friction must be a number from 0 to 1, not True",)),
        ([(0, math.inf)], ("zone-1 friction", "finite", "0 to 1", "inf")),
    ],
)
def test_zones_that_cannot_be_are_refused(zones, parts):
    refused(lambda: wb.Lane.of_friction(zones), *parts)
    if not (isinstance(zones, list) and zones == []):  # no zones means an oiled lane there
        refused(lambda: wb.Lane("mine", film(), zones), *parts)
