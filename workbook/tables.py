"""Results as rows with units: the same rows make the terminal's text, a data frame and a panel."""

from collections.abc import Callable
from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from workbook import sources
from workbook.comparison import CAUSES, Comparison

if TYPE_CHECKING:
    import pandas as pd


@dataclass(frozen=True)
class Row:
    """One quantity of A and B.

    Parameters
    ----------
    group, words, unit : str
        Heading, quantity in words, unit.
    a, b : float or None
        Values [unit]; None where a shot has none.
    digits : int
        Decimals worth showing.
    """

    group: str
    words: str
    unit: str
    a: float | None
    b: float | None
    digits: int

    @property
    def difference(self) -> float | None:
        """B minus A [unit]."""
        return None if self.a is None or self.b is None else self.b - self.a

    @property
    def cells(self) -> tuple[str, str, str]:
        """A, B and the difference as text."""
        return (
            shown(self.a, self.digits),
            shown(self.b, self.digits),
            shown(self.difference, self.digits, sign=True),
        )


Getter = Callable[[Any], float | None]
_DRILLED: tuple[tuple[str, str, Getter, int], ...] = (
    ("RG low", "in", lambda d: d.rg_low_in, 3),
    ("RG high", "in", lambda d: d.rg_high_in, 3),
    ("RG about the PAP", "in", lambda d: d.rg_pap_in, 3),
    ("differential", "in", lambda d: d.differential_in, 4),
    ("intermediate", "in", lambda d: d.intermediate_in, 4),
    ("weight removed", "oz", lambda d: d.removed_oz, 2),
    ("static: top", "oz", lambda d: d.static_balance.top_oz, 2),
    ("static: side", "oz", lambda d: d.static_balance.side_oz, 2),
    ("static: finger", "oz", lambda d: d.static_balance.finger_oz, 2),
)
_RATED: tuple[tuple[str, str, Getter, int], ...] = (
    ("hook potential", "boards", lambda r: r.hook_potential_boards, 1),
    ("length", "ft", lambda r: r.length_ft, 1),
)
_SHOT: tuple[tuple[str, str, Getter, int], ...] = (
    ("board at the arrows", "board", lambda s: _on_lane(s.arrow_board), 1),
    ("breakpoint board", "board", lambda s: s.breakpoint_board if s.turns_back else None, 1),
    ("breakpoint distance", "ft", lambda s: s.breakpoint_ft if s.turns_back else None, 1),
    ("half the slip gone at", "ft", lambda s: s.length_ft, 1),
    ("roll (a tenth of it left) at", "ft", lambda s: s.roll_ft, 1),
    ("sharpness (most turn in 5 ft)", "deg", lambda s: s.sharpness_deg, 2),
    ("flare", "in", lambda s: s.flare_in, 1),
    ("total hook (from the launch line)", "boards", lambda s: s.total_hook_boards, 1),
    ("board at the pins", "board", lambda s: s.entry_board, 1),
    ("entry angle", "deg", lambda s: s.entry_angle_deg, 1),
    ("speed at the pins", "mph", lambda s: s.entry_speed_mph, 1),
    ("gutter at", "ft", lambda s: s.gutter_ft, 1),
)
SHARED_OUT = {
    "hook_potential_boards": ("hook potential", "boards"),
    "rated_length_ft": ("length, reference lane", "ft"),
    "total_hook_boards": ("total hook", "boards"),
    "length_ft": ("half the slip gone at", "ft"),
    "roll_ft": ("roll", "ft"),
    "breakpoint_ft": ("breakpoint distance", "ft"),
    "sharpness_deg": ("sharpness", "deg"),
    "flare_in": ("flare", "in"),
    "entry_board": ("board at the pins", "board"),
}


def _on_lane(board: float | None) -> float | None:
    """The board, or None where a ball had left the lane."""
    return board if board is not None and 0.5 < board < 39.5 else None


def comparison_rows(c: Comparison) -> list[Row]:
    """Drilled figures, ratings and shot of A and B; a row that neither has is left out."""
    groups = (
        ("Drilled ball", _DRILLED, c.a.drilled, c.b.drilled),
        ("Reference lane", _RATED, c.rating_a, c.rating_b),
        (f"Shot on the {c.lane.name} lane", _SHOT, c.shot_a, c.shot_b),
    )
    rows = [
        Row(group, words, unit, get(a), get(b), digits)
        for group, table, a, b in groups
        for words, unit, get, digits in table
    ]
    return [row for row in rows if row.a is not None or row.b is not None]


def comparison_frame(c: Comparison) -> "pd.DataFrame":
    """The rows as a data frame: columns A, B, B - A; index group, quantity with unit."""
    import pandas as pd

    rows = comparison_rows(c)
    index = pd.MultiIndex.from_tuples(
        [(row.group, f"{row.words} [{row.unit}]") for row in rows], names=["", "quantity"]
    )
    values = {
        "A": [row.a for row in rows],
        "B": [row.b for row in rows],
        "B - A": [row.difference for row in rows],
    }
    return pd.DataFrame(values, index=index, dtype=float)


def causes_shown(c: Comparison) -> list[str]:
    """The causes that bring anything worth showing, in their usual order."""
    return [
        cause
        for cause in CAUSES
        if any(abs(share.get(cause, 0.0)) >= 0.005 for share in c.shares.values())
    ]


def shares_frame(c: Comparison) -> "pd.DataFrame":
    """How much of B minus A each cause brings: rows quantities with unit, columns causes, sum."""
    import pandas as pd

    rows = {
        f"{words} [{unit}]": c.shares[key]
        for key, (words, unit) in SHARED_OUT.items()
        if key in c.shares
    }
    frame = pd.DataFrame.from_dict(rows, orient="index")
    frame = frame[[cause for cause in CAUSES if cause in frame.columns]]
    frame["B - A"] = frame.sum(axis=1)
    return frame


def shown(value: float | None, digits: int, *, sign: bool = False) -> str:
    """A number for people: fixed decimals, never "-0", a dash where there is none."""
    if value is None:
        return "-"
    rounded = round(value, digits) + 0.0
    return f"{rounded:+.{digits}f}" if sign and rounded else f"{rounded:.{digits}f}"


def facts_frame(mark: str) -> "pd.DataFrame":
    """The constants of one mark from the registry: words, value, unit, range, source."""
    import pandas as pd

    rows = [
        {
            "what": fact.words,
            "value": f"{fact.value:.6g}",
            "unit": "" if fact.unit == "1" else fact.unit,
            "range": "fixed" if low == high else f"{low:g} to {high:g}",
            "source": fact.source,
        }
        for fact in sources.FACTS.values()
        for low, high in [fact.range]
        if fact.mark == mark
    ]
    return pd.DataFrame(rows)
