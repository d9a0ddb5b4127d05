"""A ball's spec sheet turned into meaning: its RGs, its flare, and what drilling will do to it."""

import math
from dataclasses import dataclass, replace

import numpy as np

from workbook import demo, errors, sources, units
from workbook.ball import Ball
from workbook.bowler import Bowler
from workbook.certainty import Range, drilled_bands
from workbook.grip import Grip
from workbook.rating import rate_bodies
from workbook.rolling import Body, Shots
from workbook.setup import Setup
from workbook.surface import Surface

PIN_UP, PIN_DOWN = (setup.layout for setup in demo.pin_up_and_down())
# usual places of the pin, from near the PAP to far from it [in]
DISTANCES_IN = tuple(np.linspace(2.0, 6.0, 17).tolist())
MORE_RG_IN = 0.05


@dataclass(frozen=True)
class FlareAt:
    """Flare [in] on the reference lane, and the pin-to-PAP distance [in] that gives it."""

    flare_in: float
    pin_to_pap_in: float


@dataclass(frozen=True)
class Effect:
    """What a change does to a shot on the reference lane.

    Parameters
    ----------
    length_ft : float or None
        Change of the length [ft]; None where one of the two shots has none.
    hook_boards : float
        Change of the hook potential [board].
    flare_in : float
        Change of the flare [in].
    """

    length_ft: float | None
    hook_boards: float
    flare_in: float


@dataclass(frozen=True, eq=False)
class BallReading:
    """What a spec sheet says about a ball, for one bowler, grip and surface.

    Parameters
    ----------
    pin_up, pin_down : Setup
        The ball in two layouts, 45 deg x 4 1/2 in with VAL angles of 25 and 75 deg; their
        `drilled` is what drilling makes of it.
    least_flare, greatest_flare : FlareAt
        Over pin-to-PAP distances of 2 to 6 in, all else as pin up.
    flare_up_in, flare_down_in : float
        Of the two layouts on the reference lane [in].
    higher_rg : Effect
        What 0.05 in more does to the pin-up ball if all its RGs after drilling get it and speed and
        revs stay (the same effort would turn a ball of higher RG more slowly).
    """

    pin_up: Setup
    pin_down: Setup
    least_flare: FlareAt
    greatest_flare: FlareAt
    flare_up_in: float
    flare_down_in: float
    higher_rg: Effect

    @property
    def ball(self) -> Ball:
        """The undrilled ball."""
        return self.pin_up.ball

    @property
    def intermediate_share(self) -> float | None:
        """Intermediate over total differential [1]; None for a ball without differential.

        Above 0.05 the governing body calls the core asymmetric (published: USBC glossary).
        """
        ball = self.ball
        return ball.intermediate_in / ball.differential_in if ball.differential_in else None

    @property
    def share_ends(self) -> tuple[float, float] | None:
        """The share [1] if both differentials are rounded to 0.001 in (assumption): its ends."""
        off = sources.value("spec_rounding")
        low, total = self.ball.intermediate_in, self.ball.differential_in
        if total <= off:
            return None
        return max(low - off, 0.0) / (total + off), (low + off) / (total - off)

    @property
    def rule_in_doubt(self) -> bool:
        """Whether rounding of the spec sheet alone could turn the answer of the 5 % rule round."""
        ends, line = self.share_ends, sources.value("asymmetric_share")
        if ends is None or self.ball.intermediate_in == 0.0:
            return False
        return ends[0] <= line < ends[1]

    @property
    def uniform_rg_in(self) -> float:
        """RG of a ball of the same size with its mass spread evenly [in], for every axis.

        Textbook: R sqrt(2/5).
        """
        return math.sqrt(2.0 / 5.0) * self.ball.radius_m / units.INCH

    @property
    def percent_of_uniform(self) -> tuple[float, float, float]:
        """Low, intermediate and high RG as a percentage of the uniform ball's [%].

        Below 100 the mass lies nearer to that axis than if it were spread evenly.
        """
        ball, even = self.ball, self.uniform_rg_in
        low, middle, high = (
            100.0 * rg / even for rg in (ball.rg_low_in, ball.rg_intermediate_in, ball.rg_high_in)
        )
        return low, middle, high


def read_ball(ball: Ball, bowler: Bowler, grip: Grip, surface: Surface) -> BallReading:
    """Read a ball's spec sheet for a bowler.

    Raises
    ------
    InputRefused
        Something that is not what its name says.

    Warns
    -----
    LegalLimit
        A drilled ball beyond the rule of static balance.
    """
    for words, given, kind in (
        ("ball", ball, Ball), ("bowler", bowler, Bowler), ("grip", grip, Grip),
        ("surface", surface, Surface),
    ):  # fmt: skip
        errors.instance(words, given, kind)
    up = Setup(bowler, ball, PIN_UP, grip, surface, "pin up")
    down = replace(up, layout=PIN_DOWN, name="pin down")
    body = Body.of(up)
    placed = [
        Body.laid_out(up, replace(PIN_UP, pin_to_pap_in=distance))[0] for distance in DISTANCES_IN
    ]
    # one batch: the two layouts, the higher RG, then every distance of the pin
    shots = rate_bodies(up, [body, Body.of(down), _higher(body), *placed])
    flares = shots.flare_in[3:]
    least, greatest = (
        FlareAt(float(flares[i]), DISTANCES_IN[i]) for i in (np.argmin(flares), np.argmax(flares))
    )
    return BallReading(
        pin_up=up,
        pin_down=down,
        least_flare=least,
        greatest_flare=greatest,
        flare_up_in=float(shots.flare_in[0]),
        flare_down_in=float(shots.flare_in[1]),
        higher_rg=_effect(shots, 0, 2),
    )


def flare_bands(reading: BallReading, draws: int = 64) -> tuple[Range, Range]:
    """Bands of the flare pin up and pin down on the reference lane [in] (see `drilled_bands`)."""
    up, down = (
        drilled_bands(setup, draws=draws)["flare_in"]
        for setup in (reading.pin_up, reading.pin_down)
    )
    return up, down


def _higher(body: Body) -> Body:
    """The body with each principal RG greater, its axes and centre of mass as they are."""
    moments, axes = body.principal
    rg = np.sqrt(moments) + MORE_RG_IN * units.INCH
    return Body(body.radius, axes.T @ np.diag(rg**2) @ axes, body.c)


def _effect(shots: Shots, before: int, after: int) -> Effect:
    length, hook, flare = (
        float(column[after] - column[before])
        for column in (shots.length_ft, shots.total_hook_boards, shots.flare_in)
    )
    return Effect(None if math.isnan(length) else length, hook, flare)
