"""Cut the holes of a grip into a ball: mass properties, static balance, where the pin ends up."""

import math
from dataclasses import dataclass
from functools import lru_cache

import numpy as np

from workbook import errors, sources, units
from workbook.assumptions import Assumptions
from workbook.ball import Ball
from workbook.bowler import Bowler, Pap
from workbook.core import mass, sphere
from workbook.grip import Grip, Hole
from workbook.layout import Layout, Marks


@dataclass(frozen=True)
class StaticBalance:
    """Static balance of a drilled ball [oz].

    Parameters
    ----------
    top_oz, side_oz, finger_oz : float
        Positive toward the grip (top), the ring-finger side (positive side) and the fingers.
    """

    top_oz: float
    side_oz: float
    finger_oz: float


@dataclass(frozen=True, eq=False)
class Drilled:
    """A drilled ball. Vectors are in the ball frame (x to the PAP's side, y to the fingers, z out).

    Parameters
    ----------
    weight_lb, removed_oz : float
        Weight left [lb] and taken away, inserts put back [oz].
    rg_low_in, rg_intermediate_in, rg_high_in : float
        Principal RGs about the centre of mass [in].
    rg_pap_in : float
        RG about the axis through the PAP's direction [in].
    low_axis_moved_deg, high_axis_moved_deg : float
        How far the low-RG axis lies from the pin, the high-RG axis from the PSA (for a symmetric
        ball: from the point a quarter along the line from pin to CG mark) [deg].
    center_of_mass_in : tuple of three floats
        From the ball's centre [in].
    static_balance : StaticBalance
    pin_side : {"up", "beside", "down"}
        Pin against the line through the finger-hole centres.
    marks : Marks
    legal_notes : tuple of str
        A sentence for each legal limit passed, with rule and date.
    notes : tuple of str
        A sentence for each mark that falls into a hole.
    inertia_per_mass : array (3, 3)
        About the centre of mass, over the mass [m^2].
    """

    weight_lb: float
    removed_oz: float
    rg_low_in: float
    rg_intermediate_in: float
    rg_high_in: float
    rg_pap_in: float
    low_axis_moved_deg: float
    high_axis_moved_deg: float
    center_of_mass_in: tuple[float, float, float]
    static_balance: StaticBalance
    pin_side: str
    marks: Marks
    legal_notes: tuple[str, ...]
    notes: tuple[str, ...]
    inertia_per_mass: sphere.Matrix

    @property
    def differential_in(self) -> float:
        """Total differential, highest minus lowest RG [in]."""
        return self.rg_high_in - self.rg_low_in

    @property
    def intermediate_in(self) -> float:
        """Intermediate differential, highest minus intermediate RG [in]."""
        return self.rg_high_in - self.rg_intermediate_in

    @property
    def static_balance_oz(self) -> tuple[float, float, float]:
        """Top, side and finger weight [oz], positive toward grip, ring-finger side and fingers."""
        b = self.static_balance
        return b.top_oz, b.side_oz, b.finger_oz


def drill(
    ball: Ball, layout: Layout, grip: Grip, bowler: Bowler, assumptions: Assumptions | None = None
) -> Drilled:
    """Lay the ball out for the bowler's PAP and cut the grip.

    Textbook mechanics. What is assumed: the filler's density, the inserts' density, that the CG
    lies toward the CG mark at kappa x radius x (top weight / weight) (see `Assumptions`), and that
    the CG mark of an asymmetric ball lies on the line from pin to PSA. Where bores meet inside the
    ball, what they share is cut twice: 0.03 oz for two usual finger holes, 0.2 oz if they are 2 3/4
    in deep.

    Returns
    -------
    Drilled

    Raises
    ------
    InputRefused
        Something that is not what its name says.

    Warns
    -----
    LegalLimit
        Static balance beyond the rule for balls over 10 lb (undrilled weight).
    """
    assumed = Assumptions() if assumptions is None else assumptions
    for words, given, kind in (
        ("ball", ball, Ball), ("layout", layout, Layout), ("grip", grip, Grip),
        ("bowler", bowler, Bowler), ("assumptions", assumed, Assumptions),
    ):  # fmt: skip
        errors.instance(words, given, kind)
    drilled = drill_quietly(ball, layout, grip, bowler.pap, assumed)
    errors.warn_legal(drilled.legal_notes)
    return drilled


def drill_quietly(
    ball: Ball, layout: Layout, grip: Grip, pap: Pap, assumed: Assumptions
) -> Drilled:
    """As `drill`, without checks and without warnings: for balls that are steps of another."""
    return _drill(
        ball, layout, grip, pap, assumed.kappa, assumed.insert_density, assumed.filler_ratio
    )


@lru_cache(maxsize=4096)
def _drill(
    ball: Ball,
    layout: Layout,
    grip: Grip,
    pap: Pap,
    kappa: float,
    insert_density: float,
    filler_ratio: float,
) -> Drilled:
    # only what the answer depends on is in the key: a thousand releases share one drilled ball
    marks = layout.place(pap, ball)
    pin, psa, cg = layout.directions(pap, ball)
    total, c, inertia = cut(ball, grip, pin, psa, kappa * cg, insert_density, filler_ratio)
    moments, axes = mass.principal(inertia / total)
    if not moments[0] > 0:
        raise errors.InputRefused("the holes leave no ball: cut fewer or smaller ones.")
    low, middle, high = (float(r) for r in np.sqrt(moments) / units.INCH)
    axis = pap.vector(ball.circumference_in)
    balance = static_balance(c, total, ball.radius_m, kappa)
    return Drilled(
        weight_lb=total / units.POUND,
        removed_oz=(ball.mass_kg - total) / units.OUNCE,
        rg_low_in=low,
        rg_intermediate_in=middle,
        rg_high_in=high,
        rg_pap_in=math.sqrt(float(axis @ inertia @ axis) / total) / units.INCH,
        low_axis_moved_deg=_between_axes(axes[0], pin),
        high_axis_moved_deg=_between_axes(axes[2], psa),
        center_of_mass_in=(
            float(c[0]) / units.INCH, float(c[1]) / units.INCH, float(c[2]) / units.INCH,
        ),
        static_balance=balance,
        pin_side=_pin_side(pin, grip, ball.circumference_in),
        marks=marks,
        legal_notes=_static_notes(ball, balance),
        notes=_hole_notes(ball, grip, pin, psa if ball.asymmetric else cg),
        inertia_per_mass=inertia / total,
    )  # fmt: skip


def cut(
    ball: Ball,
    grip: Grip,
    pin: sphere.Vector,
    psa: sphere.Vector,
    cg: sphere.Vector,
    insert_density: float,
    filler_ratio: float,
) -> tuple[float, sphere.Vector, sphere.Matrix]:
    """Mass [kg], centre of mass [m] and inertia about it [kg m^2] of the drilled ball.

    Parameters
    ----------
    pin, psa : array (3,)
        The low-RG and high-RG axes of the undrilled ball, square to each other, in the ball frame.
    cg : array (3,)
        Direction of the undrilled ball's CG times kappa.
    insert_density, filler_ratio : float
        As in `Assumptions`.
    """
    filler = ball.filler_density_g_cm3
    density = filler_ratio * ball.mean_density_g_cm3 if filler is None else filler
    taken, put_back = _bored(grip, ball.circumference_in)
    left = _undrilled(ball, pin, psa, cg)
    left = left.plus(taken, -density * units.GRAM_PER_CM3)
    left = left.plus(put_back, insert_density * units.GRAM_PER_CM3)
    return left.mass, *mass.about_centre_of_mass(left)


def static_balance(
    c: sphere.Vector, mass_kg: float, radius_m: float, kappa: float
) -> StaticBalance:
    """Static balance of a ball whose centre of mass lies at `c` [m, ball frame]."""
    ounces = mass_kg / (kappa * radius_m * units.OUNCE)
    return StaticBalance(
        top_oz=float(c[2]) * ounces, side_oz=float(c[0]) * ounces, finger_oz=float(c[1]) * ounces
    )


def kappa_from_scale(taped_oz: float, read_oz: float) -> float:
    """What `Assumptions.kappa` is for a scale, from a weight taped to the ball.

    Tape a known weight on the surface a quarter of the circumference from the axis that the scale
    turns about, on a side that balanced before, and read the scale. A scale that balances moments
    reads the weight itself (kappa 1); one that compares two halves reads more (textbook: a moment
    w R over kappa R).

    Parameters
    ----------
    taped_oz, read_oz : float
        Weight taped, and what the scale reads then [oz].

    Raises
    ------
    InputRefused
        Not numbers, or a reading that leaves kappa outside its range.
    """
    taped = errors.number("weight taped", taped_oz, "oz", 0.1, 16.0)
    low, high = sources.FACTS["kappa"].range
    slack = 1.0 + 1e-6  # a reading on the limit itself, rounded
    read = errors.number("reading of the scale", read_oz, "oz", taped / high, taped / low * slack)
    return max(low, taped / read)


@lru_cache(maxsize=256)
def _bored(grip: Grip, circumference_in: float) -> tuple[mass.Moments, mass.Moments]:
    """All bores, and all inserts, as solids of density 1: the same for every layout."""
    taken = put_back = mass.Moments()
    for hole in grip.holes:
        whole = _cylinder(hole, hole.diameter_in, circumference_in)
        taken = taken.plus(whole)
        if hole.insert_inner_in is not None:
            inside = _cylinder(hole, hole.insert_inner_in, circumference_in)
            put_back = put_back.plus(whole).plus(inside, -1.0)
    return taken, put_back


def _cylinder(hole: Hole, bore_in: float, circumference_in: float) -> mass.Moments:
    radius = units.radius_m(circumference_in)
    return mass.cylinder(
        radius,
        radius * hole.entry(circumference_in),
        hole.inward(circumference_in),
        bore_in / 2 * units.INCH,
        hole.depth_in * units.INCH,
    )


def _undrilled(
    ball: Ball, pin: sphere.Vector, psa: sphere.Vector, cg: sphere.Vector
) -> mass.Moments:
    """The ball before drilling, about its centre; `cg` is the direction of its CG times kappa."""
    third = sphere.cross(pin, psa)
    own = units.INCH**2 * (
        ball.rg_low_in**2 * np.outer(pin, pin)
        + ball.rg_high_in**2 * np.outer(psa, psa)
        + ball.rg_intermediate_in**2 * np.outer(third, third)
    )
    top_weight_lb = ball.top_weight_oz * units.OUNCE / units.POUND
    c = ball.radius_m * top_weight_lb / ball.weight_lb * cg
    m = ball.mass_kg
    return mass.Moments(m, m * c, m * (own + float(c @ c) * np.eye(3) - np.outer(c, c)))


def _between_axes(axis: sphere.Vector, mark: sphere.Vector) -> float:
    off = sphere.angle(axis, mark)
    return min(off, math.pi - off) / units.DEGREE


def _pin_side(pin: sphere.Vector, grip: Grip, circumference_in: float) -> str:
    """Pin up, beside or down: against the great circle through the finger-hole centres."""
    arc = units.arc_per_inch(circumference_in)
    fingers = [h.entry(circumference_in) for h in grip.holes if h.up_in > 0]
    if len(fingers) >= 2:
        across = sphere.unit(sphere.cross(fingers[0], fingers[1]))
        across = across if across[1] > 0 else -across
    else:
        middle = grip.fingers(circumference_in)
        across = sphere.unit(sphere.cross(middle, np.array([1.0, 0.0, 0.0])))
        across = across if across[1] > 0 else -across
    above = math.asin(max(-1.0, min(1.0, float(pin @ across)))) / arc
    if abs(above) <= sources.value("beside_fingers"):
        return "beside"
    return "up" if above > 0 else "down"


def _static_notes(ball: Ball, balance: StaticBalance) -> tuple[str, ...]:
    fact = sources.FACTS["static_max"]
    if ball.weight_lb <= sources.value("static_max_above"):
        return ()
    return tuple(
        f"{words} imbalance {abs(given):.2f} oz is above the legal limit of {fact.value:g} oz "
        f"({fact.source}); check the current rules."
        for words, given in (
            ("top/bottom", balance.top_oz),
            ("side", balance.side_oz),
            ("finger/thumb", balance.finger_oz),
        )
        if abs(given) > fact.value
    )


def _hole_notes(ball: Ball, grip: Grip, pin: sphere.Vector, mark: sphere.Vector) -> tuple[str, ...]:
    arc = units.arc_per_inch(ball.circumference_in)
    mark_words = "mass-bias mark" if ball.asymmetric else "CG mark"
    return tuple(
        f"The {words} falls into the {hole.name} hole."
        for hole in grip.holes
        for words, at in (("pin", pin), (mark_words, mark))
        if sphere.angle(hole.entry(ball.circumference_in), at) < hole.diameter_in / 2 * arc
    )
