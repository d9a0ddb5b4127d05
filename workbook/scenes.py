"""Plain drawing data: what a lane or ball picture shows, and the same in words.

Nothing here draws or computes: these are frozen records between the results below and the pictures
above. Lane points are (board, distance): boards count from the bowler's own side, board 1
outermost, and distance runs from the foul line. Ball points are unit vectors in the ball frame of a
right-hander (origin at the ball's centre, x toward the side of the positive axis point, y from
thumb to fingers, z out through the grip centre). A left-hander has the same numbers; only the
picture is mirrored.
"""

from dataclasses import dataclass

import numpy as np

LABELS = ("A", "B")
HANDS = ("right", "left")


@dataclass(frozen=True, eq=False)
class Trace:
    """One ball's way down the lane.

    Parameters
    ----------
    label : str
        "A" or "B"; picks colour, line style and marks.
    name : str
        A few words about the setup, may be empty.
    board, distance_ft : (N,) ndarray
        The path: board [board] at distance from the foul line [ft], distance increasing.
    breakpoint : (float, float) or None
        Outermost board [board] and its distance [ft].
    half_slip_ft : float or None
        Length: distance at which half the slip at release has gone [ft]; None if it never has.
    roll_ft : float or None
        Distance at which the ball rolls [ft]; None if not before the pins.
    gutter : (float, float) or None
        Board [board] and distance [ft] at which the ball leaves the lane.
    entry_board : float or None
        Board at the head pin's distance [board]; None for a gutter ball.
    entry_angle_deg : float or None
        Entry angle there [deg], positive toward higher boards.
    already_rolls : bool
        Whether it rolls from release on, so that there is no length and no roll.
    band : (2, N) ndarray or None
        Least and greatest board [board] of most of what could be, at the same distances.
    """

    label: str
    name: str
    board: np.ndarray
    distance_ft: np.ndarray
    breakpoint: tuple[float, float] | None = None
    half_slip_ft: float | None = None
    roll_ft: float | None = None
    gutter: tuple[float, float] | None = None
    entry_board: float | None = None
    entry_angle_deg: float | None = None
    already_rolls: bool = False
    band: np.ndarray | None = None

    def board_at(self, distance_ft: float) -> float:
        """Board [board] of the path at a distance [ft], linear between its points."""
        return float(np.interp(distance_ft, self.distance_ft, self.board))

    def describe(self) -> str:
        """Return the facts of this path in one or two sentences."""
        said = [
            f"{_called(self.label, self.name)}: crosses the foul line on board {self.board[0]:.1f}"
        ]
        if self.breakpoint:
            said.append(
                f"breakpoint on board {self.breakpoint[0]:.1f} at {self.breakpoint[1]:.1f} ft"
            )
        end = "gutter" if self.gutter else "pins"
        if self.already_rolls:
            said.append("rolls from release on")
        else:
            said.append(
                f"no length (half the slip is not lost before the {end})"
                if self.half_slip_ft is None
                else f"length {self.half_slip_ft:.1f} ft (half the slip gone)"
            )
            said.append(
                f"does not roll before the {end}"
                if self.roll_ft is None
                else f"rolls at {self.roll_ft:.1f} ft"
            )
        if self.gutter:
            said.append(f"goes into the gutter at {self.gutter[1]:.1f} ft")
        elif self.entry_board is not None:
            angle = (
                ""
                if self.entry_angle_deg is None
                else f" with an entry angle of {self.entry_angle_deg:.1f} degrees"
            )
            said.append(f"reaches the pins on board {self.entry_board:.1f}{angle}")
        if self.band is not None and not self.gutter:
            low, high = self.band[:, -1]
            said.append(f"at the pins most of what could be lies on boards {low:.0f} to {high:.0f}")
        return ", ".join(said) + "."


@dataclass(frozen=True, eq=False)
class LaneScene:
    """One lane with up to two paths.

    Parameters
    ----------
    traces : tuple of Trace
        None, one or two; each label at most once.
    film_um : (F, 39) ndarray
        Oil film [um] at 0, 1, ... F-1 ft from the foul line; columns are boards 1 to 39 as this
        bowler counts them.
    hand : {"right", "left"}
        The bowler's hand; a left-hander's picture is mirrored.

    Raises
    ------
    ValueError
        For another label or hand, or a label used twice.
    """

    traces: tuple[Trace, ...]
    film_um: np.ndarray
    hand: str = "right"

    def __post_init__(self):
        _check([trace.label for trace in self.traces], self.hand)

    def describe(self) -> str:
        """Return the whole picture in words: lane, oil, every path."""
        thickest = float(np.max(self.film_um, initial=0.0))
        if thickest > 0:
            oiled = np.flatnonzero(np.max(self.film_um, axis=1) > 0.02 * thickest)
            oil = f"Oil up to {thickest:.1f} micrometres thick, to about {oiled[-1]} ft."
        else:
            oil = "No oil."
        parts = [f"Lane for a {self.hand}-handed bowler, board 1 at the {self.hand}.", oil]
        parts += [trace.describe() for trace in self.traces] or ["No path."]
        return " ".join(parts)


@dataclass(frozen=True, eq=False)
class HoleOutline:
    """Rim of one drilled hole; `outline` is an (N, 3) ndarray of unit vectors in order [1]."""

    name: str
    outline: np.ndarray


@dataclass(frozen=True, eq=False)
class TrackMarks:
    """A measured oil ring on the ball.

    Parameters
    ----------
    points : (N, 3) ndarray
        The measured points, unit vectors [1].
    ring : (M, 3) ndarray
        The fitted ring, closed [1].
    region : (K, 3) ndarray
        Outline of where the PAP may lie, closed [1].
    """

    points: np.ndarray
    ring: np.ndarray
    region: np.ndarray


@dataclass(frozen=True, eq=False)
class BallScene:
    """One laid-out ball.

    Parameters
    ----------
    label, title, caption : str
        "A" or "B"; a few words on the setup and one line below the picture, which may be empty.
    hand : {"right", "left"}
        The bowler's hand; a left-hander's picture is mirrored.
    holes : tuple of HoleOutline
        All drilled holes.
    pin, mass_mark, pap : (3,) ndarray
        Directions of the pin, of the mass bias or CG mark, and of the positive axis point [1]; the
        first two are None on a ball that is not laid out.
    mass_kind : {"PSA", "CG"}
        What `mass_mark` is.
    val, midline, grip_line : (N, 3) ndarray
        Points along the vertical axis line, the midline and the grip centreline, in order [1].
    rings : tuple of (M, 3) ndarray
        Oil rings from first to last, each closed (its last point repeats its first) [1].
    ring_over_hole : tuple of bool
        For each ring, whether it runs over a hole.
    circumference_in : float
        Circumference of the ball [in]; only the words need it, to give places in inches.
    layout_line : (N, 3) ndarray or None
        From the PAP over the pin to the mass mark: between them lie the layout's angles [1].
    track : TrackMarks or None
        A measured ring; with one the second view shows the side away from the grip, so that every
        point is seen once.

    Raises
    ------
    ValueError
        For another label or hand.
    """

    label: str
    title: str
    caption: str
    hand: str
    holes: tuple[HoleOutline, ...]
    pin: np.ndarray | None
    mass_mark: np.ndarray | None
    mass_kind: str
    pap: np.ndarray
    val: np.ndarray
    midline: np.ndarray
    grip_line: np.ndarray
    rings: tuple[np.ndarray, ...] = ()
    ring_over_hole: tuple[bool, ...] = ()
    circumference_in: float = 27.0
    layout_line: np.ndarray | None = None
    track: TrackMarks | None = None

    def __post_init__(self):
        _check([self.label], self.hand)

    def describe(self) -> str:
        """Return the whole picture in words: holes, marks, rings."""
        holes = ", ".join(hole.name for hole in self.holes) or "none"
        parts = [f"{_called(self.label, self.title)}, {self.hand}-handed. Holes: {holes}."]
        parts.append(
            f"The PAP side is at the {self.hand}. From the grip centre: "
            + "; ".join(
                f"{name} {place_words(point, self.circumference_in)}"
                for name, point in (
                    ("pin", self.pin),
                    (self.mass_kind, self.mass_mark),
                    ("PAP", self.pap),
                )
                if point is not None
            )
            + "."
        )
        if self.track is not None:
            parts.append(f"{len(self.track.points)} measured points and the ring through them.")
        over = sum(self.ring_over_hole)
        if self.track is None or self.rings:
            parts.append(
                f"{len(self.rings) or 'No'} oil ring{'s' * (len(self.rings) != 1)}"
                + (f", {over} of them over a hole." if over else ".")
            )
        if self.caption:
            parts.append(self.caption.rstrip(".") + ".")
        return " ".join(parts)


def place_words(point: np.ndarray, circumference_in: float) -> str:
    """Say where a point lies from the grip centre: along the midline first, then up or down."""
    inch = circumference_in / (2.0 * np.pi)
    over = inch * np.arctan2(point[0], point[2])
    up = inch * np.arcsin(np.clip(point[1], -1.0, 1.0))
    return (
        f"{abs(over):.2f} in {'over' if over >= 0 else 'toward the middle finger'}, "
        f"{abs(up):.2f} in {'up' if up >= 0 else 'down'}"
    )


def _check(labels: list[str], hand: str) -> None:
    if hand not in HANDS:
        raise ValueError(f"A picture's hand is one of {', '.join(HANDS)}; got {hand!r}.")
    if len(set(labels)) < len(labels) or not set(labels) <= set(LABELS):
        raise ValueError(
            f"A picture shows each of {', '.join(LABELS)} at most once; got {', '.join(labels)}."
        )


def _called(label: str, name: str) -> str:
    return f"{label} ({name})" if name else label
