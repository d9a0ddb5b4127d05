"""Reading and writing a lane as our plain table: boards across, distance down, units of oil.

    # any comment
    distance_ft,1,2,3,...,39
    0,4,4.2,...
    40,1,1,...

Distances grow from 0 to at most 60 ft; between rows the film runs straight, after the last row
there is none. Boards count from the right edge of the lane as seen from the foul line.
"""

import csv
import io
from os import PathLike
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

from workbook.errors import InputRefused, shown

MOST_UNITS = 200.0
MOST_BYTES = 1_000_000
HEADER = ["distance_ft", *[str(board) for board in range(1, 40)]]


def read(path: str | PathLike[str]) -> tuple[str, NDArray[np.float64]]:
    """Read a lane table.

    Returns
    -------
    name : str
        The file's name without its ending.
    units : array (61, 39)
        Film at whole feet [unit].

    Raises
    ------
    InputRefused
        A file that is missing, too big, not UTF-8 text, or a table with a wrong cell; the sentence
        names row and column.
    """
    file = Path(path)
    rows = list(csv.reader(io.StringIO(_text(file), newline="")))
    table = [(n, row) for n, row in enumerate(rows, 1) if row and not row[0].startswith("#")]
    if not table:
        raise InputRefused(f"{file.name} is empty: the first row must be {HEADER[0]},1,2,...,39.")
    n, header = table[0]
    if [cell.strip() for cell in header] != HEADER:
        raise InputRefused(
            f"{file.name} row {n}: the first row must be {HEADER[0]},1,2,...,39, "
            f"not {shown(','.join(header))}."
        )
    numbers = np.array([_numbers(file.name, n, row) for n, row in table[1:]]).reshape(-1, 40)
    _check_distances(file.name, [n for n, _ in table[1:]], numbers[:, 0])
    feet = np.arange(61.0)
    film = np.array(
        [np.interp(feet, numbers[:, 0], column, right=0.0) for column in numbers[:, 1:].T]
    ).T
    return file.stem, film


def write(path: str | PathLike[str], units: NDArray[np.float64], comment: str) -> None:
    """Write a table of units (feet x boards), one row a foot down to the last oiled one."""
    last = int(np.nonzero(units.max(axis=1) > 0)[0][-1])
    lines = [f"# {line}" for line in comment.splitlines()] + [",".join(HEADER)]
    for feet in range(last + 1):
        lines.append(",".join([str(feet), *[f"{v:.2f}" for v in units[feet]]]))
    Path(path).write_text("\n".join(lines) + "\n", encoding="utf-8")


def _text(file: Path) -> str:
    try:
        size = file.stat().st_size
        if size > MOST_BYTES:
            raise InputRefused(
                f"{file.name} is {size / 1e6:.1f} MB, outside 0 to {MOST_BYTES / 1e6:g} MB: "
                "this is not a lane table."
            )
        data = file.read_bytes()
    except OSError as why:
        raise InputRefused(f"{file} cannot be read: {why.strerror}.") from None
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as why:
        row = data[: why.start].count(b"\n") + 1
        raise InputRefused(f"{file.name} row {row}: not UTF-8 text; save it as UTF-8.") from None
    if "\0" in text:
        row = text[: text.index("\0")].count("\n") + 1
        raise InputRefused(f"{file.name} row {row}: not UTF-8 text; save it as UTF-8.")
    return text


def _numbers(name: str, n: int, row: list[str]) -> list[float]:
    if len(row) != len(HEADER):
        raise InputRefused(
            f"{name} row {n} has {len(row)} columns, not {len(HEADER)} (distance and 39 boards)."
        )
    numbers = []
    for column, cell in zip(HEADER, row, strict=True):
        where = f"{name} row {n}, column {column}"
        unit, most = ("ft", 60.0) if column == HEADER[0] else ("units", MOST_UNITS)
        if not cell.strip():
            raise InputRefused(f"{where} is missing: give a number from 0 to {most:g} {unit}.")
        try:
            value = float(cell)
        except ValueError:
            raise InputRefused(
                f"{where} must be a number from 0 to {most:g} {unit}, not {shown(cell)}."
            ) from None
        if not 0.0 <= value <= most:
            raise InputRefused(f"{where}: {value:g} {unit} is outside 0 to {most:g} {unit}.")
        numbers.append(value)
    return numbers


def _check_distances(name: str, rows: list[int], distances: NDArray[np.float64]) -> None:
    if len(distances) < 2:
        raise InputRefused(f"{name} has {len(distances)} rows of film: give at least 2.")
    if distances[0] != 0.0:
        raise InputRefused(
            f"{name} row {rows[0]}, column {HEADER[0]}: {distances[0]:g} ft must be 0 ft, "
            "the foul line."
        )
    for n, before, here in zip(rows[1:], distances[:-1], distances[1:], strict=True):
        if here <= before:
            raise InputRefused(
                f"{name} row {n}, column {HEADER[0]}: {here:g} ft must be more than "
                f"{before:g} ft, the row before."
            )
