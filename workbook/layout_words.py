"""What a layout makes of a ball, in a sentence and in notes."""

from workbook import sources
from workbook.certainty import Range
from workbook.clearance import bores_that_meet
from workbook.hole_shares import HoleEffects
from workbook.layout_tables import ring_words
from workbook.notes import ball_notes
from workbook.rolling import Shot
from workbook.setup import Setup
from workbook.tables import shown


def layout_sentence(
    setup: Setup, effects: HoleEffects, shot: Shot, bands: dict[str, Range] | None = None
) -> str:
    """Where the pin is, what drilling does to the differential and through which hole, the flare.

    Parameters
    ----------
    shot : Shot
        On the reference lane.
    bands : dict, optional
        Of `drilled_bands`, for how sure the flare is.
    """
    flare = bands.get("flare_in") if bands else None
    could = f" ({shown(flare.low, 1)} to {shown(flare.high, 1)})" if flare else ""
    over, up = setup.drilled.marks.pin_in
    side = "over" if over >= 0 else "toward the middle finger"
    where = "beside the fingers" if setup.drilled.pin_side == "beside" else setup.drilled.pin_side
    parts = [
        f"Pin {where}: {shown(abs(over), 2)} in {side}, {shown(abs(up), 2)} in "
        f"{'up' if up >= 0 else 'down'} from the grip centre.",
        _differential(effects),
        _psa(setup, effects),
        f"On the reference lane it flares {shown(shot.flare_in, 1)} in{could}.",
    ]
    return " ".join(part for part in parts if part)


def _differential(effects: HoleEffects) -> str:
    if not effects.holes:
        return "Without holes it keeps what its spec sheet says."
    before, after = (shown(held["differential_in"], 3) for held in (effects.before, effects.after))
    taken = shown(effects.before["weight_oz"] - effects.after["weight_oz"], 1)
    if after == before:
        change = f"leaves the differential at {after} in"
    else:
        way = "raises" if float(after) > float(before) else "lowers"
        change = f"{way} the differential from {before} to {after} in"
    shares = effects.shares["differential_in"]
    most = max(range(len(shares)), key=lambda i: abs(shares[i]))
    hole = effects.holes[most]
    return (
        f"Drilling takes {taken} oz and {change}; the {hole} hole does most to it "
        f"({shown(shares[most], 3, sign=True)} in)."
    )


def _psa(setup: Setup, effects: HoleEffects) -> str:
    if "psa_moved_deg" not in effects.after or not effects.holes:
        return ""
    moved = effects.after["psa_moved_deg"]
    return f"The PSA ends {shown(moved, 0)} degrees from its mark."


def layout_notes(setup: Setup, shot: Shot) -> list[str]:
    """Rules, marks in holes, rings over holes, doubts about the way back from distances."""
    said = ball_notes(setup)
    ring = ring_words(setup, shot)
    said += [ring] if ring else []
    said += [
        f"The bores of the {one} and {other} hole meet {shown(depth, 1)} in below the surface; "
        "what they share is cut twice here."
        for one, other, depth in bores_that_meet(setup)
    ]
    if setup.grip.holes and not setup.grip.has_thumb:
        said.append(
            "Without a thumb hole the grip centre is where it would be with one, half a span below "
            "the finger holes (common practice, no source)."
        )
    if setup.layout.pin_to_pap_in == 0.0:
        return [*said, "The pin is on the PAP: the two angles only say where the mass mark goes."]
    around = setup.ball.circumference_in
    doubts = setup.layout.distances(around).doubts(around)
    return [*said, *(f"From distances back to angles: {doubt}" for doubt in doubts)]


def static_words(setup: Setup, bands: dict[str, Range] | None = None) -> str:
    """Static balance against the rule, and where the scale's own way of reading could pass it."""
    limit, source = sources.value("static_max"), sources.FACTS["static_max"].source
    if setup.ball.weight_lb <= sources.value("static_max_above"):
        return (
            f"The {limit:g} oz rule is for balls over {sources.value('static_max_above'):g} lb; "
            "lighter ones have their own: see the current rules."
        )
    names = {"top_oz": "top", "side_oz": "side", "finger_oz": "finger"}
    now = dict(zip(names, setup.drilled.static_balance_oz, strict=True))
    key = max(now, key=lambda name: abs(now[name]))
    said = f"Static balance: most is {names[key]} weight, {shown(now[key], 2, sign=True)} oz"
    said += (
        f", {'above' if abs(now[key]) > limit else 'within'} the rule's {limit:g} oz ({source})."
    )
    could = [
        names[name] for name in names
        if bands and abs(now[name]) <= limit
        and max(abs(bands[name].low), abs(bands[name].high)) > limit
    ]  # fmt: skip
    if could:
        said += f" But {' and '.join(could)} weight could pass it: weigh the ball."
    return said
