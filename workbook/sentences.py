"""Words for a comparison, composed from the computed differences, their causes and their bands."""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from workbook.certainty import Range
from workbook.comparison import Comparison
from workbook.rolling import roll_many
from workbook.staging import rings_over_holes
from workbook.tables import shown


@dataclass(frozen=True)
class Claim:
    """How one quantity is put in words.

    Parameters
    ----------
    key, noun : str
        Quantity of `Shot`, and what it is called.
    verb, more, less : str
        What B does, and the words for a greater and a smaller value.
    unit : str
        Unit in words, plural.
    least : float
        Smallest difference worth a word on the lane [unit]; a judgement of ours (assumption).
    """

    key: str
    noun: str
    verb: str
    more: str
    less: str
    unit: str
    least: float


CLAIMS = (
    Claim("roll_ft", "roll", "rolls", "later", "earlier", "ft", 0.5),
    Claim("length_ft", "length", "skids", "longer", "shorter", "ft", 0.5),
    Claim("total_hook_boards", "hook", "hooks", "more", "less", "boards", 0.5),
    Claim("flare_in", "flare", "flares", "more", "less", "in", 0.25),
)
BACKS_UP = Claim("total_hook_boards", "hook", "backs up", "less", "more", "boards", 0.5)


@dataclass(frozen=True)
class Told:
    """A claim with its difference B minus A, and its band where that is worked out."""

    claim: Claim
    difference: float
    band: Range | None

    @property
    def size(self) -> str:
        """The difference as shown, without its sign."""
        return shown(abs(self.difference), 1)

    @property
    def alike(self) -> bool:
        """Whether the difference is shown as nothing."""
        return float(self.size) == 0.0

    @property
    def small(self) -> bool:
        """Whether what is shown is less than what is worth a word."""
        return float(self.size) < self.claim.least

    @property
    def surely_small(self) -> bool:
        """Whether the whole band is."""
        least = self.claim.least
        return self.band is not None and -least < self.band.low and self.band.high < least

    def __str__(self) -> str:
        way = self.claim.more if self.difference > 0 else self.claim.less
        text = f"{self.claim.verb} {self.size} {self.claim.unit} {way}"
        if self.band is None:
            return text
        low, high = (_end(value) for value in (self.band.low, self.band.high))
        return f"{text} ({low} to {high})"


def compare_sentence(c: Comparison, ranges: dict[str, Range]) -> str:
    """What B does against A, how sure that is, and what causes it.

    `ranges` are those of `certainty.difference_ranges`; an empty one (not worked out yet) leaves
    out what takes time: the bands and the causes.
    """
    lost = [
        f"{label} goes into the gutter at {shot.gutter_ft:.0f} ft"
        for label, shot in (("A", c.shot_a), ("B", c.shot_b))
        if shot.gutter_ft is not None
    ]
    if len(lost) == 2:
        lost = [
            f"Both go into the gutter, A at {c.shot_a.gutter_ft:.0f} ft and B at "
            f"{c.shot_b.gutter_ft:.0f} ft"
        ]
    if lost:
        return (
            f"{_listed(lost)}, so there is no difference at the pins to tell; choose another line."
        )
    told = _told(c, ranges)
    different = [one for one in told if not one.alike]
    alike = [one.claim.noun for one in told if one.alike]
    parts = [f"B {_listed([str(one) for one in different])} than A."] if different else []
    if alike:
        parts.append(f"In {_listed(alike)} the two are alike.")
    if different:
        parts += _verdict([one for one in told if one.claim.key != "flare_in"])
    if ranges:
        parts += _cause(c, {one.claim.noun for one in different})
    return " ".join(parts)


def _told(c: Comparison, ranges: dict[str, Range]) -> list[Told]:
    """The claims that both shots have; length only where there is no roll to tell."""
    told: list[Told] = []
    for claim in CLAIMS:
        a, b = getattr(c.shot_a, claim.key), getattr(c.shot_b, claim.key)
        if a is None or b is None:
            continue
        if claim.key == "length_ft" and any(one.claim.key == "roll_ft" for one in told):
            continue
        backs_up = claim.key == "total_hook_boards" and a < 0.0 and b < 0.0
        told.append(Told(BACKS_UP if backs_up else claim, b - a, ranges.get(claim.key)))
    return told


def _verdict(on_lane: list[Told]) -> list[str]:
    """Say what is too small to matter, and what the assumptions leave open."""
    parts = []
    if on_lane and all(one.small for one in on_lane):
        limits = _listed([f"{one.claim.least:g} {one.claim.unit}" for one in on_lane])
        sure = all(one.surely_small for one in on_lane)
        parts.append(
            f"That is less than {limits}: too small to matter on the lane"
            + (", whatever we assume." if sure else ", as computed.")
        )
    undecided = [
        one.claim.noun for one in on_lane if one.band and not one.band.decided and not one.alike
    ]
    if undecided:
        parts.append(
            f"What we assume can turn the difference in {_listed(undecided)} round: undecided."
        )
    return parts


def _cause(c: Comparison, different: set[str]) -> list[str]:
    """The cause that brings most of the difference in hook, else of that in roll."""
    for key, noun in (("total_hook_boards", "hook"), ("roll_ft", "roll")):
        shares = c.shares.get(key, {})
        whole = sum(abs(share) for share in shares.values())
        if whole < 0.05 or noun not in different:
            continue
        ordered = sorted(shares, key=lambda name: -abs(shares[name]))
        most = abs(shares[ordered[0]]) / whole
        if most > 0.9:
            return [f"The difference in {noun} comes from {ordered[0]}."]
        if most > 0.6:
            return [f"Most of the difference in {noun} comes from {ordered[0]}."]
        return [f"The difference in {noun} comes from {_listed(ordered[:2])}."]
    return []


def _end(value: float) -> str:
    """An end of a band: finer where a tenth would hide its sign."""
    return shown(value, 1 if abs(value) >= 0.05 else 2, sign=True)


def _listed(words: list[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]


def notes(c: Comparison) -> list[str]:
    """What to mind: legal limits, marks in holes, rings over holes, doubtful shots."""
    lines = []
    for label, setup, shot in (("A", c.a, c.shot_a), ("B", c.b, c.shot_b)):
        said = [*setup.ball.legal_notes, *setup.drilled.legal_notes, *setup.drilled.notes]
        if setup.surface.grit is not None and setup.surface.grit < ROUGHEST:
            said.append(
                f"{setup.surface.grit:g} grit is rougher than the friction assumptions were made "
                f"for ({ROUGHEST:g} and finer): doubtful."
            )
        over = rings_over_holes(setup, shot)
        if any(over):
            said.append(f"{sum(over)} of {len(over)} oil rings run over a hole.")
        lines += [f"{label}: {note}" for note in (*said, *shot.notes)]
    return lines


ROUGHEST = 360.0  # grit; below it the roughness law is carried far beyond its anchor (assumption)
HARDLY = 0.2  # boards of hook and feet of roll that a whole slider must move to matter (assumption)


def slider_notes(c: Comparison) -> list[str]:
    """Sentences on sliders that hardly move anything here, worked out over their whole range."""
    said: list[str] = []
    if c.shot_a.gutter_ft is not None:
        return said
    for field, words, values in (
        ("drilling_angle_deg", "drilling angle", (0.0, 60.0, 120.0, 180.0)),
        ("val_angle_deg", "VAL angle", (0.0, 30.0, 60.0, 90.0)),
        ("pin_to_pap_in", "pin distance", (0.0, 2.25, 4.5, 6.75)),
    ):
        setups = [replace(c.a, layout=replace(c.a.layout, **{field: value})) for value in values]
        shots = roll_many(setups, c.lane, c.line)
        hook, roll = _spread(shots.total_hook_boards), _spread(shots.roll_ft)
        if hook < HARDLY and roll < HARDLY:
            said.append(
                f"The {words} can hardly matter here: over its whole range the hook moves by "
                f"{hook:.1f} boards and the roll by {roll:.1f} ft."
            )
    return said


def _spread(values: NDArray[np.float64]) -> float:
    """Greatest minus smallest; 0 where no shot has one, endless where only some have."""
    there = np.isfinite(values)
    if not there.any():
        return 0.0
    return float(np.ptp(values)) if there.all() else float("inf")
