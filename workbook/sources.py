"""The registry of physical constants, each with its mark, source and range.

Marks: *published* (a named source), *textbook* (standard mechanics), *derived* (follows from
others), *common practice* (knowledge of the trade, no source), *assumption* (ours, with a range),
*memory* (recalled without the document in hand).
"""

from dataclasses import dataclass

MARKS = ("published", "textbook", "derived", "common practice", "assumption", "memory")
SPECIFICATIONS = "USBC equipment specifications"
LANES = "USBC lane specifications"
UNDATED = "; the date of this rule is not at hand"


@dataclass(frozen=True)
class Fact:
    """One constant: what it is, value [unit], mark, source ("" if none) and range (low, high)."""

    words: str
    value: float
    unit: str
    mark: str
    source: str
    range: tuple[float, float]


FACTS: dict[str, Fact] = {}


def _fact(
    key: str,
    words: str,
    value: float,
    unit: str,
    mark: str,
    source: str = "",
    low: float | None = None,
    high: float | None = None,
) -> None:
    assert mark in MARKS and key not in FACTS
    bounds = (value if low is None else low, value if high is None else high)
    FACTS[key] = Fact(words, value, unit, mark, source, bounds)


def value(key: str) -> float:
    """Return the value of the constant `key`, in its own unit."""
    return FACTS[key].value


_fact("gravity", "standard gravity", 9.80665, "m/s^2", "published",
      "3rd General Conference on Weights and Measures, 1901")  # fmt: skip

# The lane
_fact("lane_length", "foul line to head-pin spot", 60.0, "ft", "published", LANES)
_fact("lane_width", "lane width", 41.5, "in", "published", LANES)
_fact("boards", "boards of a lane", 39, "board", "published", LANES)
_fact("pin_spacing", "pin spacing", 12.0, "in", "published", LANES)
_fact("pin_belly", "pin's greatest diameter", 4.766, "in", "memory", "USBC pin specification")
_fact("arrow_center_ft", "distance of the middle arrow", 16.0, "ft", "common practice",
      "", 15.5, 16.0)  # fmt: skip
_fact("arrow_outer_ft", "distance of the outer arrows (boards 5 and 35)", 12.5, "ft",
      "common practice", "", 12.0, 12.5)  # fmt: skip
_fact("pocket_low", "lowest board of the best pocket", 17.0, "board", "published",
      "USBC (Ridenour, 3 pin 10 pin)")  # fmt: skip
_fact("pocket_high", "highest board of the best pocket", 18.0, "board", "published",
      "USBC (Ridenour, 3 pin 10 pin)")  # fmt: skip
_fact("pocket_angle_low", "least best entry angle", 4.0, "deg", "published",
      "USBC (Ridenour, 3 pin 10 pin)")  # fmt: skip
_fact("pocket_angle_high", "greatest best entry angle", 6.0, "deg", "published",
      "USBC (Ridenour, 3 pin 10 pin)")  # fmt: skip

# Legal limits of the ball: they warn and never refuse
_fact(
    "circumference_min", "least circumference", 26.704, "in", "published", SPECIFICATIONS + UNDATED
)
_fact(
    "circumference_max",
    "greatest circumference",
    27.002,
    "in",
    "published",
    SPECIFICATIONS + UNDATED,
)
_fact("rg_min", "least RG", 2.460, "in", "published",
      SPECIFICATIONS + ", balls approved from 1 Jul 2010")  # fmt: skip
_fact("rg_max", "greatest RG", 2.800, "in", "memory",
      SPECIFICATIONS + ", from a copy in an encyclopaedia" + UNDATED)  # fmt: skip
_fact("differential_max", "greatest total differential", 0.060, "in", "published",
      SPECIFICATIONS + ", from 1 Feb 2005")  # fmt: skip
_fact("asymmetric_share", "intermediate share above which a core counts as asymmetric", 0.05, "1",
      "published", "USBC glossary")  # fmt: skip
_fact("static_max", "greatest static imbalance, balls over 10 lb", 3.0, "oz", "published",
      "USBC, from 1 Aug 2018; World Bowling, from 1 Jan 2019")  # fmt: skip
_fact("static_max_above", "weight above which the 3 oz limits hold", 10.0, "lb", "published",
      "USBC, from 1 Aug 2018")  # fmt: skip
_fact("component_density_max", "greatest density of any component", 3.80, "g/cm3", "published",
      SPECIFICATIONS)  # fmt: skip

# Drilling
_fact("insert_density", "density of finger inserts and thumb slugs", 1.15, "g/cm3", "assumption",
      "", 1.0, 1.3)  # fmt: skip
_fact("filler_ratio", "density of what the holes are cut from, over the ball's mean density", 1.0,
      "1", "assumption", "", 0.7, 1.1)  # fmt: skip
_fact("light_material", "a ball of less mean density has far denser material under its cover", 1.0,
      "g/cm3", "assumption", "", 0.9, 1.1)  # fmt: skip
_fact("kappa", "ounces of static balance: moment / (kappa x radius)", 1.0, "1", "assumption",
      "", 0.53, 1.0)  # fmt: skip
_fact("beside_fingers", "pin within this of the finger line is beside the fingers", 0.25, "in",
      "common practice")  # fmt: skip

# A usual grip
_fact("usual_span", "span of a usual grip, cut to cut", 4.25, "in", "memory", "", 3.0, 5.5)
_fact("usual_bridge", "bridge between the finger holes", 0.25, "in", "memory", "", 0.1875, 0.375)
_fact("usual_finger_bore", "bore of a finger hole with an insert", 31 / 32, "in", "memory")
_fact("usual_finger_inner", "hole inside a finger insert", 0.75, "in", "memory", "", 0.6, 0.9)
_fact("usual_finger_depth", "depth of a finger hole", 1.75, "in", "memory", "", 1.5, 2.5)
_fact("usual_thumb_hole", "thumb hole inside the slug", 1.0, "in", "memory", "", 0.8, 1.2)
_fact("usual_thumb_slug", "bore for a thumb slug", 1.375, "in", "memory", "", 1.25, 1.5)
_fact("usual_thumb_depth", "depth of a thumb hole", 2.75, "in", "memory", "", 2.5, 3.25)
_fact("usual_circumference", "circumference taken where none is given", 27.0, "in", "memory",
      "", 26.704, 27.002)  # fmt: skip

# How well marks and bowlers are known
_fact("mark_error", "a mark is read off the ball to within this", 1 / 32, "in", "assumption",
      "", 0.0, 0.125)  # fmt: skip
_fact("pin_mark", "the low-RG axis lies within this of the pin mark", 1.0, "in", "published",
      SPECIFICATIONS + ", 31 Jan 2012")  # fmt: skip
_fact("psa_mark", "the high-RG axis lies within this of its mark", 1.5, "in", "published",
      SPECIFICATIONS + ", 31 Jan 2012")  # fmt: skip
_fact("spec_rounding", "a printed differential is rounded to within this", 0.0005, "in",
      "assumption", "spec sheets are taken to print three decimals", 0.0, 0.005)  # fmt: skip
_fact("pap_error", "a measured PAP lies within this of the true one", 0.25, "in", "assumption",
      "", 0.0, 0.5)  # fmt: skip
_fact("track_error", "a point of an oil ring is measured to within this, a standard deviation",
      1 / 16, "in", "assumption", "", 1 / 32, 1 / 8)  # fmt: skip
_fact("track_region", "chi-square of two degrees of freedom that 90 % stay below", 4.605170186, "1",
      "textbook", "-2 ln 0.1")  # fmt: skip
_fact("ninety_percent", "standard deviations on either side that hold 90 %", 1.644853627, "1",
      "textbook", "normal distribution")  # fmt: skip
_fact("track_widest", "a track that leaves the PAP open by more says too little", 1.0, "in",
      "assumption", "", 0.5, 1.5)  # fmt: skip
_fact("track_outlier", "a point this many errors off its ring is doubtful", 4.0, "1", "assumption",
      "", 3.0, 5.0)  # fmt: skip
_fact("track_misfit", "scatter that chance brings more rarely is told", 0.01, "1", "assumption",
      "", 0.001, 0.05)  # fmt: skip
_fact("stopwatch_error", "a time stopped by hand is right to within this", 0.1, "s", "assumption",
      "", 0.05, 0.3)  # fmt: skip
_fact("speed_scatter", "shot-to-shot standard deviation of speed", 0.3, "mph", "assumption",
      "", 0.0, 1.0)  # fmt: skip
_fact("rev_rate_scatter", "shot-to-shot standard deviation of rev rate", 12.0, "rpm", "assumption",
      "", 0.0, 40.0)  # fmt: skip
_fact("rotation_scatter", "shot-to-shot standard deviation of axis rotation", 4.0, "deg",
      "assumption", "", 0.0, 15.0)  # fmt: skip
_fact("tilt_scatter", "shot-to-shot standard deviation of axis tilt", 2.0, "deg", "assumption",
      "", 0.0, 8.0)  # fmt: skip
_fact("laydown_scatter", "shot-to-shot standard deviation of the laydown board", 0.5, "board",
      "assumption", "", 0.0, 3.0)  # fmt: skip
_fact("launch_scatter", "shot-to-shot standard deviation of the launch angle", 0.25, "deg",
      "assumption", "", 0.0, 1.5)  # fmt: skip

# Friction
_fact("unit_volume", "one unit of oil on a square foot", 0.0167, "mL/ft2", "memory")
_fact("mu_oil", "friction under a thick film", 0.03, "1", "assumption",
      "0.04 is a recalled modelling value after Frohlich, Am. J. Phys. 72, 1170 (2004)",
      0.02, 0.05)  # fmt: skip
_fact("mu_dry_polyester", "dry friction, polyester cover", 0.12, "1", "assumption", "", 0.10, 0.13)
_fact("mu_dry_urethane", "dry friction, urethane cover", 0.17, "1", "assumption", "", 0.16, 0.18)
_fact("mu_dry_reactive", "dry friction, reactive cover", 0.20, "1", "assumption",
      "0.20 is a recalled modelling value after Frohlich, Am. J. Phys. 72, 1170 (2004)",
      0.18, 0.25)  # fmt: skip
_fact("absorbed_polyester", "oil absorbed a turn, polyester cover", 0.0, "1", "assumption",
      "", 0.0, 0.05)  # fmt: skip
_fact("absorbed_urethane", "oil absorbed a turn, urethane cover", 0.1, "1", "assumption",
      "", 0.0, 0.2)  # fmt: skip
_fact("absorbed_reactive", "oil absorbed a turn, reactive cover", 0.2, "1", "assumption",
      "", 0.1, 0.5)  # fmt: skip
_fact("kept", "share of the contact film that stays on the ball (film splitting)", 0.5, "1",
      "assumption", "", 0.4, 0.6)  # fmt: skip
_fact("track_width", "width of the oil track", 0.4, "in", "assumption", "", 0.25, 0.8)
_fact("film_cap", "most film that a contact takes in", 6.0, "um", "assumption",
      "a guess of the size; no measurement is at hand", 3.0, 6.0)  # fmt: skip
_fact("film_ratio", "film over roughness at which the dry share has fallen to 1/e", 0.45, "1",
      "assumption", "", 0.3, 0.7)  # fmt: skip
_fact("lane_roughness", "Rq of the lane", 0.3, "um", "assumption", "", 0.2, 0.4)
_fact("ra_at_2000", "Ra of a cover finished at 2000 grit", 16.0, "uin", "assumption",
      "", 9.6, 22.4)  # fmt: skip
_fact("anchor_grit", "grit at which the roughness law is anchored", 2000.0, "grit", "assumption")
_fact("ra_exponent", "exponent of Ra in 1/grit", 0.65, "1", "assumption", "", 0.55, 0.75)
_fact("ra_polished", "Ra of a polished cover", 4.0, "uin", "assumption", "", 2.4, 5.6)
_fact("wear_share", "share of the way to its worn finish that a game takes a sanded cover", 0.1,
      "1", "assumption", "that covers wear toward a middle finish is common practice",
      0.03, 0.25)  # fmt: skip
_fact("worn_grit", "finish toward which a sanded cover wears with games", 4000.0, "grit",
      "assumption", "", 3000.0, 5000.0)  # fmt: skip
_fact("rq_over_ra", "Rq / Ra of a Gaussian surface", 1.2533141373155001, "1", "textbook",
      "sqrt(pi/2)")  # fmt: skip
_fact("slip_scale", "slip at which friction is fully developed", 0.02, "m/s", "assumption",
      "a numerical smoothing of Coulomb's law", 0.005, 0.02)  # fmt: skip
_fact("ring_film", "thinnest lane film that leaves a visible ring", 0.05, "um", "assumption",
      "", 0.02, 0.2)  # fmt: skip

# What counts: judgements of ours
_fact("least_slip", "a release with less slip already rolls", 0.1, "m/s", "assumption",
      "five times the slip scale", 0.05, 0.2)  # fmt: skip
_fact("doubtful_angle", "an angle that the mark error moves by more is doubtful", 5.0, "deg",
      "assumption", "", 2.0, 10.0)  # fmt: skip
_fact("least_roll", "smallest difference in roll or length worth a word", 0.5, "ft", "assumption",
      "", 0.25, 1.0)  # fmt: skip
_fact("least_hook", "smallest difference in hook worth a word", 0.5, "board", "assumption",
      "", 0.25, 1.0)  # fmt: skip
_fact("least_flare", "smallest difference in flare worth a word", 0.25, "in", "assumption",
      "", 0.125, 0.5)  # fmt: skip
_fact("roughest_grit", "below this grit the roughness law is carried far beyond its anchor", 360.0,
      "grit", "assumption", "", 180.0, 500.0)  # fmt: skip
_fact("idle_slider", "a slider that moves hook and roll by less over its range hardly matters",
      0.2, "board, ft", "assumption", "", 0.1, 0.5)  # fmt: skip
_fact("oiled_from", "a foot of the lane counts as oiled from this film on", 1.5, "unit",
      "assumption", "", 0.5, 2.0)  # fmt: skip
_fact("reference_film", "film of the reference lane", 1.9213, "um", "assumption",
      "our definition: about 25 mL over 40 ft, spread evenly")  # fmt: skip
