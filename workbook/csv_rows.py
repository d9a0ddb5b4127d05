"""Rows, comments and numbers of our plain tables: what their readers share."""

import csv
import re
from collections.abc import Iterator

from workbook import text_file
from workbook.errors import InputRefused, shown

NUMBER = re.compile(r"[+-]?([0-9]+\.?[0-9]*|\.[0-9]+)([eE][+-]?[0-9]+)?")
COMMENT = ("#", '"#')  # spreadsheets quote a comment that has a comma


def rows(name: str, text: str) -> list[tuple[int, list[str]]]:
    """Rows with cells, numbered as in the file `name`; without comments and blank ones.

    Raises
    ------
    InputRefused
        A row that cannot be split into cells.
    """
    found = []
    for n, line in _numbered(text):
        if line.startswith(COMMENT):
            continue
        try:
            cells = [cell.strip() for cell in next(csv.reader([line], strict=True), [])]
        except csv.Error as why:
            raise InputRefused(f"{name} row {n} cannot be split into cells: {why}.") from None
        if any(cells):
            found.append((n, cells))
    return found


def comments(text: str) -> list[str]:
    """The comments of a table, without their signs; what a spreadsheet put around them goes."""
    found = []
    for _n, line in _numbered(text):
        if line.startswith(COMMENT):
            cells = next(csv.reader([line]), []) if line.startswith('"') else [line.rstrip(", ")]
            found.append(cells[0].removeprefix("#").strip())
    return found


def number(where: str, cell: str, low: float, high: float, unit: str) -> float:
    """Return a cell as a number within limits, both allowed [unit]; `where` says which cell.

    Raises
    ------
    InputRefused
        An empty cell, what is no plain decimal number, or a number outside the limits.
    """
    allowed = f"{low:g} to {high:g} {unit}"
    if not cell:
        raise InputRefused(f"{where} is missing: give a number from {allowed}.")
    if not NUMBER.fullmatch(cell):  # float() would take "nan" and "1_0" too
        raise InputRefused(f"{where} must be a number from {allowed}, not {shown(cell)}.")
    value = float(cell)
    if not low <= value <= high:
        raise InputRefused(f"{where}: {shown(value)} {unit} is outside {allowed}.")
    return value


def _numbered(text: str) -> Iterator[tuple[int, str]]:
    return enumerate(text_file.LINE_END.split(text), 1)
