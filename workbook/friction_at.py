"""Friction of a cover and its surface under an oil film, and how sure that is."""

import numpy as np
from numpy.typing import NDArray

from workbook import errors, units
from workbook.assumptions import Assumptions
from workbook.ball import COVERS
from workbook.certainty import HIGH, LOW
from workbook.core.friction import coefficient
from workbook.draws import assumptions_drawn
from workbook.surface import Surface

Array = NDArray[np.float64]
MOST_UM = 100.0
DRAWS = 256


def friction_under(
    film_um: float, surface: Surface, cover: str, assumptions: Assumptions | None = None
) -> float:
    """Coefficient of friction under a film [1].

    From grit to Ra, with the lane's own roughness to the combined Rq, and with the film to the dry
    share of friction (assumptions; see `Assumptions`). On the lane the film is what ball and lane
    bring together: more than the lane's own where the track meets old oil.

    Parameters
    ----------
    film_um : float
        Film between ball and lane [um], 0 to 100; 0 is a dry board.
    surface : Surface
    cover : {"polyester", "urethane", "reactive"}

    Raises
    ------
    InputRefused
        A film outside its limits, or something that is not what its name says.
    """
    film = errors.number("film", film_um, "um", 0.0, MOST_UM)
    _check(surface, cover)
    assumed = Assumptions() if assumptions is None else assumptions
    errors.instance("assumptions", assumed, Assumptions)
    return _friction(film, surface, cover, assumed)


def friction_band(
    films_um: Array | list[float],
    surface: Surface,
    cover: str,
    assumptions: Assumptions | None = None,
    *,
    draws: int = DRAWS,
) -> Array:
    """Friction at films, and the 10th and 90th percentile over all assumptions at once.

    Parameters
    ----------
    films_um : array (N,)
        Films [um], each from 0 to 100.
    surface, cover, assumptions
        As in `friction_under`.
    draws : int
        How many ways in which the assumptions could be; a power of two fills their ranges best.

    Returns
    -------
    array (3, N)
        Lowest, best and highest [1]; the band is widened to hold the best.

    Raises
    ------
    InputRefused
        As in `friction_under`, or a number of draws outside 2 to 65536.
    """
    films = [errors.number("film", film, "um", 0.0, MOST_UM) for film in films_um]
    _check(surface, cover)
    draws = errors.whole("number of draws", draws, 2, 65536)
    best = Assumptions() if assumptions is None else assumptions
    errors.instance("assumptions", best, Assumptions)
    mine = np.array([_friction(film, surface, cover, best) for film in films])
    drawn = assumptions_drawn(best, cover, draws)
    table = np.array([[_friction(film, surface, cover, one) for film in films] for one in drawn])
    low, high = np.percentile(table, (LOW, HIGH), axis=0)
    return np.array([np.minimum(low, mine), mine, np.maximum(high, mine)])


def _check(surface: object, cover: str) -> None:
    errors.instance("surface", surface, Surface)
    errors.choice("cover", cover, COVERS)


def _friction(film_um: float, surface: Surface, cover: str, assumed: Assumptions) -> float:
    scale = assumed.film_ratio * surface.combined_roughness_um(assumed)
    dry: float = getattr(assumed, f"mu_dry_{cover}")
    return float(
        coefficient(
            film_um * units.MICROMETRE,
            assumed.film_cap * units.MICROMETRE,
            scale * units.MICROMETRE,
            assumed.mu_oil,
            dry,
        )
    )
