"""Words for a comparison, composed from the computed differences, their causes and their ranges."""

from dataclasses import dataclass

from workbook.certainty import Range
from workbook.comparison import Comparison
from workbook.tables import shown


@dataclass(frozen=True)
class Claim:
    """How one quantity is put in words.

    Parameters
    ----------
    key : str
        Quantity of `Shot`.
    more, less : str
        What B does when its value is greater, or smaller.
    unit : str
        Unit in words, plural.
    least : float
        Smallest difference worth a word on the lane [unit]: a judgement of ours (assumption).
    digits : int
        Decimals shown.
    """

    key: str
    more: str
    less: str
    unit: str
    least: float
    digits: int


CLAIMS = (
    Claim("roll_ft", "rolls later", "rolls earlier", "ft", 0.5, 1),
    Claim("length_ft", "skids longer", "skids shorter", "ft", 0.5, 1),
    Claim("total_hook_boards", "hooks more", "hooks less", "boards", 0.5, 1),
    Claim("flare_in", "flares more", "flares less", "in", 0.25, 1),
)


def compare_sentence(c: Comparison, ranges: dict[str, Range]) -> str:
    """What B does against A, how sure that is, and what causes it.

    `ranges` are those of `certainty.difference_ranges`; an empty one (not worked out yet) leaves
    the differences without their bands.
    """
    ends = _ends(c)
    if ends:
        return ends
    differences = {claim: _difference(c, claim.key) for claim in CLAIMS}
    claims = [claim for claim, value in differences.items() if value is not None]
    if any(claim.key == "roll_ft" for claim in claims):
        claims = [claim for claim in claims if claim.key != "length_ft"]
    said = [_said(claim, differences[claim] or 0.0, ranges.get(claim.key)) for claim in claims]
    told = [text for text in said if text]
    alike = [claim for claim, text in zip(claims, said, strict=True) if not text]
    parts = []
    if told:
        parts.append(f"B {_listed(told)} than A.")
    if alike:
        names = _listed([_noun(claim) for claim in alike])
        parts.append(f"In {names} the two are alike.")
    parts += _verdict(claims, differences, ranges) + _cause(c)
    return " ".join(parts)


def _ends(c: Comparison) -> str:
    """What there is to say when a ball does not reach the pins; "" when both do."""
    lost = [
        f"{label} goes into the gutter at {shot.gutter_ft:.0f} ft"
        for label, shot in (("A", c.shot_a), ("B", c.shot_b))
        if shot.gutter_ft is not None
    ]
    if not lost:
        return ""
    return f"{_listed(lost)}, so there is no difference at the pins to tell; choose another line."


def _difference(c: Comparison, key: str) -> float | None:
    a, b = getattr(c.shot_a, key), getattr(c.shot_b, key)
    return None if a is None or b is None else b - a


def _said(claim: Claim, difference: float, band: Range | None) -> str:
    size = shown(abs(difference), claim.digits)
    if float(size) == 0.0:
        return ""
    verb, way = (claim.more if difference > 0 else claim.less).split(" ")
    text = f"{verb} {size} {claim.unit} {way}"
    if band is None:
        return text
    low, high = (shown(value, claim.digits, sign=True) for value in (band.low, band.high))
    return f"{text} ({low} to {high})"


def _noun(claim: Claim) -> str:
    return {"roll_ft": "roll", "length_ft": "length", "total_hook_boards": "hook",
            "flare_in": "flare"}[claim.key]  # fmt: skip


def _verdict(
    claims: list[Claim], differences: dict[Claim, float | None], ranges: dict[str, Range]
) -> list[str]:
    """Say what is too small to matter, and what the assumptions leave open."""
    on_lane = [claim for claim in claims if claim.key != "flare_in"]
    small = [claim for claim in on_lane if abs(differences[claim] or 0.0) < claim.least]
    parts = []
    if small and len(small) == len(on_lane):
        limits = _listed([f"{claim.least:g} {claim.unit}" for claim in small])
        parts.append(f"On the lane that is too small to matter: less than {limits}.")
    open_ones = [
        _noun(claim) for claim in on_lane
        if claim.key in ranges and not ranges[claim.key].decided
        and float(shown(abs(differences[claim] or 0.0), claim.digits)) > 0
    ]  # fmt: skip
    if open_ones:
        parts.append(
            f"What we assume could turn the difference in {_listed(open_ones)} round: undecided."
        )
    return parts


def _cause(c: Comparison) -> list[str]:
    """The cause that brings most of the difference in hook, else of that in roll."""
    for key, noun in (("total_hook_boards", "hook"), ("roll_ft", "roll")):
        shares = c.shares.get(key, {})
        whole = sum(abs(share) for share in shares.values())
        if whole >= 0.05:
            cause, most = max(shares.items(), key=lambda item: abs(item[1]))
            if abs(most) > 0.9 * whole:
                return [f"The difference in {noun} comes from {_the(cause)}."]
            if abs(most) > 0.6 * whole:
                return [f"Most of the difference in {noun} comes from {_the(cause)}."]
            ordered = sorted(shares, key=lambda name: -abs(shares[name]))[:2]
            return [f"The difference in {noun} comes from {_listed([_the(o) for o in ordered])}."]
    return []


def _the(cause: str) -> str:
    return cause if cause in ("RG", "flare", "static balance") else f"the {cause}"


def _listed(words: list[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]
