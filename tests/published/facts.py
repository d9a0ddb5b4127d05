"""The table of check values; `fact("rg_min")` gives a row, and naming it is what claims it.

A row compares with `check`, `check_between` or `check_that`. Each of them asserts, and keeps what
was found for the table that `python3 -m workbook check` prints.
"""

import csv
import re
from dataclasses import dataclass
from pathlib import Path

FILE = Path(__file__).with_name("facts.csv")
NOT_CHECKED = Path(__file__).with_name("README.md")
ROUNDING = 1e-6  # relative: a figure off by no more still counts as exact


@dataclass(frozen=True)
class Fact:
    """One row of the table."""

    id: str
    topic: str
    quantity: str
    text: str
    unit: str
    tolerance: str
    mark: str
    source: str
    note: str

    @property
    def value(self) -> float:
        return float(self.text)

    @property
    def within(self) -> float:
        """The tolerance as a number."""
        return 0.0 if self.tolerance == "exact" else float(self.tolerance)

    @property
    def band(self) -> tuple[float, float]:
        """Both ends of a value "a to b"."""
        low, high = re.fullmatch(r"([\d.]+) to ([\d.]+)", self.text).groups()
        return float(low), float(high)

    @property
    def expected(self) -> str:
        """Value, unit and tolerance, as the row has them."""
        return self._written(self.tolerance)

    def check(self, got: float, *, rel: float | None = None, within: float | None = None) -> None:
        """Compare with the value: within the row's tolerance, or another share or amount."""
        __tracebackhide__ = True
        if rel is not None:
            within = rel * self.value
        amount = self.within if within is None else within
        expected = self._written(f"{amount:.2g}") if self._is_looser(amount) else self.expected
        self._keep(abs(got - self.value) <= amount, expected, got)

    def check_between(self, got: float) -> None:
        """Compare with the band: `got` lies inside it."""
        __tracebackhide__ = True
        low, high = self.band
        self._keep(low < got < high, self.expected, got)

    def check_that(self, agrees: bool, got: str) -> None:
        """Say whether it agrees, and in words what was found: for a row that is no plain number."""
        __tracebackhide__ = True
        self._keep(agrees, self.expected, got)

    def _written(self, tolerance: str) -> str:
        unit = "" if self.unit in ("1", "-") else f" {self.unit}"
        is_amount = re.fullmatch(r"[\d.]+(e-\d+)?( in)?", tolerance)
        return f"{self.text}{unit} " + (f"± {tolerance}" if is_amount else f"({tolerance})")

    def _is_looser(self, amount: float) -> bool:
        try:
            return amount > max(self.within, ROUNDING * self.value)
        except ValueError:  # a tolerance in words
            return False

    def _keep(self, agrees: bool, expected: str, got: float | str) -> None:
        __tracebackhide__ = True
        CHECKS.append(Check(self, expected, got, bool(agrees)))
        assert agrees, (
            f"{self.id}: {self.quantity}: expected {expected} ({self.source or self.mark}), "
            f"got {got}"
        )


@dataclass(frozen=True)
class Check:
    """One comparison with a row: what was expected, what was found, and whether it agrees."""

    row: Fact
    expected: str
    got: float | str
    agrees: bool


CHECKS: list[Check] = []  # of this session, in the order in which the tests ran


def read() -> dict[str, Fact]:
    lines = FILE.read_text(encoding="utf-8").splitlines()
    rows = csv.reader(line for line in lines if not line.startswith("#"))
    header = next(rows)
    assert header == ["id", "topic", "quantity", "value", *header[4:]]
    return {row[0]: Fact(*row) for row in rows}


FACTS = read()


def fact(id: str) -> Fact:
    return FACTS[id]


def not_checked() -> dict[str, str]:
    """Ids at the head of a list item of the README, with their reasons."""
    text = NOT_CHECKED.read_text(encoding="utf-8")
    items = re.findall(r"^\* ((?:`\w+`(?:, )?)+): (.+)$", text, flags=re.MULTILINE)
    return {id: reason for ids, reason in items for id in re.findall(r"`(\w+)`", ids)}
