"""`python3 -m workbook compare [A.json B.json]`: two setups as a table and a picture."""

import argparse
import sys
import warnings
from dataclasses import replace
from pathlib import Path

from workbook import demo, errors
from workbook.comparison import USUAL_LINE, compare
from workbook.draw.overview import overview_png
from workbook.lane import STANDARD, Lane
from workbook.line import Line
from workbook.reports import report
from workbook.setup import Setup
from workbook.staging import ball_scene, lane_scene


def main(arguments: list[str] | None = None) -> int:
    """Run the command.

    Returns
    -------
    int
        0, or 2 after a refusal, which is printed as one sentence.
    """
    options = _parser().parse_args(arguments)
    warnings.simplefilter("ignore", errors.LegalLimit)  # the report prints them itself
    try:
        if len(options.setups) not in (0, 2):
            raise errors.InputRefused(
                f"number of setup files {len(options.setups)} is outside 0 (the demo) or 2 "
                "(A and B)."
            )
        picture = Path(options.picture)
        if picture.suffix.lower() != ".png" or not picture.absolute().parent.is_dir():
            raise errors.InputRefused(
                f"picture {errors.shown(options.picture)} must end in .png and lie in a folder "
                "that is there."
            )
        known = options.lane in STANDARD
        lane = getattr(Lane, options.lane)() if known else Lane.from_csv(options.lane)
        line = Line(laydown_board=options.laydown, arrow_board=options.arrow)
        a, b = _setups([Path(name) for name in options.setups])
        comparison = compare(a, b, lane, line)
        print(report(comparison, invented=not options.setups))
        try:
            overview_png(
                picture,
                lane_scene(comparison.lane, (a, b), (comparison.shot_a, comparison.shot_b)),
                (ball_scene("A", a, comparison.shot_a), ball_scene("B", b, comparison.shot_b)),
            )
        except OSError as why:
            raise errors.InputRefused(f"{picture} cannot be written: {why.strerror}.") from None
    except errors.InputRefused as refusal:
        print(refusal, file=sys.stderr)
        return 2
    print(f"\nPicture of the lane and both balls: {picture.resolve()}")
    return 0


def _parser() -> argparse.ArgumentParser:
    parser = argparse.ArgumentParser(
        prog="python3 -m workbook compare",
        description="Compare two setups on one lane. Without files: the same ball pin up and "
        "pin down (invented demo data).",
    )
    parser.add_argument("setups", nargs="*", metavar="SETUP.json", help="setup A and setup B")
    parser.add_argument(
        "--lane", default="house", help=f"{', '.join(STANDARD)}, or a lane table (CSV file)"
    )
    parser.add_argument("--laydown", type=float, default=USUAL_LINE.laydown_board,
                        help="laydown board (default %(default)g)")  # fmt: skip
    parser.add_argument("--arrow", type=float, default=USUAL_LINE.arrow_board,
                        help="board crossed at the arrows (default %(default)g)")  # fmt: skip
    parser.add_argument("--picture", default="comparison.png",
                        help="where the picture goes (default %(default)s)")  # fmt: skip
    return parser


def _setups(files: list[Path]) -> tuple[Setup, Setup]:
    if not files:
        return demo.pin_up_and_down()
    a, b = (Setup.from_json(file) for file in files)
    return (a if a.name else replace(a, name=files[0].stem)), (
        b if b.name else replace(b, name=files[1].stem)
    )
