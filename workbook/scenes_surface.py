"""Plain drawing data of friction and levers, and the same in words."""

from dataclasses import dataclass

import numpy as np

from workbook.levers import Lever, Swing


@dataclass(frozen=True, eq=False)
class FrictionCurve:
    """Friction of one setup's cover under oil films.

    Parameters
    ----------
    label : {"A", "B"}
    words : str
        Cover and surface.
    friction : (3, N) ndarray
        Lowest, best and highest at the scene's films [1].
    """

    label: str
    words: str
    friction: np.ndarray

    def describe(self) -> str:
        """Return both ends in one sentence."""
        low, best, high = self.friction
        return (
            f"{self.label} ({self.words}): {best[0]:.2f} on dry boards ({low[0]:.2f} to "
            f"{high[0]:.2f}), {best[-1]:.2f} under the thickest film ({low[-1]:.2f} to "
            f"{high[-1]:.2f})."
        )


@dataclass(frozen=True, eq=False)
class SurfaceScene:
    """What the surface does to friction, and surface against layout.

    Parameters
    ----------
    films_um : (N,) ndarray
        Oil films, growing [um].
    curves : tuple of FrictionCurve
        A and B.
    of : str
        Which setup the levers move.
    levers : tuple of Lever
        What each is worth; empty while that is being worked out.
    """

    films_um: np.ndarray
    curves: tuple[FrictionCurve, ...]
    of: str
    levers: tuple[Lever, ...]

    def describe(self) -> str:
        """Return the picture in words."""
        parts = [f"Friction against an oil film of 0 to {self.films_um[-1]:g} micrometres."]
        parts += [curve.describe() for curve in self.curves]
        if self.levers:
            parts.append(f"What each lever is worth on the reference lane for {self.of}:")
        for lever in self.levers:
            parts.append(
                f"{lever.name}, {lever.range_words}: length {swing_words(lever.length_ft)} ft, "
                f"hook {swing_words(lever.hook_boards)} boards."
            )
        return " ".join(parts)


def swing_words(swing: Swing | None) -> str:
    """A swing with its band."""
    if swing is None:
        return "none"
    band = "" if swing.low is None else f" ({swing.low:.1f} to {swing.high:.1f})"
    return f"{swing.value:.1f}{band}"
