"""What is said about surfaces: equal grits, wear, cautions; and the code that reproduces them."""

from workbook import sources
from workbook.abrasives import abrasive_series
from workbook.as_code import call
from workbook.equal_grit import EqualGrit
from workbook.equal_grit_band import GritBand
from workbook.line import Line
from workbook.setup import Setup
from workbook.surface import Surface
from workbook.tables import shown
from workbook.wear import WearWorth, Worn

READ = {
    "length_ft": ("length", "the reference lane"),
    "breakpoint_ft": ("breakpoint", "the house lane"),
}
WHY_IT_LEAPS = {
    "length_ft": "its slip stops falling for a stretch just where half of it is left",
    "breakpoint_ft": "two places of its path lie equally far out",
}
LABELS = (
    "The published series ends at P2500 in the edition that we quote from memory; newer ones may "
    "reach farther (memory). 3000 to 5000 are makers' labels: no grain is published for them here, "
    "and one maker's 3000 need not be another's. Ra is that of a cover by our law, with a range of "
    "40 % either way."
)
DUST = (
    "Sanding dust and a spinning ball can hurt: sand wet, with eye protection, dust extraction and "
    "a fitted respirator; guard the spinner and clamp what can move, no gloves or loose sleeves at "
    "it, hands clear until the ball lies still. Follow local codes and a qualified operator's "
    "practice."
)
RULES = (
    "When and with what a surface may be changed in a competition is for its current rules: ask "
    "before you sand between games."
)


def finish_words(setup: Setup) -> str:
    """A setup's surface, the grit as a whole number."""
    grit = setup.surface.grit
    return "polished" if grit is None else f"{grit_words(grit)} grit"


def grit_words(grit: float) -> str:
    """A grit that was worked out, without digits that nobody can sand."""
    return f"{round(grit, -1):.0f}"


def equal_sentence(a: Setup, found: EqualGrit, band: GritBand | None = None) -> str:
    """Which grit makes B read where A does, and how sure that is; or why none does."""
    words, lane = READ[found.quantity]
    of_a = f"A ({a.name}, {finish_words(a)})"
    if found.grit is not None:
        return (
            f"B at {grit_words(found.grit)} grit reads where {of_a} does: {words} "
            f"{found.wanted_ft:.1f} ft on {lane}.{_band_words(band)}{_own_words(found)} "
            f"{_others(found)}{_nearest(found.grit)}"
        )
    where = f"{of_a} reads {words} {found.wanted_ft:.1f} ft on {lane}."
    if found.leap is not None:
        leap, why = found.leap, WHY_IT_LEAPS[found.quantity]
        return (
            f"{where} No grit puts B just there: at {grit_words(leap.grit)} grit it leaps from "
            f"{leap.below_ft:.1f} to {leap.above_ft:.1f} ft, because {why}."
        )
    if found.least_ft is None or found.most_ft is None:
        return f"{where} B has none at any grit."
    polish = "" if found.polished_ft is None else f", polished {found.polished_ft:.1f} ft"
    return (
        f"{where} No grit from 180 to 5000 brings B there: it goes from {found.least_ft:.1f} to "
        f"{found.most_ft:.1f} ft{polish}. {_what_then(found)}"
    )


def _own_words(found: EqualGrit) -> str:
    return "" if found.own_ft is None else f" As it is, B reads {found.own_ft:.1f} ft."


def _others(found: EqualGrit) -> str:
    """More grits that do it; rarely any."""
    if not found.others:
        return ""
    return f"So does {', '.join(grit_words(grit) for grit in found.others)} grit. "


def _band_words(band: GritBand | None) -> str:
    """What it could be, the open ends said."""
    if band is None:
        return ""
    if band.low is None and band.high is None:
        return " What nobody knows well leaves any grit open."
    low = "something rougher than 180" if band.low is None else grit_words(band.low)
    high = "something finer than 5000" if band.high is None else grit_words(band.high)
    return f" In four of five tries it lies between {low} and {high} grit."


def _nearest(grit: float) -> str:
    """The abrasives on both sides of a grit."""
    below = [one for one in abrasive_series() if one.grit <= grit]
    above = [one for one in abrasive_series() if one.grit >= grit]
    names = list(dict.fromkeys(one.name for one in (*below[-1:], *above[:1])))
    return f"Nearest in the table: {' and '.join(names)}."


def _what_then(found: EqualGrit) -> str:
    assert found.most_ft is not None
    if found.most_ft >= found.wanted_ft:
        return "B would have to be rougher still: another ball or cover, not sanding."
    if found.polished_ft is not None and found.polished_ft >= found.wanted_ft:
        return "Between 5000 grit and polish it would: finer than a grit can say."
    return "Even polished B is earlier: another ball, cover or layout, not sanding."


def wear_sentence(label: str, worth: WearWorth) -> str:
    """What games did to a sanded surface, and what that is worth."""
    worn = worth.worn
    if worn.fresh.grit is None:
        return f"{label}: polished; how fast polish goes, no source at hand says, so it stays here."
    games = f"{worn.games:g} game{'s' * (worn.games != 1)}"
    length = "" if worth.length_ft is None else f"length {_change(worth.length_ft, 'ft')}, "
    return (
        f"{label}: after {games} its {worn.fresh.grit:g} grit is as rough as "
        f"{_worn_words(worn)} (assumption); on the reference lane that is worth {length}hook "
        f"{_change(worth.hook_boards, 'boards')}."
    )


def _worn_words(worn: Worn) -> str:
    now, low, high = (
        grit_words(one.grit or 0.0) for one in (worn.surface, worn.roughest, worn.finest)
    )
    return f"{now}, over our ranges {low} to {high}"


def _change(change: tuple[float, float, float], unit: str) -> str:
    now, low, high = (shown(each, 1, sign=True) for each in change)
    return f"{now} {unit} ({low} to {high})"


def surface_notes(a: Setup, b: Setup) -> list[str]:
    """What to mind of surfaces: labels, pads, doubtful grits, cautions."""
    rough = sources.value("roughest_grit")
    said = [
        f"{label}: {grit_words(one.surface.grit)} grit is rougher than the friction assumptions "
        f"were made for ({rough:g} and finer): doubtful."
        for label, one in (("A", a), ("B", b))
        if one.surface.grit is not None and one.surface.grit < rough
    ]
    return [
        *said,
        "A pad's number is not the surface's number: a 3000-grit surface rubbed by hand with a 500 "
        "pad then read 1651 (memory: a USBC experiment). Grit here means the surface as it is.",
        "Grit to roughness, roughness to friction, and cover to friction are assumptions of ours "
        "with ranges; the bands show what the ranges leave.",
        DUST,
        RULES,
    ]


def equal_code(
    a: Setup, b: Setup, quantity: str, line: Line, games: float, fresh: tuple[Surface, Surface]
) -> str:
    """Front-door lines that give the same answer; `fresh` are the surfaces as sanded."""
    thumb = "" if a.grip.has_thumb else "thumb=False"
    covers = [f"ball_a = {call(a.ball)}", f"ball_b = {call(b.ball)}"]
    setups = []
    for label, one, sanded in zip("ab", (a, b), fresh, strict=True):
        surface = call(sanded)
        if games and sanded.grit is not None:
            surface = f"wb.worn({surface}, {games:g}).surface"
        setups.append(
            f"{label} = wb.Setup(bowler, ball_{label}, {call(one.layout)}, grip, {surface}, "
            f"{one.name!r})"
        )
    where = "" if quantity == "length_ft" else f", wb.Lane.house(), {call(line)}"
    return "\n".join([
        "import workbook as wb",
        f"bowler = {call(a.bowler)}",
        *covers,
        f"grip = wb.Grip.usual({thumb})",
        *setups,
        f"print(wb.match_grit(a, b, {quantity!r}{where}).grit)",
    ])  # fmt: skip
