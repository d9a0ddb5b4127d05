"""Plain drawing data of a shot in time: two rolling balls, and curves along the lane."""

from dataclasses import dataclass

import numpy as np

from workbook.scenes import HANDS, BallScene

# what `Curves.values` holds: name of the quantity in `Path`, words, unit (none for a bare number)
CURVES = {
    "speed_mph": ("speed", "mph"),
    "rev_rate_rpm": ("rev rate", "rpm"),
    "slip_mph": ("slip", "mph"),
    "friction": ("friction", ""),
    "axis_rotation_deg": ("axis rotation", "°"),
    "axis_tilt_deg": ("axis tilt", "°"),
    "lane_film_um": ("oil met", "µm"),
    "carried_film_um": ("oil carried", "µm"),
}
PHASES = (
    "Skid ends where half of the slip at release has gone, hook where a tenth is left: "
    "our definitions, no standard's."
)


@dataclass(frozen=True, eq=False)
class RollingBall:
    """One shot on an even grid of times.

    Parameters
    ----------
    ball : BallScene
        The laid-out ball with its oil rings, first to last.
    name : str
        A few words about the setup, may be empty.
    time_s : (N,) ndarray
        Times since release [s], evenly spaced from 0 to the end of the shot.
    board, distance_ft, speed_mph, rev_rate_rpm : (N,) ndarray
        Where the ball is [board, ft] and how it moves [mph, rpm] at these times.
    revolutions : (N,) ndarray
        Turns since release [1].
    turn : (N, 4) ndarray
        Unit quaternion (w, x, y, z) from the ball frame to the lane frame (x toward the
        bowling-hand side, y down the lane, z up); neighbours lie less than half a turn apart.
    axis : (N, 3) ndarray
        Unit direction of the spin axis at that moment, in the ball frame.
    ring_s : (K,) ndarray
        Time at which the revolution of each oil ring is complete [s].
    hook_s, roll_s : float or None
        When half of the release slip has gone and when a tenth is left [s]; 0 for a release that
        already rolls, None if not before the end.
    gutter : bool
        Whether the shot ends in the gutter.
    """

    ball: BallScene
    name: str
    time_s: np.ndarray
    board: np.ndarray
    distance_ft: np.ndarray
    speed_mph: np.ndarray
    rev_rate_rpm: np.ndarray
    revolutions: np.ndarray
    turn: np.ndarray
    axis: np.ndarray
    ring_s: np.ndarray
    hook_s: float | None
    roll_s: float | None
    gutter: bool = False

    def describe(self) -> str:
        """Return the shot in one sentence."""
        end = "the gutter" if self.gutter else "the pins"
        return (
            f"{self.ball.label} ({self.name}): from board {self.board[0]:.1f} to {end} on board "
            f"{self.board[-1]:.1f} in {self.time_s[-1]:.2f} s with {self.revolutions[-1]:.1f} "
            f"turns; {len(self.ring_s)} oil ring{'s' * (len(self.ring_s) != 1)}."
        )


@dataclass(frozen=True, eq=False)
class RollScene:
    """One or two shots in time on one lane.

    Parameters
    ----------
    balls : tuple of RollingBall
    film_um : (F, 39) ndarray
        Oil film [um] at 0, 1, ... ft; columns are boards 1 to 39 as this bowler counts them.
    hand : {"right", "left"}
        The bowler's hand; a left-hander's pictures are mirrored.
    """

    balls: tuple[RollingBall, ...]
    film_um: np.ndarray
    hand: str

    def __post_init__(self) -> None:
        if self.hand not in HANDS:
            raise ValueError(f"A picture's hand is one of {', '.join(HANDS)}; got {self.hand!r}.")

    def describe(self) -> str:
        """Return both shots in words."""
        return " ".join(one.describe() for one in self.balls)


@dataclass(frozen=True, eq=False)
class Curves:
    """How one shot's quantities run along the lane.

    Parameters
    ----------
    label, name : str
        "A" or "B"; a few words about the setup, may be empty.
    distance_ft : (N,) ndarray
        Distances from the foul line [ft], growing.
    values : dict of str to (N,) ndarray
        Each quantity of `CURVES` there, in its unit.
    hook_ft, roll_ft : float or None
        Where half of the release slip has gone, and where a tenth is left [ft]; 0 for a release
        that already rolls, None if not before the end.
    """

    label: str
    name: str
    distance_ft: np.ndarray
    values: dict[str, np.ndarray]
    hook_ft: float | None
    roll_ft: float | None

    def phases(self) -> list[tuple[str, float, float]]:
        """Skid, hook and roll as (name, from [ft], to [ft]), those that there are."""
        end = float(self.distance_ft[-1])
        first, second = (end if x is None else x for x in (self.hook_ft, self.roll_ft))
        spans = (("skid", 0.0, first), ("hook", first, second), ("roll", second, end))
        return [span for span in spans if span[2] > span[1]]

    def phase_words(self) -> str:
        """Return the phases in words, such as "skid to 47.2 ft, hook to 55.1 ft"."""
        return ", ".join(f"{name} to {to:.1f} ft" for name, _from, to in self.phases())

    def describe(self) -> str:
        """Return phases, and each quantity at release and at the end."""
        ends = "; ".join(
            f"{words} {self.values[key][0]:.3g} to {self.values[key][-1]:.3g}"
            + (f" {unit}" if unit else "")
            for key, (words, unit) in CURVES.items()
        )
        return f"{self.label} ({self.name}): {self.phase_words()}. From release to the end: {ends}."


@dataclass(frozen=True, eq=False)
class CurvesScene:
    """The curves of one or two shots."""

    curves: tuple[Curves, ...]

    def describe(self) -> str:
        """Return the whole picture in words."""
        return " ".join([*(one.describe() for one in self.curves), PHASES])
