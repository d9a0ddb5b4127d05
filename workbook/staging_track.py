"""From a measured track to plain drawing data."""

import numpy as np

from workbook import sources, units
from workbook.bowler import Pap
from workbook.core import sphere
from workbook.grip import Grip
from workbook.scenes import BallScene, HoleOutline, TrackMarks
from workbook.scenes_track import TrackScene
from workbook.staging import ARC
from workbook.track import TrackReading


def track_ball_scene(reading: TrackReading, grip: Grip, hand: str, caption: str = "") -> BallScene:
    """The ball with the measured points, the ring through them and the region of the PAP."""
    around = reading.circumference_in
    arc = units.arc_per_inch(around)
    pap = reading.pap.vector(around)
    t_up, _ = sphere.pap_tangents(reading.pap_over_in * arc, reading.pap_up_in * arc)
    return BallScene(
        label="A",
        title="the measured track",
        caption=caption,
        hand=hand,
        holes=tuple(HoleOutline(hole.name, hole.rim(around)) for hole in grip.holes),
        pin=None,
        mass_mark=None,
        mass_kind="",
        pap=pap,
        val=np.array([sphere.go(pap, t_up, t) for t in ARC]),
        midline=np.array([sphere.point(t, 0.0) for t in ARC]),
        grip_line=np.array([sphere.point(0.0, t) for t in ARC]),
        circumference_in=around,
        track=TrackMarks(
            points=_on_ball(reading.points_in * arc),
            ring=reading.ring(),
            region=_on_ball(reading.region_in * arc),
        ),
    )


def track_scene(
    reading: TrackReading, hand: str, known: Pap | None = None, known_words: str = ""
) -> TrackScene:
    """Distances from the ring, and the region; with a PAP that is known otherwise, in words."""
    pap = np.array(reading.pap)
    off = None if known is None else (known[0] - float(pap[0]), known[1] - float(pap[1]))
    far = sources.value("track_outlier") * reading.error_in
    return TrackScene(
        round_deg=reading.round_deg,
        off_in=reading.residuals_in,
        error_in=reading.error_in,
        doubtful=np.abs(reading.residuals_in) > far,
        region_in=reading.region_in - pap,
        known_in=off,
        known_words=known_words,
        hand=hand,
    )


def _on_ball(places: np.ndarray) -> np.ndarray:
    return np.array([sphere.point(over, up) for over, up in places])
