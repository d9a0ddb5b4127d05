"""Friction at the contact: oil film, surface roughness and the oil that the ball carries.

Boundary lubrication with a film: on dry boards mu_dry, under a thick film mu_oil, in between an
exponential in film over roughness. All values SI. Which constants are assumptions, and their
ranges, stands in `workbook.sources.FACTS`.
"""

import math

from workbook.core.compiled import Array, jit


@jit
def film_at(film: Array, x: float, y: float, board_width: float, foot: float) -> float:
    """Lane film [m] under the point (x, y) [m]: bilinear between board centres and whole feet.

    `film` has one row per foot from the foul line and one column per board; x grows toward the
    bowling-hand side, where board 1 is. Outside the outermost centres the edge value holds.
    """
    rows, columns = film.shape
    across = 19.0 - x / board_width  # column of board n is n - 1
    down = y / foot
    if across < 0.0:
        across = 0.0
    if across > columns - 1.0:
        across = columns - 1.0
    if down < 0.0:
        down = 0.0
    if down > rows - 1.0:
        down = rows - 1.0
    j = min(int(across), columns - 2)
    i = min(int(down), rows - 2)
    s = across - j
    t = down - i
    near = (1.0 - s) * film[i, j] + s * film[i, j + 1]
    far = (1.0 - s) * film[i + 1, j] + s * film[i + 1, j + 1]
    return (1.0 - t) * near + t * far


@jit
def ring_overlap(ring_gap: float, track_width: float) -> float:
    """Mean share of the oil track that the next ring meets again (0 to 1).

    Rings are `ring_gap`*|sin| apart around the ball, each `track_width` wide [m].
    """
    r = ring_gap / track_width
    if r <= 1.0:
        return 1.0 - 2.0 * r / math.pi
    t = math.asin(1.0 / r)
    return 2.0 / math.pi * (t - r * (1.0 - math.cos(t)))


@jit
def coefficient(
    contact_film: float, film_cap: float, roughness_scale: float, mu_oil: float, mu_dry: float
) -> float:
    """Coefficient of friction under `contact_film` [m].

    The contact cannot take in more than `film_cap` [m] (starvation); `roughness_scale` [m] is the
    film at which the dry share has fallen to 1/e.
    """
    held = contact_film * film_cap / (contact_film + film_cap)
    return mu_oil + (mu_dry - mu_oil) * math.exp(-held / roughness_scale)
