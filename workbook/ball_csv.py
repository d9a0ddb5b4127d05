"""Undrilled balls as a plain table that a spreadsheet opens: one row a ball.

    # any comment
    name,ball weight [lb],low RG [in],differential [in],cover
    my old one,15,2.54,0.045,reactive

The columns are the fields of `Ball`, in any order; one that `Ball` can do without may be left out.
Decimals take a point.
"""

import csv
import io
import os
from collections.abc import Mapping
from dataclasses import Field, fields
from difflib import get_close_matches
from os import PathLike
from typing import Any

from workbook import csv_rows, errors, text_file
from workbook.ball import Ball
from workbook.errors import InputRefused, one_line, shown
from workbook.inputs import Required

NAME = "name"


def _header_of(f: "Field[Any]") -> str:
    unit = f.metadata.get("unit", "")
    return f"{f.metadata['words']} [{unit}]" if unit else str(f.metadata["words"])


COLUMNS: "dict[str, Field[Any]]" = {_header_of(f): f for f in fields(Ball)}


def read_balls(path: str | PathLike[str]) -> dict[str, Ball]:
    """Read a table of balls.

    Returns
    -------
    dict of str to Ball
        By name, in the order of the rows.

    Raises
    ------
    InputRefused
        A file that is missing, too big or not UTF-8 text; an unknown, missing or repeated column;
        a missing or wrong cell; a name used twice. The sentence names row and column.

    Warns
    -----
    LegalLimit
        As `Ball` does.
    """
    file = text_file.place(path)
    return _parsed(one_line(file.name), text_file.read(file))


def write_balls(
    path: str | PathLike[str],
    balls: Mapping[str, Ball],
    *,
    overwrite: bool = True,
    comment: str = "",
) -> None:
    """Write a table of balls, all or nothing.

    Parameters
    ----------
    path : str or path
    balls : mapping of str to Ball
        By name.
    overwrite : bool
        Whether a table of balls that is there already is replaced; any other file is kept.
    comment : str
        Lines for the top of the table.

    Raises
    ------
    InputRefused
        What is no ball, a name that could not be read again, or a place that cannot be written; an
        older file there stays as it was.
    """
    errors.instance("balls", balls, dict)
    file = text_file.place(path)
    if overwrite and os.path.lexists(file):
        read_balls(file)  # what is no table of balls is refused here, and so kept
    out = io.StringIO()
    out.writelines(f"# {line}\n" for line in comment.splitlines())
    table = csv.writer(out, lineterminator="\n")
    table.writerow([NAME, *COLUMNS])
    for name, ball in balls.items():
        _check_name(name)
        errors.instance(f"ball {shown(name)}", ball, Ball)
        table.writerow([name, *(_cell(getattr(ball, f.name)) for f in COLUMNS.values())])
    text_file.write(file, out.getvalue(), overwrite=overwrite)


def add_ball(
    path: str | PathLike[str], name: str, ball: Ball, *, replace: bool = False, comment: str = ""
) -> None:
    """Put one ball into a table, which is made if there is none; its other balls and comments stay.

    Parameters
    ----------
    replace : bool
        Whether another ball of that name gives way.
    comment : str
        Lines for the top of a new table.

    Raises
    ------
    InputRefused
        A table that cannot be read, another ball of that name, or what `write_balls` refuses; the
        table stays as it was.
    """
    file = text_file.place(path)
    if not file.exists():
        write_balls(file, {name: ball}, overwrite=False, comment=comment)
        return
    text = text_file.read(file)
    balls = _parsed(one_line(file.name), text)
    if not replace and balls.get(name, ball) != ball:
        raise InputRefused(
            f"{one_line(file.name)} has another ball {shown(name)} already: give another name, or "
            "say that it is to be replaced."
        )
    write_balls(file, balls | {name: ball}, comment="\n".join(csv_rows.comments(text)))


def _parsed(file: str, text: str) -> dict[str, Ball]:
    table = csv_rows.rows(file, text)
    if not table:
        raise InputRefused(f"{file} is empty: the first row must name the columns.")
    header = _header(file, *table[0])
    balls: dict[str, Ball] = {}
    row_of: dict[str, int] = {}
    for n, row in table[1:]:
        cells = row + [""] * (len(header) - len(row))
        if any(cells[len(header) :]):
            raise InputRefused(
                f"{file} row {n} has {len(cells)} columns, not {len(header)} (decimals take a "
                "point, and a name with a comma stands in quotes)."
            )
        given = dict(zip(header, cells, strict=False))
        name = given.pop(NAME)
        where = f"{file} row {n}, column {NAME}"
        if not name:
            raise InputRefused(f"{where} is missing: give each ball a name.")
        if name in balls:
            raise InputRefused(f"{where}: {shown(name)} is there already, in row {row_of[name]}.")
        errors.text(where, name)
        balls[name], row_of[name] = _ball(f"{file} row {n}", given), n
    return balls


def _header(file: str, n: int, cells: list[str]) -> list[str]:
    """The columns that the first row names."""
    header = list(cells)
    while not header[-1]:  # spreadsheets make all rows equally long
        header.pop()
    where, known = f"{file} row {n}", [NAME, *COLUMNS]
    if len(header) == 1 and ";" in header[0]:
        raise InputRefused(f"{where}: the columns must be separated by commas, not by semicolons.")
    for i, column in enumerate(header):
        if column not in known:
            near = get_close_matches(column, known, n=1, cutoff=0.0)[0]
            raise InputRefused(f"{where}: unknown column {shown(column)}; the nearest is '{near}'.")
        if column in header[:i]:
            raise InputRefused(f"{where} has the column {shown(column)} twice.")
    needed = [NAME, *(column for column, f in COLUMNS.items() if _needed(f))]
    for column in needed:
        if column not in header:
            raise InputRefused(f"{where}: the column {shown(column)} is missing.")
    return header


def _needed(f: "Field[Any]") -> bool:
    return f.default is Required and not f.metadata.get("optional")


def _ball(where: str, given: Mapping[str, str]) -> Ball:
    values: dict[str, Any] = {}
    for column, cell in given.items():
        f = COLUMNS[column]
        at, meta = f"{where}, column {column}", f.metadata
        if "allowed" in meta:
            values[f.name] = errors.choice(at, cell or None, meta["allowed"])
        elif cell or not meta["optional"]:
            values[f.name] = csv_rows.number(at, cell, meta["low"], meta["high"], meta["unit"])
    try:
        return Ball(**values)
    except InputRefused as why:
        raise InputRefused(f"{where}: {why}") from None


def _cell(value: float | str | None) -> str:
    if value is None:
        return ""
    return value if isinstance(value, str) else shown(value)


def _check_name(name: object) -> None:
    """Names that reading would drop, change or take for a comment cannot be written."""
    errors.text("name of a ball", name)
    assert isinstance(name, str)
    if not name or name != name.strip() or name.startswith("#"):
        raise InputRefused(
            f"name of a ball must be a word or more, without # or a blank at its start or a blank "
            f"at its end, not {shown(name)}."
        )
