"""The ball's surface: from grit to roughness, and with the cover to friction."""

import math
from dataclasses import dataclass

from workbook import errors, sources, units
from workbook.assumptions import Assumptions
from workbook.inputs import Inputs, quantity


@dataclass(frozen=True, kw_only=True)
class Surface(Inputs):
    """Surface of the cover: a grit, or polished.

    Parameters
    ----------
    grit : float, optional
        Grit of the finish [grit]; leave out when polished.
    polished : bool
        Polished instead of a grit.

    Raises
    ------
    InputRefused
        Neither or both given, or a grit outside its limits.

    Notes
    -----
    A pad's number is not the surface's number, and 3000 to 5000 are makers' labels: the published
    P series of abrasives ends at P2500 (FEPA 43 / ISO 6344, edition from memory).
    """

    grit: float | None = quantity("grit", "", 180.0, 5000.0, None, optional=True)
    polished: bool = False

    def __post_init__(self) -> None:
        super().__post_init__()
        if self.polished == (self.grit is not None):
            given = "both" if self.polished else "neither"
            raise errors.InputRefused(
                f"surface has {given} of them: give either a grit from 180 to 5000 or polished."
            )

    def ra_um(self, assumptions: Assumptions | None = None) -> float:
        """Mean roughness Ra of the cover [um] (assumption, about 40 % either way)."""
        a = assumptions or Assumptions()
        if self.grit is None:
            return a.ra_polished * units.MICROINCH / units.MICROMETRE
        ra: float = a.ra_at_2000 * (sources.value("anchor_grit") / self.grit) ** a.ra_exponent
        return ra * units.MICROINCH / units.MICROMETRE

    def combined_roughness_um(self, assumptions: Assumptions | None = None) -> float:
        """Rq of cover and lane together [um]: root of the sum of squares."""
        a = assumptions or Assumptions()
        rq = sources.value("rq_over_ra") * self.ra_um(a)
        return math.hypot(rq, a.lane_roughness)

    def __str__(self) -> str:
        return "polished" if self.grit is None else f"{self.grit:g} grit"
