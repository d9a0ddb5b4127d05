"""Friction by cover and surface under a film, by hand and by another drawing of the assumptions."""

import math

import numpy as np
import pytest

import workbook as wb
from workbook import sources

DULL, ROUGH, SHINY = wb.Surface(grit=2000), wb.Surface(grit=500), wb.Surface(polished=True)


def by_hand(film_um, ra_uin, dry, oil=0.03, cap=6.0, ratio=0.45, lane=0.3):
    """The formulas as they stand in the docstrings, in um."""
    rough = math.hypot(1.2533141 * ra_uin * 0.0254, lane)
    return oil + (dry - oil) * math.exp(-film_um * cap / (film_um + cap) / (ratio * rough))


@pytest.mark.parametrize("film", [0.0, 0.2, 1.0, 6.0])
def test_by_hand(film):
    ra_500 = 16 * 4**0.65
    for surface, ra, cover, dry in (
        (DULL, 16.0, "reactive", 0.20), (ROUGH, ra_500, "urethane", 0.17),
        (SHINY, 4.0, "polyester", 0.12),
    ):  # fmt: skip
        found = wb.friction_under(film, surface, cover)
        assert found == pytest.approx(by_hand(film, ra, dry), rel=1e-6)


def test_grit_does_nothing_on_dry_boards_and_most_under_a_thin_film():
    gain = {
        film: wb.friction_under(film, ROUGH, "reactive")
        - wb.friction_under(film, SHINY, "reactive")
        for film in (0.0, 0.5, 6.0)
    }
    assert gain[0.0] == 0.0 and gain[0.5] > 0.05 > 0.01 > gain[6.0] > 0.0


def test_the_band_on_dry_boards_is_that_of_the_cover_alone():
    """A dry value drawn evenly from 0.18 to 0.25: its 10th and 90th percentile by hand."""
    low, best, high = wb.friction_band([0.0], DULL, "reactive")[:, 0]
    assert (low, best, high) == pytest.approx((0.187, 0.20, 0.243), abs=0.001)


def test_the_band_is_that_of_another_drawing():
    rng, films = np.random.default_rng(6), [0.3, 1.0, 3.0]

    def even(key):
        return rng.uniform(*sources.FACTS[key].range)

    table = [
        [by_hand(film, ra, dry, oil, cap, ratio, lane) for film in films]
        for ra, dry, oil, cap, ratio, lane in (
            (even("ra_at_2000"), even("mu_dry_reactive"), even("mu_oil"), even("film_cap"),
             even("film_ratio"), even("lane_roughness")) for _ in range(4000)
        )
    ]  # fmt: skip
    low, _best, high = wb.friction_band(films, DULL, "reactive", draws=1024)
    assert low == pytest.approx(np.percentile(table, 10, axis=0), abs=0.003)
    assert high == pytest.approx(np.percentile(table, 90, axis=0), abs=0.003)


@pytest.mark.parametrize(
    ("given", "words"),
    [((-1, DULL, "reactive"), "film -1 um is outside 0 to 100 um"),
     ((1, 500, "reactive"), "surface must be a Surface"),
     ((1, DULL, "leather"), "cover must be polyester, urethane or reactive")],
)  # fmt: skip
def test_what_cannot_be_is_refused(given, words):
    with pytest.raises(wb.InputRefused, match=words):
        wb.friction_under(*given)
    with pytest.raises(wb.InputRefused, match=words):
        wb.friction_band([given[0]], *given[1:])
