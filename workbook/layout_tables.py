"""A laid-out ball as rows of text: marks and clearances, drilled figures, what each hole does."""

from collections.abc import Sequence
from dataclasses import dataclass

from workbook.certainty import Range
from workbook.clearance import mark_clearances, ring_clearance
from workbook.hole_shares import QUANTITIES, HoleEffects
from workbook.rolling import Shot
from workbook.setup import Setup
from workbook.tables import shown

Cells = tuple[str, ...]
# words, unit and decimals of the quantities that holes share
_HOLES = dict(zip(QUANTITIES, (
    ("weight", "oz", 2), ("RG low", "in", 4), ("RG high", "in", 4), ("differential", "in", 4),
    ("intermediate", "in", 4), ("static: top", "oz", 2), ("static: side", "oz", 2),
    ("static: finger", "oz", 2), ("PSA off its mark", "deg", 1),
), strict=True))  # fmt: skip


@dataclass(frozen=True)
class Table:
    """A heading for each column, and the rows; the first column is words."""

    head: Cells
    rows: tuple[Cells, ...]


def marks_table(setup: Setup) -> Table:
    """Where the marks go, to a hundredth of an inch, and how far they keep from the holes."""
    marks = setup.drilled.marks
    gaps = {one.what: f"{_inches(one.gap_in)}, {one.hole}" for one in mark_clearances(setup)}
    rows = [
        (words, shown(at[0], 2), shown(at[1], 2), gaps.get(words, ""))
        for words, at in (
            ("pin", marks.pin_in), ("PSA", marks.psa_in), ("CG mark", marks.cg_in),
            ("PAP", tuple(setup.bowler.pap)),
        )
        if setup.ball.asymmetric or words != "PSA"
    ]  # fmt: skip
    rows += [
        (f"{hole.name} hole", shown(hole.over_in, 2), shown(hole.up_in, 2), "")
        for hole in setup.grip.holes
    ]
    head = ("over along the midline, then up", "over [in]", "up [in]", "gap to a hole")
    return Table(head, tuple(rows))


def distances_table(setup: Setup) -> Table:
    """The layout as three distances over the surface."""
    d = setup.layout.distances(setup.ball.circumference_in)
    psa = (("PSA to PAP", shown(d.psa_to_pap_in, 2)),) if setup.ball.asymmetric else ()
    rows = (
        ("pin to PAP", shown(d.pin_to_pap_in, 2)), *psa,
        ("pin buffer", shown(d.pin_buffer_in, 2)),
    )  # fmt: skip
    return Table(("the same layout in distances", "[in]"), rows)


def grip_table(setup: Setup) -> Table:
    """How each hole is cut [in]: spans, bore, hole inside an insert or slug, depth, pitches."""
    around, grip = setup.ball.circumference_in, setup.grip
    rows = []
    for hole in grip.holes:
        span = grip.span_in(hole.name, around)
        inside = hole.insert_inner_in
        rows.append((
            hole.name,
            "" if span is None else shown(span, 3),
            "" if span is None else shown(grip.full_span_in(span, hole.name), 3),
            shown(hole.diameter_in, 3),
            "bare" if inside is None else shown(inside, 3),
            shown(hole.depth_in, 2),
            shown(hole.forward_pitch_in, 3, sign=True),
            shown(hole.lateral_pitch_in, 3, sign=True),
        ))  # fmt: skip
    head = ("holes [in]", "span", "full", "bore", "inside", "deep", "forward", "lateral")
    return Table(head, tuple(rows))


def holes_table(effects: HoleEffects, bands: dict[str, Range] | None = None) -> Table:
    """What drilling does, hole by hole; the shares add up to after minus before."""
    rows = []
    for key, shares in effects.shares.items():
        words, unit, digits = _HOLES[key]
        band = bands.get(key) if bands else None
        rows.append((
            f"{words} [{unit}]",
            shown(effects.before[key], digits),
            *(shown(share, digits, sign=True) for share in shares),
            shown(effects.after[key], digits),
            _band(band, digits) if bands else "",
        ))  # fmt: skip
    head = ("what each hole does", "before", *effects.holes, "drilled", "could be (4 in 5)")
    return _without_empty_last(Table(head, tuple(rows)))


def _band(band: Range | None, digits: int) -> str:
    """From and to; a word where nothing that is drawn moves it by a digit that is shown."""
    if band is None:
        return ""
    ends = [shown(end, digits) for end in (band.low, band.high)]
    return " to ".join(ends) if len(set(ends)) == 2 else "no change shown"


def ring_words(setup: Setup, shot: Shot) -> str:
    """One sentence on the oil ring nearest to a hole; nothing without rings or holes."""
    nearest = ring_clearance(setup, shot)
    if nearest is None:
        return ""
    if nearest.gap_in < 0:
        return f"An oil ring runs over the {nearest.hole} hole."
    return (
        f"The oil ring nearest to a hole passes {_inches(nearest.gap_in)} from the edge of the "
        f"{nearest.hole} hole."
    )


def text_table(table: Table, gap: int = 2) -> str:
    """A table as plain text, first column to the left, the others to the right."""
    every: Sequence[Cells] = (table.head, *table.rows)
    widths = [max(len(cells[i]) for cells in every) for i in range(len(table.head))]
    lines = []
    for cells in every:
        first = cells[0].ljust(widths[0])
        rest = (cell.rjust(width + gap) for cell, width in zip(cells[1:], widths[1:], strict=True))
        lines.append((first + "".join(rest)).rstrip())
    return "\n".join(lines)


def _inches(value: float) -> str:
    return f"{shown(value, 2)} in"


def _without_empty_last(table: Table) -> Table:
    if any(row[-1] for row in table.rows):
        return table
    return Table(table.head[:-1], tuple(row[:-1] for row in table.rows))
