"""The calculations that an exercise file may ask for: a list of names, and nothing else runs.

Each takes plain numbers and words and gives one number in the unit that its docstring names.
"""

import inspect
import math
import warnings
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from workbook import demo, errors, measuring, units
from workbook.equal_grit import match_grit
from workbook.errors import InputRefused, LegalLimit, one_line, shown
from workbook.friction_at import friction_under
from workbook.practice.setups import lane_from, setup_from, split_line, surface_from
from workbook.rating import rate
from workbook.rolling import roll
from workbook.surface import Surface
from workbook.track import pap_from_track
from workbook.wear import worn

DEEPEST = 8
"""Calculations may stand inside calculations so deep."""
DRILLED = (
    "differential_in", "intermediate_in", "rg_low_in", "rg_intermediate_in", "rg_high_in",
    "rg_pap_in", "removed_oz", "weight_lb", "low_axis_moved_deg", "high_axis_moved_deg",
    "top_oz", "side_oz", "finger_oz",
)  # fmt: skip
BALL = ("rg_high_in", "rg_intermediate_in", "mean_density_g_cm3")
RATED = ("hook_potential_boards", "length_ft")
ROLLED = (
    "entry_board", "entry_angle_deg", "entry_speed_mph", "time_s", "arrow_board",
    "breakpoint_board", "breakpoint_ft", "total_hook_boards", "length_ft", "roll_ft",
    "sharpness_deg", "flare_in",
)  # fmt: skip
PLACES = ("pin_over", "pin_up", "psa_over", "psa_up")
DISTANCES = ("pin_to_pap_in", "psa_to_pap_in", "pin_buffer_in")
TRACK = ("pap_over_in", "pap_up_in", "tilt_deg")


@dataclass(frozen=True)
class Call:
    """A permitted calculation with its arguments: numbers, words, "{drawn}" names, more calls.

    Parameters
    ----------
    calculation : str
        A name in `PERMITTED`.
    arguments : mapping
    """

    calculation: str
    arguments: Mapping[str, Any]

    def value(self, drawn: Mapping[str, float] | None = None, deep: int = 0) -> float:
        """Work it out, with `drawn` numbers in the place of their names in braces.

        Raises
        ------
        InputRefused
            A name that is not permitted, wrong arguments, or a result that is no finite number.
        """
        if deep > DEEPEST:
            raise InputRefused(f"calculations stand inside each other deeper than {DEEPEST}.")
        function = PERMITTED.get(self.calculation)
        if function is None:
            raise InputRefused(f"calculation {shown(self.calculation)} is not permitted.")
        given = {name: _filled(one, drawn or {}, deep) for name, one in self.arguments.items()}
        try:
            inspect.signature(function).bind(**given)
        except TypeError as why:
            raise InputRefused(f"{self.calculation}: {one_line(str(why), 100)}.") from None
        with warnings.catch_warnings():
            warnings.simplefilter("ignore", LegalLimit)
            result = function(**given)
        if not math.isfinite(result):
            raise InputRefused(f"{self.calculation} has no finite answer here.")
        return float(result)


def _filled(one: Any, drawn: Mapping[str, float], deep: int) -> Any:
    if isinstance(one, Call):
        return one.value(drawn, deep + 1)
    if isinstance(one, list):
        return [_filled(inner, drawn, deep + 1) for inner in one]
    if isinstance(one, Mapping):
        return {name: _filled(inner, drawn, deep + 1) for name, inner in one.items()}
    if isinstance(one, str) and one.startswith("{") and one.endswith("}"):
        if one[1:-1] not in drawn:
            raise InputRefused(f"nothing is drawn for {shown(one)}.")
        return drawn[one[1:-1]]
    return one


def _of(found: object, name: object, allowed: tuple[str, ...]) -> float:
    value = getattr(found, errors.choice("of", name, allowed))
    if value is None:
        raise InputRefused(f"this setup has no {name} here.")
    return float(value)


def drilled(of: str, **setup: Any) -> float:
    """A figure of a drilled ball, as in `wb.Drilled` and its static balance."""
    found = setup_from(setup).drilled
    return _of(found.static_balance if of in DRILLED[-3:] else found, of, DRILLED)


def ball(of: str, **setup: Any) -> float:
    """A figure of an undrilled ball, as in `wb.Ball`."""
    return _of(setup_from(setup).ball, of, BALL)


def placed(of: str, **setup: Any) -> float:
    """Where a layout puts pin or PSA, over or up from the grip centre [in]."""
    errors.choice("of", of, PLACES)
    one = setup_from(setup)
    marks, (mark, way) = one.layout.place(one.bowler.pap, one.ball), of.split("_")
    return float(getattr(marks, f"{mark}_in")[("over", "up").index(way)])


def distances(of: str, **setup: Any) -> float:
    """A layout as distances over the surface [in]."""
    one = setup_from(setup)
    return _of(one.layout.distances(one.ball.circumference_in), of, DISTANCES)


def rated(of: str, **setup: Any) -> float:
    """Length [ft] or hook potential [boards] on the reference lane."""
    return _of(rate(setup_from(setup)), of, RATED)


def rolled(of: str, lane: str = "house", **setup_and_line: Any) -> float:
    """A figure of one shot, as in `wb.Shot`; the bowler's own line unless one is given."""
    line, setup = split_line(setup_and_line)
    return _of(roll(setup_from(setup), lane_from(lane), line), of, ROLLED)


def equal_grit(a: Mapping[str, Any], b: Mapping[str, Any]) -> float:
    """The grit at which setup `b` has the length of setup `a` on the reference lane [grit]."""
    found = match_grit(setup_from(_table("a", a)), setup_from(_table("b", b))).grit
    if found is None:
        raise InputRefused("no grit makes these two read alike.")
    return found


def friction(film_um: float, cover: str, **surface: Any) -> float:
    """Coefficient of friction under an oil film [1]."""
    return friction_under(film_um, surface_from(surface), cover)


def ra_um(grit: float) -> float:
    """Mean roughness Ra of a cover by our law [um]."""
    return Surface(grit=grit).ra_um()


def worn_grit(grit: float, games: float) -> float:
    """Grit that a sanded surface is worth after so many games, by our assumption [grit]."""
    return worn(Surface(grit=grit), games).surface.grit or math.nan


def speed_mph(distance_ft: float, time_s: float) -> float:
    """Mean speed over a distance [mph]."""
    return measuring.mean_speed_mph(distance_ft, time_s).value


def rev_rate_rpm(turns: float, frames: float, frames_a_second: float) -> float:
    """Rev rate from a video [rpm]."""
    return measuring.rev_rate_rpm(turns, frames, frames_a_second).value


def rotation_deg(along: float, across: float) -> float:
    """Axis rotation from a piece of the track [deg]."""
    return measuring.axis_rotation_deg(along, across, 0.0).value


def tilt_deg(tape_in: float, circumference_in: float = 27.0) -> float:
    """Axis tilt from a tape across the track [deg]."""
    return measuring.axis_tilt_deg(tape_in, circumference_in).value


def track(of: str, points: list[list[float]]) -> float:
    """PAP or tilt from points of a track (over, up) [in, deg]."""
    if not isinstance(points, list):
        raise InputRefused(f"points must be a list of pairs, not {shown(points)}.")
    pairs = [(x, y) for x, y in (one for one in points if _is_pair(one))]
    return _of(pap_from_track(pairs), of, TRACK)


def arc_in(chord_in: float, circumference_in: float = 27.0) -> float:
    """Distance over the surface of a straight line through the ball [in]."""
    across = errors.circumference(circumference_in) / math.pi
    chord = errors.number("straight distance", chord_in, "in", 0.0, across)
    return across * math.asin(chord / across)


def chord_in(arc_in: float, circumference_in: float = 27.0) -> float:
    """Straight distance through the ball of one over its surface [in]."""
    across = errors.circumference(circumference_in) / math.pi
    arc = errors.number("distance", arc_in, "in", 0.0, circumference_in / 2)
    return across * math.sin(arc / across)


def end_of_roll(of: str, **setup: Any) -> float:
    """Speed [mph] of a plain ball that has begun to roll, or the angle it has turned [deg].

    Textbook: the angular momentum about the contact point does not change. Nothing is drilled, and
    the RG is the lowest.
    """
    one = setup_from(setup)
    who, radius = one.bowler, one.ball.radius_m
    k = (one.ball.rg_low_in * units.INCH / radius) ** 2
    spin = who.rev_rate_rpm * units.RPM * radius / units.MPH * math.cos(_rad(who.axis_tilt_deg))
    rotation = _rad(who.axis_rotation_deg)
    ahead = (who.speed_mph + k * spin * math.cos(rotation)) / (1 + k)
    across = k * spin * math.sin(rotation) / (1 + k)
    turned = math.degrees(math.atan2(across, ahead))
    both = {"speed_mph": math.hypot(ahead, across), "turned_deg": turned}
    return both[errors.choice("of", of, tuple(both))]


def clinic(of: str, ball: str) -> float:
    """A figure of a ball of the invented clinic, by its name there."""
    balls = demo.balls()
    if not isinstance(ball, str) or ball not in balls:
        raise InputRefused(f"the clinic has no ball {shown(ball)}; a name is like {[*balls][2]!r}.")
    return _of(
        balls[ball], of, (*BALL, "weight_lb", "rg_low_in", "differential_in", "intermediate_in")
    )


def _rad(degrees: float) -> float:
    return math.radians(errors.number("angle", degrees, "deg", -360.0, 360.0))


def _plain(*values: object) -> list[float]:
    return [errors.number("number", value, "", -1e9, 1e9) for value in values]


def plus(a: float, b: float) -> float:
    """The sum."""
    return sum(_plain(a, b))


def minus(a: float, b: float) -> float:
    """The difference, b taken from a."""
    a, b = _plain(a, b)
    return a - b


def times(a: float, b: float) -> float:
    """The product."""
    return math.prod(_plain(a, b))


def over(a: float, b: float) -> float:
    """The quotient, a over b."""
    a, b = _plain(a, b)
    if b == 0.0:
        raise InputRefused("nothing can be divided by 0.")
    return a / b


def sine(deg: float) -> float:
    """Sine of an angle in degrees."""
    return math.sin(_rad(deg))


def cosine(deg: float) -> float:
    """Cosine of an angle in degrees."""
    return math.cos(_rad(deg))


def tangent_deg(opposite: float, adjacent: float) -> float:
    """The angle whose tangent is opposite over adjacent [deg]."""
    sides = _plain(opposite, adjacent)
    if not any(sides):
        raise InputRefused("there is no angle between two sides of 0.")
    return math.degrees(math.atan2(*sides))


def _is_pair(one: object) -> bool:
    if isinstance(one, (list, tuple)) and len(one) == 2:
        return True
    raise InputRefused(f"a point must be two numbers [over, up], not {shown(one)}.")


def _table(name: str, given: object) -> Mapping[str, Any]:
    if not isinstance(given, Mapping):
        raise InputRefused(f"{name} must be a group of named values, not {shown(given)}.")
    return given


PERMITTED: dict[str, Callable[..., float]] = {
    function.__name__: function
    for function in (
        drilled, ball, placed, distances, rated, rolled, equal_grit, friction, ra_um, worn_grit,
        speed_mph, rev_rate_rpm, rotation_deg, tilt_deg, track, arc_in, chord_in, end_of_roll,
        clinic, plus, minus, times, over, sine, cosine, tangent_deg,
    )
}  # fmt: skip
