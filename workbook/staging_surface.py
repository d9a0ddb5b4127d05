"""From setups to the drawing data of friction and levers."""

import numpy as np

from workbook.friction_at import friction_band
from workbook.levers import Lever
from workbook.scenes_surface import FrictionCurve, SurfaceScene
from workbook.setup import Setup
from workbook.surface_words import finish_words

FILMS_UM = 3.0 * np.linspace(0.0, 1.0, 25) ** 2  # close together where friction falls fast
DRAWS = 64


def surface_scene(a: Setup, b: Setup, levers: tuple[Lever, ...] = ()) -> SurfaceScene:
    """Friction of A's and B's cover and surface, and what levers are worth to A."""
    curves = tuple(
        FrictionCurve(
            label,
            f"{one.ball.cover}, {finish_words(one)}",
            friction_band(FILMS_UM, one.surface, one.ball.cover, one.assumptions, draws=DRAWS),
        )
        for label, one in (("A", a), ("B", b))
    )
    return SurfaceScene(FILMS_UM, curves, "A", levers)
