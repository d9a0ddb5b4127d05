"""The table of check values; `fact("rg_min")` gives a row, and naming it is what claims it.

A row compares in one of three ways, its kind: a *value* (`check`), something *consistent* with it
(`check_between`, `check_that`), or a constant *taken* from the same source (`check_taken`). Each
asserts, and keeps what was found for the table that `python3 -m workbook check` prints.
"""

import csv
import math
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
    def given(self) -> str:
        """The value as the source has it, with its unit."""
        return self.with_unit(self.text)

    def with_unit(self, text: str) -> str:
        return text if self.unit in ("1", "-") else f"{text} {self.unit}"

    def check(self, got: float, *, rel: float | None = None, within: float | None = None) -> None:
        """Compare the value: within the row's tolerance, or another share or amount."""
        __tracebackhide__ = True
        if rel is not None:
            within = rel * self.value
        amount = self.within if within is None else within
        if amount <= ROUNDING * abs(self.value):
            digits = _decimals(self.text)
            expected = self.with_unit(self.text) + " exactly"
        else:
            first = max(0, -math.floor(math.log10(amount)))  # digit of the amount
            digits = max(_decimals(self.text), first)
            expected = self.with_unit(f"{self.value:.{digits}f} ± {amount:.{first}f}")
        self._keep("value", abs(got - self.value) <= amount, expected, got, digits)

    def check_between(self, got: float) -> None:
        """Compare with the band: `got` lies inside it."""
        __tracebackhide__ = True
        low, high = self.band
        digits = max(1, _decimals(self.text))
        expected = self.with_unit(f"between {low:.{digits}f} and {high:.{digits}f}")
        self._keep("consistent", low < got < high, expected, got, digits)

    def check_that(self, agrees: bool, test: str, got: str) -> None:
        """Say in words what is tested and what was found: for a rule, an order or an input."""
        __tracebackhide__ = True
        self._keep("consistent", agrees, test, got, 0)

    def check_taken(self, *got: float) -> None:
        """Say that the library has the source's own figures, typed in: this proves nothing."""
        __tracebackhide__ = True
        given = [float(number) for number in self.text.split(" to ")]
        found = self.with_unit(" to ".join(f"{number:.{_decimals(self.text)}f}" for number in got))
        self._keep("taken", given == list(got), self.given, found, 0)

    def _keep(self, kind: str, agrees: bool, expected: str, got: float | str, digits: int) -> None:
        __tracebackhide__ = True
        CHECKS.append(Check(self, kind, expected, got, bool(agrees), digits))
        assert agrees, (
            f"{self.id}: {self.quantity}: expected {expected} ({self.source or self.mark}), "
            f"got {got}"
        )


def _decimals(text: str) -> int:
    """Most digits behind a point in a text."""
    return max(len(part) for part in re.findall(r"\d+(?:\.(\d+))?", text))


@dataclass(frozen=True)
class Check:
    """One comparison with a row: its kind, what was expected and found, and whether it agrees."""

    row: Fact
    kind: str
    expected: str
    got: float | str
    agrees: bool
    digits: int  # behind the point, of a number got


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
