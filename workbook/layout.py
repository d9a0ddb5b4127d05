"""The three numbers of a layout, where pin and mark land, and the way back from marks."""

import math
from dataclasses import dataclass, replace
from fractions import Fraction

from workbook import errors, sources, units
from workbook.ball import Ball
from workbook.bowler import Bowler, Pap
from workbook.core import sphere
from workbook.inputs import Inputs, limits, quantity

CIRCUMFERENCE_IN = sources.value("usual_circumference")
MARK_ERROR_IN = sources.value("mark_error")
FINEST = 64  # lines of a tape to the inch


@dataclass(frozen=True, kw_only=True)
class Layout(Inputs):
    """Drilling angle, pin-to-PAP distance and VAL angle.

    Parameters
    ----------
    drilling_angle_deg : float
        Angle at the pin between the line to the PAP and the line to the mark (the PSA of an
        asymmetric ball, the CG of a symmetric one), turned toward the thumb [deg].
    pin_to_pap_in : float
        Distance from pin to PAP over the surface [in].
    val_angle_deg : float
        Angle at the PAP between the vertical axis line (VAL), upward, and the line to the pin,
        turned toward the grip [deg].

    Raises
    ------
    InputRefused
        A value is missing, of the wrong type or outside its limits.
    """

    drilling_angle_deg: float = quantity("drilling angle", "deg", 0.0, 180.0)
    pin_to_pap_in: float = quantity("pin-to-PAP distance", "in", 0.0, 6.75)
    val_angle_deg: float = quantity("VAL angle", "deg", 0.0, 90.0)

    def directions(
        self, pap: Pap, ball: Ball
    ) -> tuple[sphere.Vector, sphere.Vector, sphere.Vector]:
        """Unit vectors of pin, PSA and CG mark on that ball for that PAP, in the ball frame."""
        arc = units.arc_per_inch(ball.circumference_in)

        def mark(distance: float) -> tuple[sphere.Vector, sphere.Vector]:
            return sphere.layout_points(
                pap.over_in * arc,
                pap.up_in * arc,
                self.pin_to_pap_in * arc,
                self.val_angle_deg * units.DEGREE,
                self.drilling_angle_deg * units.DEGREE,
                distance,
            )

        pin, quarter = mark(math.pi / 2)
        return pin, quarter, mark(ball.pin_to_cg_in * arc)[1]

    def place(self, pap: Pap, ball: Ball) -> "Marks":
        """Where pin, PSA and CG mark lie on that ball for that PAP."""
        arc = units.arc_per_inch(ball.circumference_in)

        def inches(p: sphere.Vector) -> tuple[float, float]:
            over, up = sphere.over_up(p)
            return over / arc, up / arc

        pin, psa, cg = (inches(p) for p in self.directions(pap, ball))
        return Marks(pin_in=pin, psa_in=psa, cg_in=cg)

    def distances(self, circumference_in: float = CIRCUMFERENCE_IN) -> "DistanceLayout":
        """The same layout as three distances over the surface of that ball [in]."""
        arc = units.arc_per_inch(errors.circumference(circumference_in))
        p = self.pin_to_pap_in * arc
        return DistanceLayout(
            pin_to_pap_in=self.pin_to_pap_in,
            psa_to_pap_in=math.acos(math.sin(p) * math.cos(self.drilling_angle_deg * units.DEGREE))
            / arc,
            pin_buffer_in=math.asin(math.sin(p) * math.sin(self.val_angle_deg * units.DEGREE))
            / arc,
        )


@dataclass(frozen=True)
class Marks:
    """Places on the ball, each (over, up) from the grip centre [in].

    Parameters
    ----------
    pin_in, psa_in, cg_in : tuple of two floats
        Pin; the mass-bias mark (PSA), a quarter of the circumference from it; the CG mark.
    """

    pin_in: tuple[float, float]
    psa_in: tuple[float, float]
    cg_in: tuple[float, float]


@dataclass(frozen=True, kw_only=True)
class DistanceLayout(Inputs):
    """A layout as three distances over the ball's surface.

    Parameters
    ----------
    pin_to_pap_in : float
        Pin to PAP [in].
    psa_to_pap_in : float
        PSA to PAP [in].
    pin_buffer_in : float
        Pin buffer: from the pin square to the VAL [in].

    Raises
    ------
    InputRefused
        A value is missing, of the wrong type or outside its limits.
    """

    pin_to_pap_in: float = quantity("pin-to-PAP distance", "in", 0.0, 6.75)
    psa_to_pap_in: float = quantity("PSA-to-PAP distance", "in", 0.0, 13.6)
    pin_buffer_in: float = quantity("pin buffer", "in", 0.0, 6.75)

    def layout(self, circumference_in: float = CIRCUMFERENCE_IN) -> Layout:
        """Back to angles (the pin above the midline of the PAP, the mark on the thumb side).

        Raises
        ------
        InputRefused
            Distances that no layout has.
        """
        arc = units.arc_per_inch(errors.circumference(circumference_in))
        reach = math.sin(self.pin_to_pap_in * arc)
        val = _ratio("pin buffer", math.sin(self.pin_buffer_in * arc), reach, self.pin_buffer_in)
        drilling = _ratio(
            "PSA-to-PAP distance", math.cos(self.psa_to_pap_in * arc), reach, self.psa_to_pap_in
        )
        return Layout(
            drilling_angle_deg=math.acos(drilling) / units.DEGREE,
            pin_to_pap_in=self.pin_to_pap_in,
            val_angle_deg=math.asin(val) / units.DEGREE,
        )

    def doubts(
        self, circumference_in: float = CIRCUMFERENCE_IN, *, mark_error_in: float = MARK_ERROR_IN
    ) -> tuple[str, ...]:
        """One sentence for each angle that a small error of the distances moves by over 5 degrees.

        `mark_error_in` is that error [in]. The way back is ill-conditioned near a VAL angle of 90,
        near drilling angles of 0 and 180, and for a pin close to the PAP.
        """
        mark_error_in = errors.number("mark error", mark_error_in, "in", 0.0, 1.0)
        base = self.layout(circumference_in)
        worst = {"drilling angle": 0.0, "VAL angle": 0.0}
        for name in ("pin_to_pap_in", "psa_to_pap_in", "pin_buffer_in"):
            for error in (-mark_error_in, mark_error_in):
                try:
                    moved = replace(self, **{name: getattr(self, name) + error}).layout(
                        circumference_in
                    )
                except errors.InputRefused:
                    continue  # outside what any layout has: the other direction tells
                for words, one, two in (
                    ("drilling angle", base.drilling_angle_deg, moved.drilling_angle_deg),
                    ("VAL angle", base.val_angle_deg, moved.val_angle_deg),
                ):
                    worst[words] = max(worst[words], abs(two - one))
        return _doubts(worst, mark_error_in)


@dataclass(frozen=True)
class LayoutReading:
    """A layout read back from marks on a ball.

    Parameters
    ----------
    layout : Layout
    doubts : tuple of str
        A sentence for each angle that the marks cannot give well; empty when all are sound.
    """

    layout: Layout
    doubts: tuple[str, ...]


def read_marks(
    pap: Pap,
    ball: Ball,
    pin_in: tuple[float, float],
    mark_in: tuple[float, float],
    *,
    mark_error_in: float = MARK_ERROR_IN,
) -> LayoutReading:
    """Read a layout from the places of pin and mark on a drilled ball.

    Parameters
    ----------
    pap : Pap
        The bowler's positive axis point.
    ball : Ball
        Its circumference is what matters.
    pin_in, mark_in : tuple of two floats
        (over, up) of the pin, and of the PSA or CG mark [in].
    mark_error_in : float
        How well the marks are measured [in]; decides what is doubted.

    Raises
    ------
    InputRefused
        Pin on the PAP or on the mark (no angle exists there), or a layout outside the limits.
    """
    errors.instance("PAP", pap, Pap)
    errors.instance("ball", ball, Ball)
    for words, given, name in (
        ("PAP over", pap.over_in, "pap_over_in"), ("PAP up", pap.up_in, "pap_up_in"),
    ):  # fmt: skip
        low, high, unit = limits(Bowler, name)
        errors.number(words, given, unit, low, high)
    mark_error_in = errors.number("mark error", mark_error_in, "in", 0.0, 1.0)
    arc = units.arc_per_inch(ball.circumference_in)

    def place(words: str, at: tuple[float, float]) -> sphere.Vector:
        if not isinstance(at, (tuple, list)) or len(at) != 2:
            raise errors.InputRefused(
                f"{words} must be two numbers (over, up) in inches, not {errors.shown(at)}."
            )
        over = errors.number(f"{words} over", at[0], "in", -13.5, 13.5)
        up = errors.number(f"{words} up", at[1], "in", -6.75, 6.75)
        return sphere.point(over * arc, up * arc)

    pin, mark = place("pin", pin_in), place("mark", mark_in)
    axis = pap.vector(ball.circumference_in)
    for words, one in (("PAP", axis), ("mark", mark)):
        apart = sphere.angle(pin, one) / arc
        if not 0.05 <= apart <= ball.circumference_in / 2 - 0.05:
            raise errors.InputRefused(
                f"distance from pin to {words} {apart:.3f} in is outside 0.05 to "
                f"{ball.circumference_in / 2 - 0.05:g} in: no angle exists there."
            )

    def angles(pin: sphere.Vector, mark: sphere.Vector) -> tuple[float, float, float]:
        return sphere.layout_angles(pap.over_in * arc, pap.up_in * arc, pin, mark)

    drilling, distance, val = angles(pin, mark)
    worst = {"drilling angle": 0.0, "VAL angle": 0.0}
    for p in sphere.around(pin, mark_error_in * arc):
        for m in sphere.around(mark, mark_error_in * arc):
            moved = angles(p, m)
            for words, read, off in (
                ("drilling angle", drilling, moved[0]),
                ("VAL angle", val, moved[2]),
            ):
                apart = abs(math.remainder(off - read, 2 * math.pi)) / units.DEGREE
                worst[words] = max(worst[words], apart)
    if val / units.DEGREE > 90.0 + worst["VAL angle"]:
        raise errors.InputRefused(
            f"VAL angle {val / units.DEGREE:.1f} deg is outside 0 to 90 deg: the pin lies below "
            "the level of the PAP."
        )
    layout = Layout(
        drilling_angle_deg=_nearest(drilling / units.DEGREE, 180.0, worst["drilling angle"]),
        pin_to_pap_in=_nearest(distance / arc, 6.75, mark_error_in),
        val_angle_deg=_nearest(val / units.DEGREE, 90.0, worst["VAL angle"]),
    )
    return LayoutReading(layout, _doubts(worst, mark_error_in) + _no_psa(ball, pin, mark))


def _no_psa(ball: Ball, pin: sphere.Vector, mark: sphere.Vector) -> tuple[str, ...]:
    """A doubt where the marks of an asymmetric ball are not a quarter of it apart."""
    arc = units.arc_per_inch(ball.circumference_in)
    apart, quarter = sphere.angle(pin, mark) / arc, ball.circumference_in / 4
    if not ball.asymmetric or abs(apart - quarter) <= sources.value("psa_mark"):
        return ()
    return (
        f"A PSA lies about {quarter:.2f} in from the pin, these marks {apart:.2f} in: check the "
        "signs, or is it the CG mark?",
    )


def _nearest(read: float, high: float, slack: float) -> float:
    """The end of 0 to `high` that a reading passes by no more than the marks may be off.

    Angles come from -180 to 180, so just past 180 is read as just above -180.
    """
    slack += 1e-7
    if high == 180.0 and read < slack - 180.0:
        return high
    if -slack <= read < 0.0:
        return 0.0
    return high if high < read <= high + slack else read


def _ratio(words: str, part: float, whole: float, given: float) -> float:
    if abs(part) > whole * (1 + 1e-9) or whole == 0:
        raise errors.InputRefused(
            f"{words} {given:g} in is outside what this pin-to-PAP distance allows: "
            "no layout has these distances."
        )
    return max(-1.0, min(1.0, part / whole))


def _doubts(worst: dict[str, float], error_in: float) -> tuple[str, ...]:
    return tuple(
        f"The {words} is doubtful: an error of {_inches(error_in)} in a mark moves it by "
        f"{off:.1f} degrees here."
        for words, off in worst.items()
        if off > sources.value("doubtful_angle")
    )


def _inches(error_in: float) -> str:
    """As a fraction where the tape has a line for it."""
    part = Fraction(error_in)
    return f"{part if 1 < part.denominator <= FINEST else f'{error_in:g}'} inch"
