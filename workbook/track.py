"""The positive axis point from the oil track: a circle through measured points of the first ring.

The ring is the circle at 90 degrees + tilt from the PAP: the ball touches the lane straight below
its centre, and the axis rises from the lane by the tilt (textbook). Of the circle's two ends the
PAP is the one on the ring-finger side.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray
from scipy.special import chdtrc

from workbook import errors, sources, units
from workbook.bowler import Bowler, Pap
from workbook.core import ring_fit, sphere
from workbook.errors import InputRefused
from workbook.inputs import limits

Array = NDArray[np.float64]
Points = Sequence[tuple[float, float]]
ERROR_IN, USUAL_IN = sources.value("track_error"), sources.value("usual_circumference")
LEAST_ERROR_IN, MOST_ERROR_IN = 0.01, 0.5
LEAST_POINTS, MOST_POINTS = 3, 60
NEARLY_ONE = 1.0 - 1e-9  # of a cosine: a PAP on the grip centre has no side toward it
AROUND = 73  # points of the region's outline


@dataclass(frozen=True, eq=False)
class TrackReading:
    """What a measured track says.

    Parameters
    ----------
    pap_over_in, pap_up_in : float
        The PAP: over from the grip centre along the midline, then up [in].
    tilt_deg : float
        Axis tilt [deg].
    residuals_in : array (n,)
        Each point's distance from the fitted ring over the surface [in], positive away from the
        PAP.
    over_error_in, up_error_in : float
        How far the 90 % region of the PAP reaches from it, over and up [in].
    tilt_error_deg : float
        Half of the range that holds the tilt with 90 % [deg].
    region_in : array (N, 2)
        Outline of the region that holds the true PAP with 90 %, closed: over, up [in].
    round_deg : array (n,)
        Each point's place round the ring [deg], -180 to 180: 0 on the grip's side, positive toward
        the thumb's.
    points_in : array (n, 2)
        The measured points: over, up [in].
    circumference_in, error_in : float
        Of the ball, and of one measured point (a standard deviation, either way) [in].
    doubts : tuple of str
        What a reader should doubt, each in a sentence.
    """

    pap_over_in: float
    pap_up_in: float
    tilt_deg: float
    residuals_in: Array
    over_error_in: float
    up_error_in: float
    tilt_error_deg: float
    region_in: Array
    round_deg: Array
    points_in: Array
    circumference_in: float
    error_in: float
    doubts: tuple[str, ...] = ()

    @property
    def pap(self) -> Pap:
        """The positive axis point."""
        return Pap(self.pap_over_in, self.pap_up_in)

    @property
    def scatter_in(self) -> float:
        """Standard deviation of the points about the ring [in]; 0 for three points."""
        free = len(self.residuals_in) - LEAST_POINTS
        return float(np.sqrt(self.residuals_in @ self.residuals_in / free)) if free else 0.0

    @property
    def misfit(self) -> bool:
        """Whether the points scatter by more than chance and the stated error explain."""
        free = len(self.residuals_in) - LEAST_POINTS
        squares = float(self.residuals_in @ self.residuals_in)
        rare = sources.value("track_misfit")
        return free > 0 and bool(chdtrc(free, squares / self.error_in**2) < rare)

    @property
    def arc_deg(self) -> float:
        """How much of the ring the points span [deg]."""
        return _spanned(self.round_deg)

    def ring(self, points: int = 181) -> Array:
        """The fitted ring as unit vectors in the ball frame, array (points, 3), closed."""
        opening = (90.0 + self.tilt_deg) * units.DEGREE
        return sphere.circle(self.pap.vector(self.circumference_in), opening, points)


def pap_from_track(
    points: Points, circumference_in: float = USUAL_IN, error_in: float = ERROR_IN
) -> TrackReading:
    """Read PAP and tilt from points measured on the first oil ring.

    The circle with the least sum of squared distances over the surface. The region holds every PAP
    whose best ring fits worse by less than the textbook's chi-square allows (likelihood ratio).

    Parameters
    ----------
    points : sequence of (over, up)
        At least three places on one ring, from the grip centre: over along the midline toward the
        ring-finger side, then up square to it [in].
    circumference_in : float
        Circumference of the ball [in].
    error_in : float
        Standard deviation of a measured place, in any direction [in]; default 1/16 (assumption).

    Raises
    ------
    InputRefused
        A number outside its limits, or points that leave the PAP open by more than an inch.
    """
    circumference_in = errors.circumference(circumference_in)
    error_in = errors.number("measuring error", error_in, "in", LEAST_ERROR_IN, MOST_ERROR_IN)
    places = _checked(points, circumference_in)
    arc = units.arc_per_inch(circumference_in)
    on_ball = np.array([sphere.point(over * arc, up * arc) for over, up in places])
    _check_apart(on_ball / arc, error_in)
    axis, opening = ring_fit.fit(on_ball)
    if axis[0] + axis[2] < 0:  # a PAP lies between the grip centre and a quarter of the ball over
        axis, opening = -axis, np.pi - opening
    round_deg = _round(axis, on_ball)
    region, reach = _region(axis, on_ball, error_in * arc)
    _check_reach(reach / arc, _spanned(round_deg), len(places))
    pap = np.array(sphere.over_up(axis)) / arc
    tilt_deg = opening / units.DEGREE - 90.0
    tilt_error = sources.value("ninety_percent") * ring_fit.opening_spread(axis, on_ball) * error_in
    residuals = (ring_fit.angles(axis, on_ball) - opening) / arc
    reading = TrackReading(
        pap_over_in=float(pap[0]),
        pap_up_in=float(pap[1]),
        tilt_deg=tilt_deg,
        residuals_in=residuals,
        over_error_in=float(reach[0] / arc),
        up_error_in=float(reach[1] / arc),
        tilt_error_deg=tilt_error * arc / units.DEGREE,
        region_in=pap + region / arc,
        round_deg=round_deg,
        points_in=places,
        circumference_in=circumference_in,
        error_in=error_in,
        doubts=(*_outside(float(pap[0]), float(pap[1]), tilt_deg), *_far_off(residuals, error_in)),
    )
    return _told(reading, on_ball)


def _checked(points: Points, circumference_in: float) -> Array:
    """The points as an array (n, 2) [in]; each number inside the ball's own limits."""
    try:
        given = [tuple(point) for point in points]
    except TypeError:
        raise InputRefused("track must be a list of points, each (over, up) in inches.") from None
    if not LEAST_POINTS <= len(given) <= MOST_POINTS:
        raise InputRefused(
            f"track has {len(given)} points, outside {LEAST_POINTS} to {MOST_POINTS}."
        )
    places = []
    for place, point in enumerate(given, 1):
        if len(point) != 2:
            raise InputRefused(f"point {place} must be two numbers, over and up in inches.")
        half, quarter = circumference_in / 2, circumference_in / 4
        over = errors.number(f"point {place} over", point[0], "in", -half, half)
        places.append((over, errors.number(f"point {place} up", point[1], "in", -quarter, quarter)))
    return np.array(places)


def _check_apart(places: Array, error_in: float) -> None:
    widest = float(np.max(np.linalg.norm(places[:, None] - places, axis=-1)))
    least = sources.value("track_outlier") * error_in
    if widest < least:
        raise InputRefused(
            f"track of {len(places)} points lies within {widest:.2f} in, less than {least:g} in: "
            "measure points farther round the ring."
        )


def _region(axis: Array, on_ball: Array, error: float) -> tuple[Array, Array]:
    """Outline of the 90 % region less the PAP (over, up), and how far it reaches [rad].

    A region without an end reaches infinitely far.
    """
    rise = sources.value("track_region") * error**2
    outline = ring_fit.region(axis, on_ball, rise, AROUND, np.pi / 4)
    if outline is None:
        return np.empty((0, 2)), np.array([np.inf, np.inf])
    from_pap = np.array([sphere.over_up(end) for end in outline]) - sphere.over_up(axis)
    from_pap[:, 0] = np.remainder(from_pap[:, 0] + np.pi, 2 * np.pi) - np.pi
    return from_pap, np.max(np.abs(from_pap), axis=0)


def _check_reach(reach_in: Array, spanned_deg: float, count: int) -> None:
    widest = sources.value("track_widest")
    if np.max(reach_in) <= widest:
        return
    way = "over" if reach_in[0] >= reach_in[1] else "up"
    far = np.max(reach_in)
    open_by = f"by {far:.1f} in {way}" if np.isfinite(far) else "altogether"
    raise InputRefused(
        f"track of {count} points over {spanned_deg:.0f} deg of the ring leaves the PAP open "
        f"{open_by}, more than {widest:g} in: measure points farther round the ring."
    )


def _round(axis: Array, on_ball: Array) -> Array:
    """Places round the axis [deg]: 0 toward the grip, growing the way the ball turns."""
    grip = sphere.Z if axis[2] < NEARLY_ONE else np.array([0.0, 1.0, 0.0])
    toward = sphere.tangent_toward(axis, grip)
    side = sphere.cross(axis, toward)
    places: Array = np.arctan2(on_ball @ side, on_ball @ toward) / units.DEGREE
    return places


def _spanned(round_deg: Array) -> float:
    """Degrees of the ring from the first to the last point, the widest gap left out."""
    places = np.sort(round_deg)
    return 360.0 - float(np.max(np.diff(places, append=places[0] + 360.0)))


def _outside(over_in: float, up_in: float, tilt_deg: float) -> list[str]:
    """What no bowler's release is said to have: the limits of the record."""
    said = []
    for name, value in (
        ("pap_over_in", over_in),
        ("pap_up_in", up_in),
        ("axis_tilt_deg", tilt_deg),
    ):
        low, high, unit = limits(Bowler, name)
        if not low <= value <= high:
            words = Bowler.__dataclass_fields__[name].metadata["words"]
            said.append(
                f"{words} {value:.2f} {unit} is outside {low:g} to {high:g} {unit}: are the points "
                "those of the first ring, with the signs of over and up right?"
            )
    return said


def _far_off(residuals_in: Array, error_in: float) -> list[str]:
    """Points far from the ring."""
    most = sources.value("track_outlier")
    said = [
        f"Point {place} lies {abs(far):.2f} in from the ring, more than {most:g} times the "
        f"measuring error of {error_in:g} in: measure it again."
        for place, far in enumerate(residuals_in, 1) if abs(far) > most * error_in
    ]  # fmt: skip
    return said


def _told(reading: TrackReading, on_ball: Array) -> TrackReading:
    """With a doubt where the points do not lie on one ring, and the point that spoils it most."""
    if not reading.misfit:
        return reading
    said = (
        f"The points scatter by {reading.scatter_in:.2f} in about the ring, more than the stated "
        f"error of {reading.error_in:g} in explains: the PAP is less sure than shown."
    )
    count = len(on_ball)
    if count > LEAST_POINTS + 1:
        left = [_squares(np.delete(on_ball, i, axis=0)) for i in range(count)]
        worst = int(np.argmin(left))
        said += f" Measure point {worst + 1} again first: without it the others fit best."
    return replace(reading, doubts=(*reading.doubts, said))


def _squares(on_ball: Array) -> float:
    axis, _opening = ring_fit.fit(on_ball)
    return float(ring_fit.misfit(axis, on_ball))
