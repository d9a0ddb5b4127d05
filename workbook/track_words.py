"""A measured bowler in a sentence, in notes and as code."""

import math

from workbook.as_code import call
from workbook.bowler import Bowler
from workbook.demo import NOTE
from workbook.measuring import Measured, ReleaseMatch
from workbook.tables import shown
from workbook.track import ERROR_IN, TrackReading

PARTS = 16  # of an inch, as a tape has them


def inches(value: float, parts: int = PARTS) -> str:
    """An inch figure as read from a tape, to the nearest of so many parts: "5 1/16"."""
    return _fraction(round(abs(value) * parts), parts, "-" if round(value * parts) < 0 else "")


def within(value: float, parts: int = PARTS) -> str:
    """An error in inches, rounded up to whole parts so that what is said holds."""
    return _fraction(max(1, math.ceil(value * parts - 1e-9)), parts, "")


def _fraction(count: int, parts: int, sign: str) -> str:
    whole, rest = divmod(count, parts)
    if not rest:
        return f"{sign}{whole}"
    common = math.gcd(rest, parts)
    part = f"{rest // common}/{parts // common}"
    return f"{sign}{whole} {part}" if whole else f"{sign}{part}"


def track_sentence(reading: TrackReading) -> str:
    """PAP and tilt, how sure, and from how much of the ring."""
    way = "down" if round(reading.pap_up_in * PARTS) < 0 else "up"
    warn = ""
    if reading.misfit:
        warn = (
            f"The points do not lie on one ring (they scatter by {shown(reading.scatter_in, 2)} "
            "in): do not use this PAP. "
        )
    return warn + (
        f"PAP {inches(reading.pap_over_in)} in over, {inches(abs(reading.pap_up_in))} in {way}, "
        f"within {within(reading.over_error_in)} in over and {within(reading.up_error_in)} in up "
        f"or down; axis tilt {shown(reading.tilt_deg, 1)}°, within "
        f"{shown(reading.tilt_error_deg, 1)}° (each at least 9 times in 10). "
        f"{len(reading.points_in)} points over {reading.arc_deg:.0f}° of the ring, each measured "
        f"to {inches(reading.error_in, 64)} in."
    )


def left_over_words(groups: list[str], style: str) -> str:
    """What is still the invented bowler's although the points are not."""
    called = {"revs": "revs", "tape": "tilt by tape"}
    return (
        f"{', '.join(called.get(group, group) for group in groups)}: still those of the invented "
        f"bowler '{style}', in the table and in a file saved now. Type yours, or empty the fields."
    )


def match_sentence(match: ReleaseMatch, most_turn_deg: float, ball: str) -> str:
    """How revs match speed, where friction pulls, and the most that this release can turn a ball.

    `ball` names the one whose RG was taken.
    """
    if abs(match.pull_deg) <= 90.0:
        backup = " and away from the hook" if match.pull_deg < 0 else ""
        pull = f"{shown(abs(match.pull_deg), 0)}° off straight back{backup}"
    else:
        pull = f"{shown(abs(match.pull_deg) - 90.0, 0)}° forward of straight sideways"
    return (
        f"At release the ball's surface runs at {shown(match.percent, 0)} % of its speed, so the "
        f"contact slides at {shown(match.slip_mph, 1)} mph and friction pulls {pull}; no "
        f"lane can turn it by more than {shown(most_turn_deg, 1)}° (for the RG of {ball} and a "
        "symmetric core: textbook)."
    )


def track_notes(reading: TrackReading, *, thumb: bool, invented: str = "") -> list[str]:
    """What is doubtful, what the region leaves out, and how the grip centre is marked."""
    said = list(reading.doubts)
    said.append(
        "The region is what the measuring error leaves (least squares on the sphere, likelihood "
        "ratio against chi-square: textbook); that error itself is an assumption. It leaves out "
        "what flare does: the first ring shows the mean axis of the first turn, so a ball with "
        "much differential shows a PAP already on its way. Measure with a spare ball."
    )
    if not thumb:
        said.append(
            "Without a thumb hole the grip centre is an agreed point: drillers mark it where it "
            "would be with one, half a span below the finger holes on the line between them, and "
            "measure everything from that same mark (common practice, no source). The rules ask "
            "for a + at the palm of such a ball (published: USBC, 1 Aug 2020)."
        )
    if invented:
        said.append(
            f"{NOTE} The points lie on the first ring of {invented}, as this model rolls it, each "
            f"moved by a random error of {inches(ERROR_IN)} in (a standard deviation, along and "
            f"across) and rounded to 1/{PARTS} in."
        )
    said.append(
        "Speed dominant, matched, rev dominant: words of the trade without an agreed number "
        "(common practice, no source), so none is drawn here."
    )
    return said


def mean_speed_words(mean: Measured, release_mph: float, distance_ft: float) -> str:
    """By how much a mean lies below the speed at release, as the model rolls it."""
    return (
        f"A time over {distance_ft:g} ft gives the mean speed, {shown(mean.value, 1)} mph; "
        f"friction has slowed the ball by then, so at release it was faster: by "
        f"{shown(release_mph - mean.value, 1)} mph as the model rolls the chosen ball on the house "
        "lane (as sure as its friction, an assumption; the ± beside it is that of the clock alone)."
    )


def track_code(reading: TrackReading, bowler: Bowler | None) -> str:
    """The lines that give the same reading and bowler through the front door."""
    points = ", ".join(f"({over:g}, {up:g})" for over, up in reading.points_in.tolist())
    lines = [
        "import workbook as wb",
        f"track = [{points}]",
        f"r = wb.pap_from_track(track, {reading.circumference_in:g}, {reading.error_in:g})",
        "r.pap_over_in, r.pap_up_in, r.tilt_deg, r.over_error_in, r.up_error_in, r.doubts",
    ]
    if bowler is not None:
        around = f"{reading.circumference_in:g}"
        lines += [f"bowler = {call(bowler)}", f"wb.release_match(bowler, {around})"]
    return "\n".join(lines)
