"""A ball's spec sheet, drilled and undrilled, and its flare as rows of text."""

from collections.abc import Mapping
from typing import TYPE_CHECKING

from workbook.ball_reading import DISTANCES_IN, BallReading
from workbook.ball_words import Bands, percent
from workbook.layout_tables import Cells, Table
from workbook.tables import shown

if TYPE_CHECKING:
    import pandas as pd

# about which axes an undrilled ball has its RGs: by whether it is asymmetric
AXES = {
    True: ("the pin", "square to pin and PSA", "the PSA"),
    False: ("the pin", "square to the pin", "square to the pin"),
}


def spec_table(reading: BallReading) -> Table:
    """RGs, differentials and weight: undrilled, pin up and pin down, and against other figures."""
    ball, up, down = reading.ball, reading.pin_up.drilled, reading.pin_down.drilled
    share = reading.intermediate_share
    rows: list[Cells] = []
    for name, axis, each in zip(
        ("low", "intermediate", "high"), AXES[ball.asymmetric], reading.percent_of_uniform,
        strict=True,
    ):  # fmt: skip
        values = (getattr(one, f"rg_{name}_in") for one in (ball, up, down))
        rows.append((f"RG {name} (undrilled: {axis}) [in]", *(shown(value, 3) for value in values),
                     f"{shown(each, 1)} % of a uniform ball's"))  # fmt: skip
    of_total = "-" if share is None else f"{percent(share)} of the total"
    rows += [
        (words, *(shown(getattr(one, name), digits) for one in (ball, up, down)), more)
        for words, name, digits, more in (
            ("differential [in]", "differential_in", 3, "-"),
            ("intermediate differential [in]", "intermediate_in", 3, of_total),
            ("weight [lb]", "weight_lb", 2, "-"),
        )
    ]
    moved = (shown(one.low_axis_moved_deg, 0) for one in (up, down))
    rows.append(("low-RG axis off the pin [deg]", "0", *moved, "-"))
    return Table(("", "undrilled", "pin up", "pin down", "undrilled against"), tuple(rows))


def flare_table(reading: BallReading, flare: Bands | None = None) -> Table:
    """The flare that this ball gives this bowler on the reference lane."""
    least, greatest = reading.least_flare, reading.greatest_flare
    said = [f"{one.low:.1f} to {one.high:.1f}" for one in flare] if flare else ["", ""]
    at = f"{reading.pin_up.layout.pin_to_pap_in:g} in"
    span = f"pin-to-PAP {DISTANCES_IN[0]:g} to {DISTANCES_IN[-1]:g} in"
    rows = (
        (f"pin up, pin-to-PAP {at}", shown(reading.flare_up_in, 1), said[0]),
        (f"pin down, pin-to-PAP {at}", shown(reading.flare_down_in, 1), said[1]),
        (f"pin up, least of {span}: {least.pin_to_pap_in:g} in", shown(least.flare_in, 1), "-"),
        (f"pin up, greatest: {greatest.pin_to_pap_in:g} in", shown(greatest.flare_in, 1), "-"),
    )
    return Table(("flare, reference lane", "[in]", "could be"), rows)


def readings_frame(readings: Mapping[str, BallReading]) -> "pd.DataFrame":
    """Several balls side by side: their sheets and what drilling both ways makes of them."""
    import pandas as pd

    rows = {
        name: (
            None if one.intermediate_share is None else round(100 * one.intermediate_share, 1),
            round(one.percent_of_uniform[0], 1),
            one.ball.differential_in,
            *(round(setup.drilled.differential_in, 4) for setup in (one.pin_up, one.pin_down)),
            round(one.flare_up_in, 1),
        )
        for name, one in readings.items()
    }
    columns = [
        "intermediate, % of total", "low RG, % of uniform", "differential [in]", "pin up [in]",
        "pin down [in]", "flare pin up [in]",
    ]  # fmt: skip
    return pd.DataFrame.from_dict(rows, orient="index", columns=columns)
