"""What a spec sheet says about a ball, in a sentence, in notes and as code."""

from workbook import sources
from workbook.as_code import call
from workbook.ball import Ball
from workbook.ball_reading import MORE_RG_IN, BallReading
from workbook.certainty import Range
from workbook.notes import ball_notes
from workbook.tables import shown

Bands = tuple[Range, Range]  # of the flare, pin up and pin down
SAME = 0.0005  # of figures that are shown to a thousandth [in]


def ball_sentence(reading: BallReading, name: str, flare: Bands | None = None) -> str:
    """Which kind of core it is, how it stands to a uniform ball, and what drilling makes of it."""
    up, down = reading.pin_up.drilled, reading.pin_down.drilled
    band = f" ({flare[0].low:.1f} to {flare[0].high:.1f})" if flare else ""
    return (
        f"{name[0].upper()}{name[1:]}: {kind_words(reading)}. {_against_uniform(reading)} "
        f"Drilled, its {shown(reading.ball.differential_in, 3)} in of differential become "
        f"{shown(up.differential_in, 3)} pin up and {shown(down.differential_in, 3)} pin down; pin "
        f"up at {reading.pin_up.layout.pin_to_pap_in:g} in it flares "
        f"{shown(reading.flare_up_in, 1)} in{band}."
    )


def kind_words(reading: BallReading) -> str:
    """Symmetric or asymmetric by the governing body's rule, and the share that decides."""
    share, line = reading.intermediate_share, 100 * sources.value("asymmetric_share")
    if share is None:
        return "a core without differential, its RG is the same about every axis"
    kind = "an asymmetric" if reading.ball.asymmetric else "a symmetric"
    if share == 0.0:
        return f"{kind} core, without intermediate differential"
    return (
        f"{kind} core, its intermediate is {percent(share)} of the total ({line:g} % is the line)"
    )


def percent(share: float) -> str:
    """A share as whole percent; with a decimal where that is needed to tell it from the line."""
    near = abs(share - sources.value("asymmetric_share")) < 0.02
    return f"{shown(100 * share, 1 if near else 0)} %"


def _against_uniform(reading: BallReading) -> str:
    low, _, high = reading.percent_of_uniform
    ends = [shown(end, 1) for end in (low, high)]
    span = ends[0] if ends[0] == ends[1] else " to ".join(ends)
    text = f"Its RGs are {span} % of a uniform ball's ({shown(reading.uniform_rg_in, 3)} in)"
    if float(ends[1]) < 100.0:
        return f"{text}: the mass lies nearer the centre than if it were spread evenly."
    if float(ends[0]) > 100.0:
        return f"{text}: the mass lies farther out than if it were spread evenly."
    return f"{text}: its mass lies nearly as if it were spread evenly."


def ball_reading_notes(reading: BallReading) -> list[str]:
    """Limits, what is doubtful, what RG does, and what a spec sheet does not say."""
    mind = [*ball_notes(reading.pin_up), *ball_notes(reading.pin_down)]
    return [
        *dict.fromkeys(mind),
        *_doubt(reading),
        *_drilled_kind(reading),
        *_moved_axis(reading),
        _rg_words(reading),
        _limits(),
        "How exact a printed RG or differential is: no source at hand. One USBC paper (Ridenour, "
        "CG placement on a symmetrical ball) found the RG figures of made balls about 3 % off the "
        "drawings.",
    ]


def _doubt(reading: BallReading) -> list[str]:
    ends = reading.share_ends
    if not reading.rule_in_doubt or ends is None:
        return []
    low, high = (shown(100 * end, 1) for end in ends)
    return [
        f"If the sheet rounds to {2 * sources.value('spec_rounding'):g} in (assumption), the share "
        f"could be anything from {low} to {high} %: this sheet alone does not decide the kind of "
        "core. On the lane nothing jumps at that line."
    ]


def _drilled_kind(reading: BallReading) -> list[str]:
    """The holes give a symmetric ball an intermediate differential of its own."""
    ball = reading.ball
    made = [setup.drilled.intermediate_in for setup in (reading.pin_up, reading.pin_down)]
    if ball.asymmetric or min(made) < ball.intermediate_in + SAME:
        return []
    up, down = (shown(one, 3) for one in made)
    return [
        f"After drilling its intermediate is {up} in pin up and {down} in pin down: the holes "
        "alone make three different RGs of a symmetric ball. The rule means the ball as made."
    ]


def _moved_axis(reading: BallReading) -> list[str]:
    """Say so where the holes turn the low-RG axis farther than the pin mark itself may be off."""
    allowed = sources.value("pin_mark")
    arc_in = reading.ball.circumference_in / 360.0
    moved = {
        setup.name: setup.drilled.low_axis_moved_deg * arc_in
        for setup in (reading.pin_up, reading.pin_down)
    }
    far = [f"{shown(off, 1)} in {name}" for name, off in moved.items() if off > allowed]
    if not far or not reading.ball.differential_in:
        return []
    return [
        f"After drilling the low-RG axis comes out {' and '.join(far)} off the pin; on a new ball "
        f"it lies within {allowed:g} in ({sources.FACTS['pin_mark'].source}). On a ball of so "
        "little differential the holes count for more than the core."
    ]


def _rg_words(reading: BallReading) -> str:
    change, least = reading.higher_rg, sources.value("least_roll")
    parts = [_more(change.hook_boards, "hook", "boards", "more", "less")]
    small = abs(change.hook_boards) < sources.value("least_hook")
    if change.length_ft is not None:
        parts.insert(0, _more(change.length_ft, "skid", "ft", "longer", "shorter"))
        small = small and abs(change.length_ft) < least
    return (
        f"RG: with every RG {MORE_RG_IN:g} in higher, the same speed and the same revs, the pin-up "
        f"ball would {' and '.join(parts)} on the reference lane"
        f"{' (too small to matter)' if small else ''}. The arm may not give the same revs: the "
        "same effort turns a ball of higher RG more slowly."
    )


def _more(change: float, verb: str, unit: str, more: str, less: str) -> str:
    size = shown(abs(change), 1)
    if float(size) == 0.0:
        return f"{verb} alike"
    return f"{verb} {size} {unit} {more if change > 0 else less}"


def _limits() -> str:
    least, most, differential = (
        sources.FACTS[key] for key in ("rg_min", "rg_max", "differential_max")
    )
    return (
        f"Legal limits, as we know them: RG at least {least.value:.3f} in ({least.source}) and at "
        f"most {most.value:.3f} in ({most.source}); differential at most {differential.value:.3f} "
        f"in ({differential.source}). They hold for the ball before drilling (memory); check the "
        "current rules."
    )


def ball_code(reading: BallReading) -> str:
    """Front-door lines that give the same reading."""
    up = reading.pin_up
    thumb = "" if up.grip.has_thumb else "thumb=False"
    return "\n".join(
        [
            "import workbook as wb",
            f"ball = {call(up.ball)}",
            f"bowler = {call(up.bowler)}",
            f"r = wb.read_ball(ball, bowler, wb.Grip.usual({thumb}), {call(up.surface)})",
            "r.intermediate_share, r.percent_of_uniform, r.pin_up.drilled.differential_in",
            "r.flare_up_in, r.least_flare, r.greatest_flare, r.higher_rg",
        ]
    )


def hidden_words(ball: Ball) -> list[str]:
    """What a file can bring of a ball that the panel's controls do not show."""
    found = []
    for name in ("circumference_in", "filler_density_g_cm3"):
        f = Ball.__dataclass_fields__[name]
        value = getattr(ball, name)
        if value != f.default:
            found.append(f"{f.metadata['words']} {value:g} {f.metadata['unit']}")
    return [f"From the file, and not shown by a control: {', '.join(found)}."] if found else []
