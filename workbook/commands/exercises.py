"""`python3 -m workbook exercises check|list`: what is wrong with exercise files, and which are."""

import argparse
import sys
from pathlib import Path

from workbook import text_file
from workbook.errors import InputRefused, one_line
from workbook.practice.catalogue import FOLDER, catalogue
from workbook.practice.file_check import faults

HEAD = ("id", "level", "kind", "title")


def main(words: list[str]) -> int:
    """Run the command.

    Returns
    -------
    int
        0, or 1 if a file has a fault.
    """
    options = _parser().parse_args(words)
    return _list() if options.command == "list" else _check(options.files)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m workbook exercises", description="Check exercise files, or list them."
    )
    commands = parser.add_subparsers(dest="command", required=True, metavar="check | list")
    check = commands.add_parser(
        "check",
        help="say what is wrong with exercise files, and in which line",
        description="Read each file, pose fifty variants of it, work its numbers out, and see "
        "that right and typical wrong answers are told apart.",
    )
    check.add_argument("files", nargs="*", metavar="FILE", type=Path, help="all, if none is named")
    commands.add_parser("list", help="a table of all exercises, easy ones first")
    return parser


def _check(files: list[Path]) -> int:
    files = files or sorted(FOLDER.glob("*/*.toml"))
    found = [_faults(file) for file in files]
    for sentence in (one for each in found for one in each):
        print(sentence)
    if wrong := sum(bool(each) for each in found):
        print(f"{wrong} of {_count(len(files))} {'has' if wrong == 1 else 'have'} a fault.")
        return 1
    print(f"{_count(len(files))} {'is' if len(files) == 1 else 'are'} in order.")
    return 0


def _faults(file: Path) -> list[str]:
    chapter = file.absolute().parent.name
    try:
        text = text_file.read(file)
    except InputRefused as why:
        return [str(why)]
    return faults(text, one_line(f"{chapter}/{file.name}", 90), f"{chapter}/{file.stem}")


def _count(files: int) -> str:
    return f"{files} exercise{'s' * (files != 1)}"


def _list() -> int:
    try:
        known = catalogue().values()
    except InputRefused as why:
        print(why, file=sys.stderr)
        return 1
    rows = [HEAD, *((one.id, str(one.level), one.kind, one.title) for one in known)]
    widths = [max(len(row[i]) for row in rows) for i in range(len(HEAD))]
    for row in rows:
        print("  ".join(map(str.ljust, row, widths)).rstrip())
    return 0
