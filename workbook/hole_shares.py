"""What each hole of a grip does to a ball: shares that add up to what drilling does."""

from dataclasses import dataclass
from itertools import product

from workbook import errors, units
from workbook.drilling import drill_quietly
from workbook.grip import Grip
from workbook.setup import Setup
from workbook.shares import shapley

# quantities of a drilled ball, in the order of a table
QUANTITIES = (
    "weight_oz", "rg_low_in", "rg_high_in", "differential_in", "intermediate_in",
    "top_oz", "side_oz", "finger_oz", "psa_moved_deg",
)  # fmt: skip


@dataclass(frozen=True, eq=False)
class HoleEffects:
    """What drilling does to a ball, and each hole's share of it.

    Parameters
    ----------
    holes : tuple of str
        Names of the holes.
    before, after : dict
        Each of `QUANTITIES` of the undrilled and of the drilled ball: weight [oz], RGs and
        differentials [in], static balance [oz], how far the PSA lies from its mark [deg]. A
        symmetric ball has no PSA before: that one is left out.
    shares : dict
        For each quantity one share a hole: its effect averaged over every order of drilling
        (Shapley 1953, in its own unit). They add up to after minus before.
    """

    holes: tuple[str, ...]
    before: dict[str, float]
    after: dict[str, float]
    shares: dict[str, tuple[float, ...]]


def hole_effects(setup: Setup) -> HoleEffects:
    """Share out among the holes what drilling does to the ball.

    The effect of a hole depends a little on which others are there; so every subset of the grip is
    drilled (2^n balls for n holes) and each hole's effect averaged over all orders.

    Raises
    ------
    InputRefused
        Not a `Setup`.
    """
    errors.instance("setup", setup, Setup)
    holes = setup.grip.holes
    settings = list(product((False, True), repeat=len(holes)))
    balls = {setting: _quantities(setup, setting) for setting in settings}
    before, after = balls[settings[0]], balls[settings[-1]]
    shares = {
        quantity: tuple(
            shapley({setting: ball[quantity] for setting, ball in balls.items()}, i)
            for i in range(len(holes))
        )
        for quantity in before
    }
    return HoleEffects(tuple(hole.name for hole in holes), before, after, shares)


def _quantities(setup: Setup, setting: tuple[bool, ...]) -> dict[str, float]:
    holes = (hole for hole, there in zip(setup.grip.holes, setting, strict=True) if there)
    d = drill_quietly(
        setup.ball, setup.layout, Grip(tuple(holes)), setup.bowler.pap, setup.assumptions
    )
    found = (
        d.weight_lb * units.POUND / units.OUNCE, d.rg_low_in, d.rg_high_in,
        d.differential_in, d.intermediate_in,
        *d.static_balance_oz, d.high_axis_moved_deg,
    )  # fmt: skip
    return dict(zip(QUANTITIES if setup.ball.asymmetric else QUANTITIES[:-1], found, strict=False))
