"""Densities, weight of the holes and oil volumes (derived, memory, common practice)."""

import numpy as np
import pytest

import workbook as wb
from tests.conftest import SETUP, USUAL, changed
from tests.published.facts import fact
from workbook import lane

WATER_G_CM3 = 1.000  # at 4 C; 0.998 at 20 C, where 11.99 lb floats
# a limit at the very circumference is passed by rounding
pytestmark = pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")


def test_mean_density():
    fact("density_15").check(changed(circumference_in=8.5 * np.pi).ball.mean_density_g_cm3)


def test_heaviest_ball_that_floats():
    """12 lb just floats and 12.5 sinks: demonstrations (memory); the limit is derived."""
    limit = fact("float_limit")
    density = {lb: changed(weight_lb=lb, circumference_in=8.595 * np.pi).ball
               .mean_density_g_cm3 for lb in (12.0, limit.value, 12.5)}  # fmt: skip
    assert density[12.0] < WATER_G_CM3 < density[12.5]
    limit.check(limit.value * WATER_G_CM3 / density[limit.value])


@pytest.mark.parametrize("grip", [USUAL, wb.Grip.usual(), wb.Grip.usual(thumb_slug_in=None)])
def test_weight_of_a_usual_grip(grip):
    """Common practice, no source: 2 to 4 oz, about 2.5 oz often quoted."""
    fact("hole_weight").check_between(changed(grip=grip).drilled.removed_oz)
    assert SETUP.drilled.weight_lb == pytest.approx(15 - SETUP.drilled.removed_oz / 16)


def test_a_unit_of_oil():
    """0.0167 mL on a square foot: the volume is from memory."""
    unit = fact("unit")
    unit.check(lane.UNIT_UM)
    table = wb.Lane("one unit", np.full((61, 39), unit.value))
    assert table.units_table == pytest.approx(1.0, abs=unit.within / unit.value)


def test_film_of_27_ml_over_42_ft():
    film = fact("film_27_42")
    along = np.where(np.arange(61) < 42, 1.0, 0.0)
    along[42] = 0.5  # straight from the full film at 41 ft to none at 43: as much as 42 ft of it
    even = wb.Lane("even", np.repeat(film.value * along[:, None], 39, axis=1))
    film.check(film.value * 27.0 / even.volume_ml)  # the film that would hold 27 mL


def test_flat_condition_is_a_sport_pattern():
    """Published: USBC sport pattern calculations, about 2008-2015; later rules differ.

    Mean film of boards 16 to 24 over that of boards 3 to 7: the house has 7 to 1 only from board
    20 to board 1.
    """
    films = (wb.Lane.flat().film_um[0], wb.Lane.house().film_um[0])
    flat, house = (film[15:24].mean() / film[2:7].mean() for film in films)
    limit = fact("sport_ratio")
    limit.check_that(flat < limit.value < house, "flat lane below, house lane above",
                     f"{flat:.1f} and {house:.1f}, boards 16-24 over 3-7")  # fmt: skip
