"""Answers as a table that a spreadsheet opens and does not take for formulas."""

import csv
import io
import os
import re
from collections.abc import Iterable
from pathlib import Path

from workbook import text_file
from workbook.errors import InputRefused, one_line
from workbook.practice.answered import Answered

HEADER = ("exercise", "variant", "given", "outcome", "hints seen", "time (UTC)")
_UNFIT = re.compile(r"[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff]")  # no text for a table
# what a spreadsheet may work out, also one that parts cells at semicolons; plain numbers may stay
_NUMBER = r"\s*[+\-]?[0-9]+([.,][0-9]+)?\s*($|[;\t\r\n])"
_FORMULA = re.compile(rf"(^(?=[\t\r\n])|(^|[;\t\r\n])(?=\s*[=+@\-＝＋＠－])(?!{_NUMBER}))")


def write(file: Path, answers: Iterable[Answered], *, overwrite: bool) -> None:
    """Write a table of answers, all or nothing.

    A cell that a spreadsheet would work out gets an apostrophe in front, and signs that are no
    text in a table become "\N{REPLACEMENT CHARACTER}".

    Parameters
    ----------
    file : Path
    answers : iterable of Answered
    overwrite : bool
        Whether a table of answers that is there already is replaced; any other file is kept.

    Raises
    ------
    InputRefused
        A place that cannot be written or holds something else; what is there stays as it was.
    """
    out = io.StringIO()
    table = csv.writer(out, lineterminator="\n")
    table.writerow(HEADER)
    if overwrite and os.path.lexists(file):
        _check_table(file, out.getvalue().encode())
    for one in answers:
        at = one.at.replace(tzinfo=None).isoformat(" ", "seconds")
        table.writerow(
            _cell(str(value))
            for value in (one.exercise, one.seed, one.given, one.outcome, one.hints, at)
        )
    text_file.write(file, out.getvalue(), overwrite=overwrite)


def _check_table(file: Path, header: bytes) -> None:
    try:
        if file.is_file():  # a pipe would wait for ever
            with file.open("rb") as stream:
                if stream.read(len(header)) == header:
                    return
    except OSError as why:
        raise InputRefused(f"{one_line(file.name)} cannot be read: {why.strerror}.") from None
    raise InputRefused(
        f"{one_line(file.name)} is there already and no table of answers: give another name."
    )


def _cell(text: str) -> str:
    text = _UNFIT.sub("\N{REPLACEMENT CHARACTER}", text)
    return _FORMULA.sub(r"\1'", text)
