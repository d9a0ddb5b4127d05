"""`python3 -m workbook present [CHAPTER]`: one chapter's panels for the projector, without code."""

import argparse
import os
import socket
import subprocess
import sys
from pathlib import Path

from workbook.start.places import private_state
from workbook.start.refusal import Refusal
from workbook.text_file import SHARED

PORT = 8889  # beside Lab's 8888
LETTERS, LARGER = "WORKBOOK_LETTERS", "1.4"  # read by the pictures' style
TEMPLATES = Path(__file__).parents[1] / "start" / "projector"


def main(root: Path, words: list[str], port: int | None, browser: bool) -> int:
    """Show the chapter that `words` name, of the workbook in `root`, until stopped.

    Raises
    ------
    Refusal
        No such chapter, or a port that is taken.
    """
    options = _parser(port, browser).parse_args(words)
    page = find(root / "notebooks", options.chapter)
    ip = "0.0.0.0" if options.share else "127.0.0.1"
    _ask_for(ip, options.port)
    os.environ.pop(SHARED, None)
    if options.share:
        os.environ[SHARED] = "1"
    os.environ[LETTERS] = LARGER
    # Compiled before the page asks for it.
    subprocess.Popen([sys.executable, "-m", "workbook.warm"], cwd=root)
    # Jupyter reads these on import.
    os.environ.update(private_state(root), JUPYTER_PATH=str(TEMPLATES))
    from workbook.commands.shown_page import show

    return show(page, ip, options.port, options.browser)


def find(folder: Path, chapter: str) -> Path:
    """Return the notebook in `folder` with the number or file name `chapter`.

    Raises
    ------
    Refusal
        If there is none.
    """
    pages = {page.stem: page for page in sorted(folder.glob("*.ipynb")) if "." not in page.stem}
    name = Path(chapter).name.removesuffix(".ipynb")
    for stem, page in pages.items():
        number = stem.partition("_")[0]
        if name == stem or (name.isdecimal() and number.isdecimal() and int(name) == int(number)):
            return page
    raise Refusal(f"There is no chapter {chapter}; there are {', '.join(pages) or 'none'}.")


def _ask_for(ip: str, port: int) -> None:
    with socket.socket() as probe:
        if os.name == "posix":  # else a port left a moment ago counts as taken
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((ip, port))
        except OSError as error:
            raise Refusal(
                f"Port {port} cannot be used ({error.strerror}): give another with --port N."
            ) from error


def _parser(port: int | None, browser: bool) -> argparse.ArgumentParser:
    from workbook.start.command import port_number

    parser = argparse.ArgumentParser(
        prog="python3 -m workbook present",
        description="Show one chapter's panels and text without code, in letters for a projector.",
        allow_abbrev=False,
    )
    parser.add_argument(
        "chapter", nargs="?", default="00", help="its number or file name (default: 00)"
    )
    parser.add_argument(
        "--share", action="store_true",
        help="let other computers on this network see it, not this one alone",
    )  # fmt: skip
    parser.add_argument("--port", type=port_number, default=port or PORT,
                        help="the port (default %(default)d)")  # fmt: skip
    parser.add_argument("--no-browser", action="store_false", dest="browser", default=browser,
                        help="only print the address")  # fmt: skip
    return parser
