"""Plain drawing data of a measured track: how far each point lies off, where the PAP may be."""

from dataclasses import dataclass

import numpy as np

from workbook.scenes import HANDS


@dataclass(frozen=True, eq=False)
class TrackScene:
    """Distances of measured points from their ring, and the region of the PAP.

    Parameters
    ----------
    round_deg : (N,) ndarray
        Each point's place round the ring [deg], -180 to 180: 0 on the grip's side, positive toward
        the thumb's.
    off_in : (N,) ndarray
        Its distance from the ring [in], positive away from the PAP.
    error_in : float
        Measuring error: a standard deviation [in].
    doubtful : (N,) ndarray of bool
        Points too far off to be believed.
    region_in : (K, 2) ndarray
        Outline of where the PAP may lie, from the fitted PAP: over, up [in].
    known_in : (float, float) or None
        A PAP that is known otherwise, from the fitted one: over, up [in].
    known_words : str
        What it is.
    hand : {"right", "left"}
        A left-hander's region is mirrored.
    """

    round_deg: np.ndarray
    off_in: np.ndarray
    error_in: float
    doubtful: np.ndarray
    region_in: np.ndarray
    known_in: tuple[float, float] | None = None
    known_words: str = ""
    hand: str = "right"

    def __post_init__(self) -> None:
        if self.hand not in HANDS:
            raise ValueError(f"A picture's hand is one of {', '.join(HANDS)}; got {self.hand!r}.")

    @property
    def order(self) -> np.ndarray:
        """The points' numbers from 0 in their order round the ring."""
        return np.argsort(self.round_deg, kind="stable")

    def describe(self) -> str:
        """Return the whole picture in words."""
        points = ", ".join(
            f"point {place + 1} {self.off_in[place]:+.2f} in" for place in self.order
        )
        over, up = np.max(np.abs(self.region_in), axis=0)
        parts = [
            f"Distances from the fitted ring, in order round it from the fingers' side over the "
            f"grip's to the thumb's: {points}.",
            f"Measuring error {self.error_in:g} in.",
            f"The PAP may lie up to {over:.2f} in over and {up:.2f} in up or down from the fitted "
            "one.",
        ]
        if self.known_in is not None:
            away = float(np.hypot(*self.known_in))
            parts.append(f"{self.known_words}: {away:.2f} in from the fitted one.")
        return " ".join(parts)
