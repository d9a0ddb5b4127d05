"""A measured bowler as rows of text."""

from workbook.bowler import Bowler
from workbook.layout_tables import Cells, Table
from workbook.measuring import Measured, ReleaseMatch
from workbook.tables import shown
from workbook.track import TrackReading


def bowler_table(
    reading: TrackReading,
    found: dict[str, Measured | None],
    release_mph: float | None,
    known: Bowler | None,
    known_words: str,
) -> Table:
    """Each measured figure, how far off it may be, and the same of a bowler known otherwise.

    Parameters
    ----------
    found : dict
        "speed", "revs", "rotation" and "tape": what was measured, None where nothing was.
    release_mph : float or None
        Speed at release [mph].
    """
    mean = found["speed"]
    release = None if mean is None or release_mph is None else Measured(release_mph, mean.error)
    rows = [
        ("PAP over [in]", Measured(reading.pap_over_in, reading.over_error_in), 2, "pap_over_in"),
        ("PAP up [in]", Measured(reading.pap_up_in, reading.up_error_in), 2, "pap_up_in"),
        ("axis tilt, from the ring [°]", Measured(reading.tilt_deg, reading.tilt_error_deg), 1,
         "axis_tilt_deg"),
        ("axis tilt, from the tape [°]", found["tape"], 1, "axis_tilt_deg"),
        ("mean speed [mph]", mean, 1, ""),
        ("speed at release, as rolled [mph]", release, 1, "speed_mph"),
        ("rev rate [rpm]", found["revs"], 0, "rev_rate_rpm"),
        ("axis rotation [°]", found["rotation"], 0, "axis_rotation_deg"),
    ]  # fmt: skip
    lines: list[Cells] = []
    for words, one, digits, field in rows:
        cells = ("-", "-") if one is None else (
            shown(one.value, digits), _within(one.error, digits)
        )  # fmt: skip
        theirs = shown(getattr(known, field), digits) if known and field else "-"
        lines.append((words, *cells, *((theirs,) if known else ())))
    return Table(("", "measured", "within", *((known_words,) if known else ())), tuple(lines))


def _within(error: float, digits: int) -> str:
    """An error as shown; never nothing."""
    text = shown(error, digits)
    return f"± {text}" if float(text) else f"below {0.5 * 10.0**-digits:g}"


def match_table(match: ReleaseMatch, most_turn_deg: float) -> Table:
    """How revs match speed at release."""
    rows = (
        ("surface speed from the revs [mph]", shown(match.surface_mph, 1)),
        ("the same in % of the ball's speed", shown(match.percent, 0)),
        ("slip at release [mph]", shown(match.slip_mph, 1)),
        ("friction pulls, off straight back [°]", shown(match.pull_deg, 0)),
        ("most turn there can be [°]", shown(most_turn_deg, 1)),
    )
    return Table(("revs against speed", ""), rows)
