"""How much a bowler's own shots differ from each other."""

from dataclasses import dataclass

from workbook.inputs import Inputs, assumed


@dataclass(frozen=True, kw_only=True)
class Scatter(Inputs):
    """Standard deviations from shot to shot; the defaults are assumptions, your own are better.

    Parameters
    ----------
    speed_mph, rev_rate_rpm, axis_rotation_deg, axis_tilt_deg : float
        Of the release [mph, rpm, deg, deg].
    laydown_board, launch_deg : float
        Of the line [board, deg]; a quarter of a degree is about 0.8 board at the arrows.

    Raises
    ------
    InputRefused
        A value outside its range.
    """

    speed_mph: float = assumed("speed_scatter", "scatter of the speed")
    rev_rate_rpm: float = assumed("rev_rate_scatter", "scatter of the rev rate")
    axis_rotation_deg: float = assumed("rotation_scatter", "scatter of the axis rotation")
    axis_tilt_deg: float = assumed("tilt_scatter", "scatter of the axis tilt")
    laydown_board: float = assumed("laydown_scatter", "scatter of the laydown board")
    launch_deg: float = assumed("launch_scatter", "scatter of the launch angle")
