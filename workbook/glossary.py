"""The glossary: one name, one sentence, one unit and one sign for each quantity.

Terms of the trade are common practice unless their sentence names a source.
"""

import re
from functools import cache
from typing import NamedTuple


class Term(NamedTuple):
    """A quantity or word, what it means, its unit ("" for none), and which way is positive.

    `also` holds other ways to write it.
    """

    name: str
    meaning: str
    unit: str = ""
    positive: str = ""
    also: tuple[str, ...] = ()


TERMS = (
    Term("abrasive",
         "Paper, cloth or pad with grains that cut the cover: its number says how fine "
         "the grains are, not how fine the cover gets.", also=("abrasives",)),
    Term("arrow board",
         "Board that the launch line crosses at the arrows, 12 to 16 ft from the foul line.",
         "board", "away from the bowling hand's side", also=("arrows", "board at the arrows")),
    Term("asymmetric", "A core whose intermediate differential is more than 5 % of its total "
         "differential (published: USBC glossary)."),
    Term("axis migration",
         "How the spin axis moves through the ball while the ball turns: it spreads the "
         "oil rings, which is flare."),
    Term("axis rotation",
         "Angle of the spin axis to the launch line, seen from above: 0 is end over end, "
         "90 is side roll.", "deg", "hooking; negative backs up"),
    Term("axis tilt", "Rise of the spin axis over the lane.", "deg", "PAP up"),
    Term("balance hole",
         "A hole that is not for gripping; not allowed since 1 Aug 2020 (published: USBC)."),
    Term("ball speed",
         "Speed of the ball's centre at release; a clock over the lane gives a mean, "
         "which is less.", "mph", also=("speed",)),
    Term("ball weight", "Weight of the ball, legal up to 16 lb (published: USBC).", "lb",
         also=("weight",)),
    Term("band", "The middle four fifths of what comes out when everything that nobody knows "
         "well is drawn at once over its range.", also=("bands",)),
    Term("board", "One of 39 strips across the lane, numbered from the bowler's own side.",
         "board", "away from the bowling hand's side", also=("boards",)),
    Term("bore", "Hole as it is drilled; an insert or a slug makes it narrower.", "in",
         also=("bores",)),
    Term("breakpoint", "Outermost board of the path, and its distance.", "board, ft"),
    Term("bridge", "Width of the ball between the two finger holes, from edge to edge.", "in"),
    Term("carried oil",
         "Film that the ball keeps on its track and brings back to the lane a turn later.",
         "µm", also=("oil carried",)),
    Term("centreline",
         "Line over the ball through the middles of thumb hole and fingers, square to the "
         "midline.", also=("grip centreline", "grip line")),
    Term("CG", "Mark on the ball toward which its centre of mass lies."),
    Term("circumference",
         "Once round the ball over its surface; half of it lies between the two ends of "
         "an axis.", "in"),
    Term("core", "Dense body inside the ball, whose shape and place set its RGs."),
    Term("cover", "Outer shell of the ball, of polyester, urethane or reactive: it sets the "
         "friction and how the ball takes up oil.", also=("covers",)),
    Term("cut to cut", "Span from edge of the thumb hole to edge of a finger's bore.", "in"),
    Term("differential", "Highest minus lowest RG: it makes the ball flare.", "in"),
    Term("drilling angle", "Angle at the pin between the lines to the PAP and to the mass mark.",
         "deg", "toward the thumb"),
    Term("entry angle",
         "Direction of the ball's centre at the pins; it wobbles by some tenths of a "
         "degree as the ball turns.", "deg", "toward growing boards"),
    Term("finger weight",
         "Static balance toward the fingers; thumb weight is the same the other way.", "oz",
         "toward the fingers", also=("thumb weight",)),
    Term("first ring",
         "Oil ring of the ball's first turn on the lane: the one from which PAP and tilt are "
         "measured."),
    Term("flare", "Greatest distance between the spin axes of any two revolutions on oil: the "
         "widest gap between oil rings.", "in"),
    Term("friction",
         "Pull of the lane on the sliding ball, over the load: it slows the ball down "
         "and turns it."),
    Term("full span", "Span cut to cut plus the wall of the insert.", "in"),
    Term("grip centre",
         "Point on the centreline through thumb and fingers, half-way between the cuts; "
         "without a thumb hole an agreed place."),
    Term("grit", "How fine a cover is finished: the surface as it is, which a pad's number is "
         "not.", "grit", "finer", also=("sanded to",)),
    Term("high, light", "Past the pocket toward the middle of the head pin, or short of it.",
         also=("high", "light")),
    Term("hook", "The second phase, in which the path bends most: from half of the release slip "
         "gone until a tenth is left (our definition)."),
    Term("hook potential", "Total hook on the reference lane.", "boards"),
    Term("house lane", "Our invented usual condition: oil to 40 ft, thick in the middle and thin "
         "at the sides."),
    Term("insert", "Plastic tube glued into a wider bore, which leaves a finger hole that fits.",
         "in", also=("inserts", "finger inserts")),
    Term("intermediate differential",
         "Highest minus intermediate RG (published: the governing body's convention).", "in",
         also=("intermediate",)),
    Term("kappa",
         "What an ounce of static balance stands for: the moment over the radius, taken "
         "kappa times (assumption)."),
    Term("laydown board", "Board on which the ball is set down at the foul line.", "board",
         "away from the bowling hand's side"),
    Term("length", "Distance at which half of the release slip has gone (our definition).", "ft"),
    Term("lever", "One thing about a setup that can be changed, all else as it is."),
    Term("mean speed",
         "Distance over time, as a clock gives it: less than the speed at release.", "mph"),
    Term("midline", "Line through the grip centre, square to the grip centreline."),
    Term("oil film", "Thickness of the oil on the lane, or between ball and lane.", "µm",
         also=("film",)),
    Term("oil pattern", "How thick the oil lies where on the lane.", also=("pattern",)),
    Term("oil ring", "Line of oil that one revolution leaves on the ball; flare is how far the "
         "rings lie apart.", also=("oil rings", "rings", "ring of oil")),
    Term("over", "Distance along the midline from the grip centre.", "in",
         "toward the bowler's own ring finger"),
    Term("PAP", "Positive axis point: the end of the spin axis about which the ball turns "
         "counter-clockwise seen from outside.", "in over, in up"),
    Term("phase", "How far the ball is turned about its axis at release; 0 with the fingers "
         "lowest.", "deg", "the way the ball turns"),
    Term("pin", "Mark of the axis of low RG."),
    Term("pin buffer", "Distance from the pin, square to the VAL.", "in"),
    Term("pin up, pin down",
         "Pin above or below the line through the finger holes; within a quarter inch it "
         "is beside them.", also=("pin up", "pin down")),
    Term("pin-to-CG", "Distance over the surface from the pin to the CG mark.", "in",
         also=("pin to CG",)),
    Term("pin-to-PAP", "Distance over the surface from the pin to the PAP.", "in",
         also=("pin to PAP",)),
    Term("pitch", "How far a hole's axis passes the ball's centre.", "in",
         "forward: bottom toward the palm; lateral: toward the ring-finger side"),
    Term("pocket", "Boards 17 to 18 at 4 to 6 degrees are the best (published: USBC)."),
    Term("polished", "Smoothed with polish: in the model finer than any grit (assumption).",
         also=("polish",)),
    Term("PSA", "Mass-bias mark of an asymmetric ball: the axis of high RG.",
         also=("mass bias", "mass mark")),
    Term("Ra", "Mean height of a surface's roughness about its middle line (textbook).",
         "µm or µin"),
    Term("reference lane", "The same oil on every board, about 25 mL over 40 ft, no gutters."),
    Term("rev rate", "Turns of the ball in a minute.", "rpm", also=("revs",)),
    Term("RG", "Radius of gyration: root of moment of inertia over mass, about an axis.", "in"),
    Term("roll", "The last phase, and the distance at which it begins: a tenth of the release "
         "slip is left (our definition).", "ft"),
    Term("scatter", "How much a bowler's own shots differ: standard deviations."),
    Term("share", "How much of B minus A one cause brings (Shapley 1953); shares add up."),
    Term("sharpness", "Most turn of the path in any 5 ft; low is smooth.", "deg"),
    Term("side weight", "Static balance to the side of the centreline.", "oz",
         "toward the ring-finger side"),
    Term("skid", "The first phase: the ball slides until half of the release slip has gone (our "
         "definition)."),
    Term("slip", "Speed of the ball's contact point over the lane.", "mph"),
    Term("slug", "Plastic plug glued into a wider bore, in which the thumb hole is drilled.",
         also=("thumb slug",)),
    Term("span", "Distance over the surface from the thumb hole to a finger hole, cut to cut "
         "unless full span is said.", "in"),
    Term("static balance",
         "Moment of the ball's weight about a plane through its centre, over kappa times "
         "the radius.", "oz", "palm (top), ring-finger side (side), fingers (finger)"),
    Term("surface", "How rough the cover is now: sanded to a grit, or polished."),
    Term("symmetric", "A core that is not asymmetric: its layout is marked from pin and CG."),
    Term("top weight", "Static balance of the undrilled ball.", "oz", "toward the CG mark"),
    Term("total hook",
         "Boards between where the ball crosses 60 ft and where the launch line would.",
         "boards", "away from the bowling hand's side"),
    Term("track", "Where the ball touches the lane; each revolution leaves an oil ring."),
    Term("uniform ball",
         "A ball of the same size with its mass spread evenly: RG is R sqrt(2/5) for "
         "every axis (textbook).", "in"),
    Term("unit of oil", "0.0167 mL on a square foot (memory): a film of 0.18 micrometres.",
         "unit"),
    Term("up", "Distance from the midline, square to it.", "in", "toward the fingers"),
    Term("usual grip",
         "Sizes and depths of holes, inserts and slug that the workbook takes unless others are "
         "given (memory)."),
    Term("VAL", "Vertical axis line: straight up and down through the PAP, square to the "
         "midline direction there."),
    Term("VAL angle", "Angle at the PAP between the VAL, upward, and the line to the pin.",
         "deg", "toward the grip"),
    Term("wear",
         "What games do to a sanded cover: a dull one gets finer, a fine one gets duller "
         "(common practice; how fast is an assumption).", "game"),
)  # fmt: skip


def matching(text: str) -> tuple[Term, ...]:
    """Return the terms that hold every word of `text`, in name, other names or meaning."""
    words = text.casefold().split()
    return tuple(
        term
        for term in TERMS
        if all(word in " ".join((term.name, *term.also, term.meaning)).casefold() for word in words)
    )


def term_in(words: str) -> Term | None:
    """Return the term that stands in some words, such as those on a slider: the longest one."""
    found = [(len(name), term) for name, term in _names() if _stands(name, words)]
    return max(found, key=lambda one: one[0])[1] if found else None


@cache
def _names() -> tuple[tuple[str, Term], ...]:
    return tuple((name, term) for term in TERMS for name in (term.name, *term.also))


def _stands(name: str, words: str) -> bool:
    return bool(re.search(rf"(?<![\w-]){re.escape(name)}(?![\w-])", words, re.IGNORECASE))
