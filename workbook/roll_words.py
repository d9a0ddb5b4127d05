"""Words and code for two shots of which each may have its own line."""

from collections.abc import Sequence

from workbook.as_code import call, comparison_code
from workbook.comparison import Comparison
from workbook.line import Line
from workbook.rolling import Shot
from workbook.tables import shown


def own_lines_sentence(lines: Sequence[Line], shots: Sequence[Shot]) -> str:
    """Where A and B come in, each on its own line."""
    a, b = (
        f"{label} ({line.laydown_board:g} over {line.arrow_board:g}) {_arrival(shot)}"
        for label, line, shot in zip("AB", lines, shots, strict=True)
    )
    return f"Each on its own line: {a}; {b}."


def _arrival(shot: Shot) -> str:
    if shot.gutter_ft is not None:
        return f"goes into the gutter at {shown(shot.gutter_ft, 1)} ft"
    if shot.entry_board is None or shot.entry_angle_deg is None:
        return "could not be followed to the pins"
    return (
        f"comes in on board {shown(shot.entry_board, 1)} at {shown(shot.entry_angle_deg, 1)} "
        "degrees"
    )


def watch_code(c: Comparison, grip: str, own: Line | None = None) -> str:
    """Python lines that give the same answer; `own` is B's line where it has one."""
    code = comparison_code(c, grip)
    if own is None:
        return code
    return (
        f"{code}\nown = wb.roll(b, c.lane, {call(own)})\n"
        "print(own.entry_board, own.entry_angle_deg)"
    )
