"""The glossary: one name, one sentence, one unit and one sign for each quantity.

Terms of the trade are common practice unless their sentence names a source.
"""

from typing import NamedTuple


class Term(NamedTuple):
    """A quantity or word, what it means, its unit ("" for none), and which way is positive."""

    name: str
    meaning: str
    unit: str = ""
    positive: str = ""


TERMS = (
    Term("asymmetric", "A core whose intermediate differential is more than 5 % of its total "
         "differential (published: USBC glossary)."),
    Term("axis rotation", "Angle of the spin axis to the launch line, seen from above: 0 is end "
         "over end, 90 is side roll.", "deg", "hooking; negative backs up"),
    Term("axis tilt", "Rise of the spin axis over the lane.", "deg", "PAP up"),
    Term("band", "The middle four fifths of what comes out when everything that nobody knows well "
         "is drawn at once over its range."),
    Term("board", "One of 39 strips across the lane, numbered from the bowler's own side.", "board",
         "away from the bowling hand's side"),
    Term("breakpoint", "Outermost board of the path, and its distance.", "board, ft"),
    Term("CG", "Mark on the ball toward which its centre of mass lies."),
    Term("cut to cut", "Span from edge of the thumb hole to edge of a finger's bore.", "in"),
    Term("differential", "Highest minus lowest RG.", "in"),
    Term("drilling angle", "Angle at the pin between the lines to the PAP and to the mass mark.",
         "deg", "toward the thumb"),
    Term("entry angle", "Direction of the ball's centre at the pins; it wobbles by some tenths of "
         "a degree as the ball turns.", "deg", "toward growing boards"),
    Term("flare", "Greatest distance between the spin axes of any two revolutions on oil: the "
         "widest gap between oil rings.", "in"),
    Term("full span", "Span cut to cut plus the wall of the insert.", "in"),
    Term("grit", "How fine a cover is finished: the surface as it is, which a pad's number is not.",
         "grit", "finer"),
    Term("high, light", "Past the pocket toward the middle of the head pin, or short of it."),
    Term("hook potential", "Total hook on the reference lane.", "boards"),
    Term("intermediate differential", "Highest minus intermediate RG (published: the governing "
         "body's convention).", "in"),
    Term("length", "Distance at which half of the release slip has gone.", "ft"),
    Term("lever", "One thing about a setup that can be changed, all else as it is."),
    Term("midline", "Line through the grip centre, square to the grip centreline."),
    Term("PAP", "Positive axis point: the end of the spin axis about which the ball turns "
         "counter-clockwise seen from outside.", "in over, in up"),
    Term("phase", "How far the ball is turned about its axis at release; 0 with the fingers "
         "lowest.", "deg", "the way the ball turns"),
    Term("pin", "Mark of the axis of low RG."),
    Term("pin buffer", "Distance from the pin, square to the VAL.", "in"),
    Term("pin up, pin down", "Pin above or below the line through the finger holes; within a "
         "quarter inch it is beside them."),
    Term("pitch", "How far a hole's axis passes the ball's centre.", "in",
         "forward: bottom toward the palm; lateral: toward the ring-finger side"),
    Term("pocket", "Boards 17 to 18 at 4 to 6 degrees are the best (published: USBC)."),
    Term("PSA", "Mass-bias mark of an asymmetric ball: the axis of high RG."),
    Term("Ra", "Mean height of a surface's roughness about its middle line (textbook).",
         "um or uin"),
    Term("reference lane", "The same oil on every board, about 25 mL over 40 ft, no gutters."),
    Term("rev rate", "Turns of the ball in a minute.", "rpm"),
    Term("RG", "Radius of gyration: root of moment of inertia over mass, about an axis.", "in"),
    Term("roll", "Distance at which a tenth of the release slip is left.", "ft"),
    Term("scatter", "How much a bowler's own shots differ: standard deviations."),
    Term("share", "How much of B minus A one cause brings (Shapley 1953); shares add up."),
    Term("sharpness", "Most turn of the path in any 5 ft; low is smooth.", "deg"),
    Term("slip", "Speed of the ball's contact point over the lane.", "mph"),
    Term("static balance", "Moment about a plane, over kappa times the radius.", "oz",
         "palm (top), ring-finger side (side), fingers (finger)"),
    Term("top weight", "Static balance of the undrilled ball.", "oz", "toward the CG mark"),
    Term("total hook", "Boards between where the ball crosses 60 ft and where the launch line "
         "would.", "boards", "away from the bowling hand's side"),
    Term("track", "Where the ball touches the lane; each revolution leaves an oil ring."),
    Term("uniform ball", "A ball of the same size with its mass spread evenly: RG is R sqrt(2/5) "
         "for every axis (textbook).", "in"),
    Term("unit of oil", "0.0167 mL on a square foot (memory): a film of 0.18 micrometres.",
         "unit"),
    Term("VAL", "Vertical axis line: straight up and down through the PAP, square to the midline "
         "direction there."),
    Term("VAL angle", "Angle at the PAP between the VAL, upward, and the line to the pin.", "deg",
         "toward the grip"),
)  # fmt: skip
