"""Reading and writing a lane as our plain table: boards across, distance down, units of oil.

    # any comment
    distance_ft,1,2,3,...,39
    0,4,4.2,...
    40,1,1,...

Distances grow from 0 to at most 60 ft; between rows the film runs straight, after the last row
there is none. Boards count from the right edge of the lane as seen from the foul line.
"""

from os import PathLike

import numpy as np
from numpy.typing import NDArray

from workbook import csv_rows, text_file
from workbook.errors import InputRefused, one_line, shown

MOST_UNITS = 200.0
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
    file = text_file.place(path)
    name = one_line(file.name)
    table = csv_rows.rows(name, text_file.read(file))
    if not table:
        raise InputRefused(f"{name} is empty: the first row must be {HEADER[0]},1,2,...,39.")
    n, header = table[0]
    if header != HEADER:
        raise InputRefused(
            f"{name} row {n}: the first row must be {HEADER[0]},1,2,...,39, "
            f"not {shown(','.join(header))}."
        )
    numbers = np.array([_numbers(name, n, row) for n, row in table[1:]]).reshape(-1, 40)
    _check_distances(name, [n for n, _ in table[1:]], numbers[:, 0])
    feet = np.arange(61.0)
    film = np.array(
        [np.interp(feet, numbers[:, 0], column, right=0.0) for column in numbers[:, 1:].T]
    ).T
    return one_line(file.stem), film


def write(path: str | PathLike[str], units: NDArray[np.float64], comment: str) -> None:
    """Write a table of units (61 feet x 39 boards), one row a foot down to the last oiled one.

    Raises
    ------
    InputRefused
        A place that cannot be written; an older file there stays as it was.
    """
    last = max([1, *np.flatnonzero(units.max(axis=1) > 0)])  # a dry lane has two rows too
    lines = [f"# {line}" for line in comment.splitlines()] + [",".join(HEADER)]
    for feet in range(last + 1):
        lines.append(",".join([str(feet), *[f"{v:.2f}" for v in units[feet]]]))
    text_file.write(text_file.place(path), "\n".join(lines) + "\n")


def _numbers(name: str, n: int, row: list[str]) -> list[float]:
    if len(row) != len(HEADER):
        raise InputRefused(
            f"{name} row {n} has {len(row)} columns, not {len(HEADER)} (distance and 39 boards)."
        )
    numbers = []
    for column, cell in zip(HEADER, row, strict=True):
        where = f"{name} row {n}, column {column}"
        unit, most = ("ft", 60.0) if column == HEADER[0] else ("units", MOST_UNITS)
        numbers.append(csv_rows.number(where, cell, 0.0, most, unit))
    return numbers


def _check_distances(name: str, rows: list[int], distances: NDArray[np.float64]) -> None:
    if len(distances) < 2:
        raise InputRefused(f"{name} has {len(distances)} rows of film, outside 2 or more.")
    first = float(distances[0])
    if first != 0.0:
        raise InputRefused(
            f"{name} row {rows[0]}, column {HEADER[0]}: {shown(first)} ft must be 0 ft, the foul "
            "line."
        )
    for n, before, here in zip(rows[1:], distances[:-1], distances[1:], strict=True):
        if here <= before:
            raise InputRefused(
                f"{name} row {n}, column {HEADER[0]}: {shown(float(here))} ft must be more "
                f"than {shown(float(before))} ft, the row before."
            )
