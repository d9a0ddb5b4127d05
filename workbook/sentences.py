"""The sentence of a comparison: composed from differences, their causes and their bands."""

from dataclasses import dataclass

from workbook import sources
from workbook.certainty import Bands, Range
from workbook.comparison import Comparison
from workbook.line import MIDDLE_BOARD
from workbook.rolling import Shot
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
        Smallest difference worth a word on the lane [unit].
    """

    key: str
    noun: str
    verb: str
    more: str
    less: str
    unit: str
    least: float


ROLL = Claim("roll_ft", "roll", "rolls", "later", "earlier", "ft", sources.value("least_roll"))
LENGTH = Claim(
    "length_ft", "length", "skids", "longer", "shorter", "ft", sources.value("least_roll")
)
HOOK = Claim(
    "total_hook_boards", "hook", "hooks", "more", "less", "boards", sources.value("least_hook")
)
BACKS_UP = Claim(
    "total_hook_boards", "hook", "backs up", "less", "more", "boards", sources.value("least_hook")
)
FLARE = Claim("flare_in", "flare", "flares", "more", "less", "inches", sources.value("least_flare"))


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

    @property
    def undecided(self) -> bool:
        """Whether it could as well be the other way round, and that would matter."""
        return self.band is not None and not self.band.decided and not self.surely_small

    @property
    def ends(self) -> str:
        """The band in words, such as "0.2 to 0.7" or "0.4 less to 0.1 more"; none without one."""
        if self.band is None:
            return ""
        low, high = self.band.low, self.band.high
        if low < 0.0 < high:
            ends = [(low, self.claim.less), (high, self.claim.more)]
            if self.difference > 0:
                ends.reverse()
            return " to ".join(f"{_end(value)} {way}" for value, way in ends)
        return " to ".join(_end(value) for value in sorted((low, high), key=abs))

    def __str__(self) -> str:
        way = self.claim.more if self.difference > 0 else self.claim.less
        band = f" ({self.ends})" if self.band else ""
        return f"{self.claim.verb} {self.size} {self.claim.unit} {way}{band}"


def compare_sentence(c: Comparison, bands: Bands | None = None) -> str:
    """What B does against A, how sure that is, and what causes it.

    Without `bands` (they take time) it leaves out how sure it is, and the causes.
    """
    lost = _gutters(c)
    if lost:
        return f"{lost}, so there is no difference at the pins to tell; choose another line."
    told, apart = _told(c, bands)
    different = [one for one in told if not one.alike]
    # the verdict first
    on_lane = [one for one in told if one.claim is not FLARE]
    parts = _small(on_lane) if different and not apart else []
    if different:
        parts.append(f"B {_listed([str(one) for one in different])} than A.")
    parts += apart + _alike([one for one in told if one.alike])
    if bands:
        parts += _doubts(told, bands)
        parts += _cause(c, told)
    return " ".join(parts)


def _gutters(c: Comparison) -> str:
    shots = [("A", c.shot_a), ("B", c.shot_b)]
    lost = [(label, shot) for label, shot in shots if shot.gutter_ft is not None]
    if len(lost) == 2 and _side(c, c.shot_a) == _side(c, c.shot_b):
        at = [f"{label} at {shot.gutter_ft:.1f} ft" for label, shot in lost]
        return f"Both go into the {_side(c, c.shot_a)} gutter, {_listed(at)}"
    return _listed(
        [
            f"{label} goes into the {_side(c, shot)} gutter at {shot.gutter_ft:.1f} ft"
            for label, shot in lost
        ]
    )


def _side(c: Comparison, shot: Shot) -> str:
    """The side of the lane on which a path ends."""
    own = c.a.bowler.hand
    return own if shot.path.board[-1] < MIDDLE_BOARD else {"right": "left", "left": "right"}[own]


def _told(c: Comparison, bands: Bands | None) -> tuple[list[Told], list[str]]:
    """The claims of things that both do, and sentences on what only one of them does."""
    a, b = c.shot_a, c.shot_b
    claims, apart = [], []
    if a.roll_ft is not None and b.roll_ft is not None:
        claims.append(ROLL)
    elif a.roll_ft is None and b.roll_ft is None and not (a.already_rolls or b.already_rolls):
        apart.append("Neither rolls before the pins.")
        if a.length_ft is not None and b.length_ft is not None:
            claims.append(LENGTH)
    elif a.already_rolls and b.already_rolls:
        apart.append("Both already roll at release.")
    else:
        apart.append(f"A {_rolling(a)}, B {_rolling(b)}.")
    hooks = [shot.total_hook_boards or 0.0 for shot in (a, b)]
    if min(hooks) < -0.05 and max(hooks) > 0.05:
        apart.append(f"A {_bending(hooks[0])}, B {_bending(hooks[1])}.")
    else:
        claims.append(BACKS_UP if min(hooks) < -0.05 else HOOK)
    told = []
    for claim in (*claims, FLARE):
        one, two = getattr(a, claim.key), getattr(b, claim.key)
        if one is None or two is None:
            continue  # a shot that could not be followed to the pins; its notes say so
        band = bands.difference.get(claim.key) if bands else None
        told.append(Told(claim, two - one, band))
    return told, apart


def _rolling(shot: Shot) -> str:
    if shot.already_rolls:
        return "already rolls at release"
    if shot.roll_ft is None:
        return "does not roll before the pins"
    return f"rolls at {shot.roll_ft:.1f} ft"


def _bending(hook: float) -> str:
    return f"{'backs up' if hook < 0 else 'hooks'} {shown(abs(hook), 1)} boards"


def _alike(alike: list[Told]) -> list[str]:
    if not alike:
        return []
    open_ends = any(one.band is not None and not one.surely_small for one in alike)
    nouns = [
        one.claim.noun + (f" ({one.ends}, in {one.claim.unit})" if one.undecided else "")
        for one in alike
    ]
    return [f"In {_listed(nouns)} the two are alike{' at our best values' if open_ends else ''}."]


def _small(on_lane: list[Told]) -> list[str]:
    """Say what is too small to matter."""
    if not on_lane or not all(one.small for one in on_lane):
        return []
    limits = _listed([f"{one.claim.least:g} {one.claim.unit}" for one in on_lane])
    if any(one.band is None for one in on_lane):
        sure = ""
    elif all(one.surely_small for one in on_lane):
        sure = " in four of five tries"
    else:
        sure = " at our best values"
    return [f"On the lane A and B differ by less than {limits}{sure}: too small to matter."]


def _doubts(told: list[Told], bands: Bands) -> list[str]:
    """Say what could be the other way round, and where the band is not told."""
    parts = []
    undecided = [
        one.claim.noun for one in told if one.undecided and not one.alike and one.claim is not FLARE
    ]
    if undecided:
        parts.append(
            f"The difference in {_listed(undecided)} could be the other way round: undecided."
        )
    for one in told:
        if one.band is None:
            parts.append(
                f"How sure the {one.claim.noun} is cannot be told: in "
                f"{bands.missing[one.claim.key]} of {bands.draws} tries A or B goes into the "
                f"gutter, or has no {one.claim.noun}."
            )
    return parts


def _cause(c: Comparison, told: list[Told]) -> list[str]:
    """The causes that bring most of the difference in hook, else of that in roll."""
    sure = {one.claim.key for one in told if not (one.alike or one.undecided)}
    for key, noun in (("total_hook_boards", "hook"), ("roll_ft", "roll")):
        shares = c.shares.get(key, {})
        if key in sure and abs(sum(shares.values())) >= 0.05:
            return [_blamed(noun, shares)]
    return []


def _blamed(noun: str, shares: dict[str, float]) -> str:
    sign = 1.0 if sum(shares.values()) > 0 else -1.0
    pushes = {cause: sign * share for cause, share in shares.items()}
    ordered = sorted(pushes, key=lambda cause: -pushes[cause])
    along = [cause for cause in ordered if pushes[cause] > 0]
    whole = sum(pushes[cause] for cause in along)
    against = [cause for cause in reversed(ordered) if pushes[cause] < -0.1 * whole]
    most = pushes[along[0]] / whole
    if most > 0.9:
        text = f"comes from {along[0]}"
    elif most > 0.6:
        text = f"comes mostly from {along[0]}"
    else:
        text = f"comes from {_listed(along[:2])}"
    if against:
        verb = "works" if len(against) == 1 else "work"
        text += f"; {_listed(against)} {verb} against it"
    return f"The difference in {noun} {text}."


def _end(value: float) -> str:
    """An end of a band without its sign: finer where a tenth would make nothing of it."""
    return shown(abs(value), 1 if abs(value) >= 0.05 else 2)


def _listed(words: list[str]) -> str:
    if len(words) < 2:
        return "".join(words)
    return ", ".join(words[:-1]) + " and " + words[-1]
