"""Read the command line and do what it asks."""

import argparse
import os
import sys
from pathlib import Path

from workbook.start import checks, environment, places
from workbook.start.refusal import Refusal

COMMANDS = {
    "test": "check the code and run every test (or pytest alone, with the words that follow)",
    "check": "print every published check value beside what the library gives",
    "compare": "compare two setups, without opening Lab",
    "exercises": "say what is wrong with exercise files (check), or list all of them (list)",
    "present": "show one chapter without code, for a projector",
    "wheels": "fill a folder to set up other computers from, without a network",
}
NEED_TESTS = ("test", "check")
_NO_TESTS = "The tests come with a checkout, not with the installed package."
OF_CHECKOUT = {
    "test": _NO_TESTS,
    "check": _NO_TESTS,
    "wheels": "The packages are fetched from a checkout, not from the installed package.",
}


def run(argv: list[str]) -> int:
    """Run ``python3 -m workbook`` with `argv` and return the exit status."""
    try:
        return _run(argv)
    except Refusal as refusal:
        print(refusal, file=sys.stderr)
        return 1
    except KeyboardInterrupt:
        print("Stopped.", file=sys.stderr)
        return 130


def split(argv: list[str]) -> tuple[list[str], str | None, list[str]]:
    """Split `argv` into our own options, the command, and the words that belong to the command.

    Examples
    --------
    >>> split(["--wheels", "usb", "test", "-k", "lane"])
    (['--wheels', 'usb'], 'test', ['-k', 'lane'])
    """
    for i, word in enumerate(argv):
        is_value = i > 0 and argv[i - 1] in ("--wheels", "--port")
        if word in COMMANDS and not is_value:
            return argv[:i], word, argv[i + 1 :]
    return argv, None, []


def _run(argv: list[str]) -> int:
    own, command, words = split(argv)
    options, rest = _parser().parse_known_args(own)
    if rest:
        known = ", ".join(COMMANDS)
        raise Refusal(
            f"{rest[0]} is none of the workbook's commands ({known}) or options (--help)."
        )
    root = places.checkout()
    if root:
        wheels = options.wheels.resolve() if options.wheels else None
        if wheels and not wheels.is_dir():
            raise Refusal(
                f"--wheels {wheels} is no folder: give the folder that holds the packages."
            )
        environment.ensure(root, ["test"] if command in NEED_TESTS else [], wheels, argv)
        if command in OF_CHECKOUT:
            return _do_in_checkout(root, command, words)
    elif command in OF_CHECKOUT:
        raise Refusal(OF_CHECKOUT[command])
    if command == "compare":
        from workbook.commands.compare import main

        return main(words)
    if command == "exercises":
        from workbook.commands import exercises

        return exercises.main(words)
    return _open(command, words, options)


def _do_in_checkout(root: Path, command: str, words: list[str]) -> int:
    if command == "test":
        return checks.run(root, words)
    if command == "check":
        from workbook.commands import check

        return check.main(root, words)
    from workbook.commands import wheels

    return wheels.main(root, words)


def _open(command: str | None, words: list[str], options: argparse.Namespace) -> int:
    notebooks = places.notebooks_root(Path.cwd())
    browser = not options.no_browser and _has_screen()
    if command == "present":
        from workbook.commands import present

        return present.main(notebooks, words, options.port, browser)
    from workbook.start import lab

    return lab.serve(notebooks, options.port or lab.PORT, browser)


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m workbook",
        description="Open the bowling-ball layout workbook in JupyterLab.",
        epilog="Commands: " + "; ".join(f"{name}: {text}" for name, text in COMMANDS.items()) + ".",
        allow_abbrev=False,
    )
    parser.add_argument("--no-browser", action="store_true", help="only print the address")
    parser.add_argument("--port", type=port_number, help="the first port to try (8888)")
    parser.add_argument(
        "--wheels", type=Path, metavar="DIR", help="install from this folder, without a network"
    )
    return parser


def port_number(text: str) -> int:
    """Return the port that `text` names, or refuse it in argparse's way."""
    if not text.isdecimal() or not 1 <= int(text) <= 65535:
        raise argparse.ArgumentTypeError(f"the port {text} is not a number from 1 to 65535")
    return int(text)


def _has_screen() -> bool:
    if sys.platform in ("win32", "darwin"):
        return True
    return any(os.environ.get(name) for name in ("DISPLAY", "WAYLAND_DISPLAY"))
