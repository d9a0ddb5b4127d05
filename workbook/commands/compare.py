"""`python3 -m workbook compare [A.json B.json]`: two setups as a table and a picture."""

import argparse
import sys
import textwrap
import warnings
from dataclasses import replace
from pathlib import Path

from workbook import demo, errors, tables
from workbook.certainty import difference_ranges
from workbook.comparison import USUAL_LINE, Comparison, compare
from workbook.draw.overview import overview_png
from workbook.lane import Lane
from workbook.line import Line
from workbook.sentences import compare_sentence, notes
from workbook.setup import Setup
from workbook.staging import ball_scene, lane_scene

LANES = {"house": Lane.house, "flat": Lane.flat, "heavy": Lane.heavy, "dry": Lane.dry,
         "reference": Lane.reference}  # fmt: skip


CAUTION = (
    "This plans and teaches; a qualified pro-shop operator drills, with eyes, lungs and hands\n"
    "protected. The governing body's current rules and local codes come first."
)


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
        lane = LANES[options.lane]() if options.lane in LANES else Lane.from_csv(options.lane)
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
        "--lane", default="house", help=f"{', '.join(LANES)}, or a lane table (CSV file)"
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


def report(c: Comparison, *, invented: bool = False) -> str:
    """The comparison as plain text: setups, figures, causes, how sure."""
    parts = [demo.NOTE] if invented else []
    parts += [_heading(c), _figures(c), _causes(c), _in_words(c), *_warnings(c), CAUTION]
    return "\n\n".join(parts)


def describe(setup: Setup) -> str:
    """One line on a setup: layout, surface, ball, bowler."""
    layout, bowler, ball = setup.layout, setup.bowler, setup.ball
    return (
        f"{layout.drilling_angle_deg:g} deg x {layout.pin_to_pap_in:g} in x "
        f"{layout.val_angle_deg:g} deg, pin {setup.drilled.pin_side}, {setup.surface}, "
        f"{ball.weight_lb:g} lb {ball.cover}, top weight {ball.top_weight_oz:g} oz; "
        f"{bowler.hand}-handed, {bowler.speed_mph:g} mph, "
        f"{bowler.rev_rate_rpm:g} rpm, rotation {bowler.axis_rotation_deg:g}, "
        f"tilt {bowler.axis_tilt_deg:g}"
    )


def _heading(c: Comparison) -> str:
    lane = f"{c.lane.name}, {c.lane.volume_ml:.0f} mL, {c.lane.length_ft:.0f} ft"
    return "\n".join(
        [
            f"A  {c.a.name}: {describe(c.a)}",
            f"B  {c.b.name}: {describe(c.b)}",
            f"Lane: {lane}. Line: laid down on board {c.line.laydown_board:g}, launched "
            f"{abs(c.line.angle_deg):.2f} deg toward the {_side(c)}.",
        ]
    )


def _side(c: Comparison) -> str:
    other = {"right": "left", "left": "right"}
    hand = c.a.bowler.hand
    return hand if c.line.angle_deg >= 0 else other[hand]


def _figures(c: Comparison) -> str:
    lines, group = [f"{'':<38}{'A':>10}{'B':>10}{'B - A':>10}"], ""
    for row in tables.comparison_rows(c):
        if row.group != group:
            group = row.group
            lines.append(group)
        lines.append(
            f"  {row.words + ' [' + row.unit + ']':<36}" + "".join(f"{x:>10}" for x in row.cells)
        )
    return "\n".join(lines)


def _causes(c: Comparison) -> str:
    causes = tables.causes_shown(c)
    if not causes:
        return "A and B do not differ in anything that moves the ball."
    lines = ["What causes B - A (each property swapped in every order; the shares add up)"]
    lines.append(f"{'':<38}" + "".join(f"{cause:>16}" for cause in causes))
    for key, (words, unit) in tables.SHARED_OUT.items():
        if key in c.shares:
            cells = [tables.shown(c.shares[key][cause], 2, sign=True) for cause in causes]
            lines.append(f"  {words + ' [' + unit + ']':<36}" + "".join(f"{x:>16}" for x in cells))
    return "\n".join(lines)


def _in_words(c: Comparison) -> str:
    sentence = compare_sentence(c, difference_ranges(c.a, c.b, c.lane, c.line))
    note = (
        "In brackets: the middle four fifths of the difference when everything that nobody knows "
        "well (friction, oil carried, roughness, densities, the ball's turn at release) is drawn "
        "over its range. The entry angle alone wobbles by some tenths of a degree with that turn."
    )
    return "\n".join(textwrap.wrap(f"In words: {sentence}", 96) + textwrap.wrap(note, 96))


def _warnings(c: Comparison) -> list[str]:
    lines = notes(c)
    return ["\n".join(["Mind:", *lines])] if lines else []
