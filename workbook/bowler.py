"""The bowler: hand, positive axis point and release."""

from dataclasses import dataclass
from typing import NamedTuple

from workbook import errors, units
from workbook.core import release, sphere
from workbook.inputs import quantity, word
from workbook.setup_file import Saved


class Pap(NamedTuple):
    """Positive axis point: over along the midline from the grip centre, then up [in]."""

    over_in: float
    up_in: float

    def vector(self, circumference_in: float) -> sphere.Vector:
        """Unit vector in the ball frame, on a ball of that circumference [in]."""
        arc = units.arc_per_inch(circumference_in)
        return sphere.point(self.over_in * arc, self.up_in * arc)


@dataclass(frozen=True, kw_only=True)
class Bowler(Saved):
    """A bowler's release, measured in the trade's units.

    A left-hander is the mirror image: the same numbers, counted from the bowler's own side.

    Parameters
    ----------
    hand : {"right", "left"}
    pap_over_in, pap_up_in : float
        Positive axis point: over from the grip centre along the midline, then up [in].
    speed_mph : float
        Speed of the ball at release [mph].
    rev_rate_rpm : float
        Rev rate at release [rpm].
    axis_rotation_deg : float
        Axis rotation [deg]: 0 end over end, 90 side roll, negative backs up.
    axis_tilt_deg : float
        Axis tilt [deg], positive with the PAP up.
    release_phase_deg : float
        Turn of the ball about its axis at release [deg]; 0 with the fingers lowest, growing the way
        the ball turns. Default 0 (assumption, any value is possible).

    Raises
    ------
    InputRefused
        A value is missing, of the wrong type or outside its limits.
    """

    hand: str = word("hand", ("right", "left"), "right")
    pap_over_in: float = quantity("PAP over", "in", 0.0, 6.75)
    pap_up_in: float = quantity("PAP up", "in", -2.0, 2.0)
    speed_mph: float = quantity("ball speed", "mph", 8.0, 25.0)
    rev_rate_rpm: float = quantity("rev rate", "rpm", 0.0, 700.0)
    axis_rotation_deg: float = quantity("axis rotation", "deg", -20.0, 110.0)
    axis_tilt_deg: float = quantity("axis tilt", "deg", 0.0, 60.0)
    release_phase_deg: float = quantity("release phase", "deg", -180.0, 180.0, 0.0)

    @property
    def pap(self) -> Pap:
        """The positive axis point."""
        return Pap(self.pap_over_in, self.pap_up_in)

    def most_turn_deg(self, rg_in: float, circumference_in: float) -> float:
        """Most turn that this release can give a ball of that RG [in] and size [in], in [deg].

        The ball's final direction against its launch direction when it rolls fully, whatever the
        friction (textbook: sliding to rolling of a rigid sphere, uniform friction, symmetric core).
        """
        rg_in = errors.number("RG", rg_in, "in", 2.0, 3.5)
        radius = units.radius_m(errors.circumference(circumference_in))
        turn = release.most_turn(
            radius,
            (rg_in * units.INCH / radius) ** 2,
            self.speed_mph * units.MPH,
            self.rev_rate_rpm * units.RPM,
            self.axis_rotation_deg * units.DEGREE,
            self.axis_tilt_deg * units.DEGREE,
        )
        return turn / units.DEGREE
