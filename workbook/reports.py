"""A comparison, or one laid-out ball, as plain text."""

import textwrap

from workbook import demo, tables
from workbook.certainty import bands, drilled_bands
from workbook.comparison import Comparison
from workbook.hole_shares import hole_effects
from workbook.layout_tables import (
    distances_table,
    grip_table,
    holes_table,
    marks_table,
    text_table,
)
from workbook.layout_words import layout_notes, layout_sentence, static_words
from workbook.notes import notes
from workbook.rating import REFERENCE, STRAIGHT
from workbook.rolling import roll
from workbook.sentences import compare_sentence
from workbook.setup import Setup

PITCHES = (
    "Spans cut to cut: finished thumb hole to finger bore. Pitch: + forward is toward the palm, -\n"
    "reverse; + lateral leans toward the ring finger."
)
WIDE = 44  # of the column of words
CAUTION = (
    "This plans and teaches; a qualified pro-shop operator drills, with eyes, lungs and hands\n"
    "protected. The governing body's current rules and local codes come first."
)


def report(c: Comparison, *, invented: bool = False) -> str:
    """The comparison as plain text: setups, figures, causes, how sure."""
    parts = [demo.NOTE] if invented else []
    parts += [_heading(c), _figures(c), _causes(c), _in_words(c), *_warnings(c), CAUTION]
    return "\n\n".join(parts)


def layout_report(setup: Setup) -> str:
    """A laid-out ball as plain text for the bench: marks, what each hole does, balance, notes.

    Raises
    ------
    InputRefused
        Not a `Setup`.
    """
    effects, sure = hole_effects(setup), drilled_bands(setup)
    shot = roll(setup, REFERENCE, STRAIGHT, gutters=False)
    lines = [
        layout_sentence(setup, effects, shot, sure), static_words(setup, sure),
        *layout_notes(setup, shot),
    ]  # fmt: skip
    parts = ["\n".join(textwrap.wrap(describe(setup), 96))]
    parts += [
        text_table(table)
        for table in (
            grip_table(setup), marks_table(setup), distances_table(setup),
            holes_table(effects, sure),
        )
    ]  # fmt: skip
    parts.insert(2, PITCHES)
    parts += ["\n".join(part for line in lines for part in textwrap.wrap(line, 96)), CAUTION]
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
    lines = [
        f"A  {c.a.name}: {describe(c.a)}",
        f"B  {c.b.name}: {describe(c.b)}",
        f"Lane: {lane}. Line: laid down on board {c.line.laydown_board:g}, launched "
        f"{abs(c.line.angle_deg):.2f} deg toward the {_side(c)}.",
    ]
    return "\n".join(part for line in lines for part in textwrap.wrap(line, 96))


def _side(c: Comparison) -> str:
    other = {"right": "left", "left": "right"}
    hand = c.a.bowler.hand
    return hand if c.line.angle_deg >= 0 else other[hand]


def _figures(c: Comparison) -> str:
    lines, group = [f"{'':<{WIDE}}{'A':>10}{'B':>10}{'B - A':>10}"], ""
    for row in tables.comparison_rows(c):
        if row.group != group:
            group = row.group
            lines.append(group)
        lines.append(
            f"  {row.words + ' [' + row.unit + ']':<{WIDE - 2}}"
            + "".join(f"{x:>10}" for x in row.cells)
        )
    return "\n".join(lines)


def _causes(c: Comparison) -> str:
    causes = tables.causes_shown(c)
    if not causes:
        return "A and B do not differ in anything that moves the ball."
    lines = ["What causes B - A (each property swapped in every order; the shares add up)"]
    lines.append(f"{'':<{WIDE}}" + "".join(f"{cause:>16}" for cause in causes))
    for key, (words, unit) in tables.SHARED_OUT.items():
        if key in c.shares:
            cells = [tables.shown(c.shares[key][cause], 2, sign=True) for cause in causes]
            lines.append(
                f"  {words + ' [' + unit + ']':<{WIDE - 2}}" + "".join(f"{x:>16}" for x in cells)
            )
    return "\n".join(lines)


def _in_words(c: Comparison) -> str:
    sentence = compare_sentence(c, bands(c.a, c.b, c.lane, c.line))
    note = (
        "In brackets: the middle four fifths of the difference when everything that nobody knows "
        "well (friction, oil carried, roughness, densities, where core and PAP really lie, the "
        "ball's turn at release) and the bowler's scatter are drawn at once, widened to hold the "
        "number itself. The entry angle alone wobbles by some tenths of a degree with that turn."
    )
    return "\n".join(textwrap.wrap(f"In words: {sentence}", 96) + textwrap.wrap(note, 96))


def _warnings(c: Comparison) -> list[str]:
    lines = notes(c)
    return ["\n".join(["Mind:", *lines])] if lines else []
