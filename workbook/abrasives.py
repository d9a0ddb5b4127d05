"""The abrasives that finish a cover: published grains, and labels that have none."""

from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path

from workbook import csv_rows
from workbook.assumptions import Assumptions
from workbook.inputs import limits
from workbook.surface import Surface

TABLE = Path(__file__).with_name("abrasives.csv")
SERIES = "FEPA 43 / ISO 6344, P series"
WIDEST_UM = 1000.0


@dataclass(frozen=True)
class Abrasive:
    """One grit.

    Parameters
    ----------
    grit : float
        Its number [grit].
    grain_um : float or None
        Mean grain [um] (published: FEPA 43 / ISO 6344); None for a maker's label.
    """

    grit: float
    grain_um: float | None

    @property
    def name(self) -> str:
        """P and the number where the series has it, else the bare label."""
        return f"{self.grit:g}" if self.grain_um is None else f"P{self.grit:g}"

    def ra_um(self, assumptions: Assumptions | None = None) -> float:
        """Ra [um] of a cover finished with it, by the workbook's law (assumption)."""
        return Surface(grit=self.grit).ra_um(assumptions)


@lru_cache(maxsize=1)
def abrasive_series() -> tuple[Abrasive, ...]:
    """Every grit of the table beside this module, coarse to fine.

    The published grains end at P2500 in the edition that we quote (memory); 3000 to 5000 are
    makers' labels, and how fine they cut is whatever the maker says.
    """
    _head, *rows = csv_rows.rows(TABLE.name, TABLE.read_text(encoding="utf-8"))
    low, high, unit = limits(Surface, "grit")
    return tuple(
        Abrasive(
            csv_rows.number(f"{TABLE.name} row {n}", label, low, high, unit or "grit"),
            csv_rows.number(f"{TABLE.name} row {n}", grain, 1.0, WIDEST_UM, "um")
            if grain
            else None,
        )
        for n, (label, grain) in rows
    )
