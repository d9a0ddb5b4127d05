"""The table of check values; `fact("rg_min")` gives a row, and naming it is what claims it."""

import csv
import re
from dataclasses import dataclass
from pathlib import Path

FILE = Path(__file__).with_name("facts.csv")


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
        return float(self.tolerance)

    @property
    def band(self) -> tuple[float, float]:
        """Both ends of a value "a to b"."""
        low, high = re.fullmatch(r"([\d.]+) to ([\d.]+)", self.text).groups()
        return float(low), float(high)


def read() -> dict[str, Fact]:
    lines = FILE.read_text(encoding="utf-8").splitlines()
    rows = csv.reader(line for line in lines if not line.startswith("#"))
    header = next(rows)
    assert header == ["id", "topic", "quantity", "value", *header[4:]]
    return {row[0]: Fact(*row) for row in rows}


FACTS = read()


def fact(id: str) -> Fact:
    return FACTS[id]
