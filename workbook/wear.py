"""What games do to a sanded cover: an assumption, worked out so that its worth can be seen."""

from dataclasses import dataclass, replace

from workbook import errors, sources
from workbook.assumptions import Assumptions
from workbook.inputs import limits
from workbook.rating import rate
from workbook.setup import Setup
from workbook.surface import Surface

MOST_GAMES = 100.0


@dataclass(frozen=True)
class Worn:
    """A cover after games.

    Parameters
    ----------
    fresh : Surface
        As sanded.
    games : float
        Since then.
    surface : Surface
        The grit as rough as the cover is now.
    roughest, finest : Surface
        What it could be now, over the ranges of the assumption.
    """

    fresh: Surface
    games: float
    surface: Surface
    roughest: Surface
    finest: Surface


def worn(surface: Surface, games: float) -> Worn:
    """Wear a sanded cover: its Ra goes toward that of a worn finish, by a share each game.

    Ra(n) = Ra_worn + (Ra_fresh - Ra_worn) (1 - share)^n. That dull covers smooth and fine ones
    dull, toward a middle finish, is common practice without a source; share and finish are
    assumptions with wide ranges (`workbook.sources.FACTS`, wear_share and worn_grit). A polished
    cover stays as it is: nothing is at hand that says how fast polish goes.

    Parameters
    ----------
    surface : Surface
        As sanded.
    games : float
        Games since then [game], 0 to 100.

    Raises
    ------
    InputRefused
        Not a `Surface`, or games outside their limits.
    """
    errors.instance("surface", surface, Surface)
    games = errors.number("number of games", games, "", 0.0, MOST_GAMES)
    share, finish = sources.FACTS["wear_share"], sources.FACTS["worn_grit"]
    ends = [_worn(surface, games, each, grit) for each in share.range for grit in finish.range]
    now = _worn(surface, games, share.value, finish.value)
    ends.sort(key=lambda one: one.grit or 0.0)
    return Worn(surface, games, now, ends[0], ends[-1])


@dataclass(frozen=True)
class WearWorth:
    """What wear is worth to a setup on the reference lane: now minus fresh, each with its ends.

    Parameters
    ----------
    worn : Worn
        The surface.
    length_ft : tuple of float or None
        Change of the length [ft]: as assumed, least and greatest over the assumption's range; None
        where a shot has none.
    hook_boards : tuple of float
        The same of the hook potential [board].
    """

    worn: Worn
    length_ft: tuple[float, float, float] | None
    hook_boards: tuple[float, float, float]


def wear_worth(setup: Setup, games: float) -> WearWorth:
    """What so many games do to length and hook of a freshly sanded setup (see `worn`).

    Raises
    ------
    InputRefused
        Not a `Setup`, or games outside their limits.
    """
    errors.instance("setup", setup, Setup)
    found = worn(setup.surface, games)
    fresh, *now = (
        rate(replace(setup, surface=one))
        for one in (found.fresh, found.surface, found.roughest, found.finest)
    )
    hooks = [one.hook_potential_boards - fresh.hook_potential_boards for one in now]
    lengths = [
        one.length_ft - fresh.length_ft
        for one in now
        if one.length_ft is not None and fresh.length_ft is not None
    ]
    whole = len(lengths) == len(now)
    return WearWorth(found, _with_ends(lengths) if whole else None, _with_ends(hooks))


def _with_ends(changes: list[float]) -> tuple[float, float, float]:
    return changes[0], min(changes), max(changes)


def _worn(fresh: Surface, games: float, share: float, finish: float) -> Surface:
    if fresh.grit is None or games == 0.0:
        return fresh
    # Ra goes with a power of the grit, so that its unit and scale do not matter here
    exponent = Assumptions().ra_exponent
    end, start = finish**-exponent, fresh.grit**-exponent
    grit = (end + (start - end) * (1.0 - share) ** games) ** (-1.0 / exponent)
    low, high, _unit = limits(Surface, "grit")
    return Surface(grit=min(max(grit, low), high))
