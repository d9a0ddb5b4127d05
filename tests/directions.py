"""What the trade says a change does, and what the model says: `python tests/directions.py`.

Every direction is common practice, no source. None of it is put into the model: each is computed
here from two shots, and where the model says no, it says why. Nothing is tuned to agree.
"""

import sys
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import numpy as np

sys.path.insert(0, str(Path(__file__).parents[1]))  # run as a script from a checkout

import workbook as wb
from tests.conftest import PIN_DOWN, PIN_UP, SETUP, TOWARD_THUMB, USUAL, changed

STRAIGHT = wb.Line(laydown_board=20, launch_deg=0)
REFERENCE = wb.Lane.reference()
# what a bowler could see: less than this is "hardly"
SEEN = {"hook": 0.25, "length": 0.5, "roll": 0.5, "sharpness": 0.02, "flare": 0.05}
FIELDS = {
    "hook": "total_hook_boards",
    "length": "length_ft",
    "roll": "roll_ft",
    "sharpness": "sharpness_deg",
    "flare": "flare_in",
}
UNITS = {"hook": "boards", "length": "ft", "roll": "ft", "sharpness": "deg", "flare": "in"}
MORE, LESS = 1, -1


@dataclass(frozen=True)
class Direction:
    """One saying: `change` is expected to move things the way of `expected`.

    `trial` is what an independent calculation of ours found (derived); `explanation` is for a no.
    """

    change: str
    expected: str
    trial: str
    measure: Callable[[], tuple[str, str]]  # what is found, and the numbers
    explanation: str = ""


def shot(lane: wb.Lane = REFERENCE, line: wb.Line = STRAIGHT, **changes: Any) -> wb.Shot:
    return wb.roll(changed(**changes), lane, line, gutters=False)


def judged(quantity: str, sign: int, before: float, after: float) -> tuple[str, str]:
    moved = sign * (after - before)
    found = "no" if moved <= 0 else "yes" if moved >= SEEN[quantity] else "hardly"
    return found, f"{quantity} {before:.2f} -> {after:.2f} {UNITS[quantity]}"


def moves(quantity: str, sign: int, before: dict[str, Any], after: dict[str, Any]):
    """A measure: does going from the setup or lane `before` to `after` move it that way?"""

    def measure() -> tuple[str, str]:
        values = [getattr(shot(**changes), FIELDS[quantity]) for changes in (before, after)]
        return judged(quantity, sign, *values)

    return measure


def film(units_of_reference: float = 1.0, length_ft: float = 40.0) -> wb.Lane:
    """The reference lane with another amount or length: the same film on all boards, soft end."""
    along = REFERENCE.film_um[0, 0] / (1 + np.exp((np.arange(61.0) - length_ft) / 0.5))
    return wb.Lane("other oil", np.repeat(units_of_reference * along[:, None], 39, axis=1))


def backs_up() -> tuple[str, str]:
    hook = shot(axis_rotation_deg=-20).total_hook_boards
    return "yes" if hook < 0 else "no", f"hook {hook:.2f} boards"


def spread(lane: wb.Lane) -> tuple[float, float]:
    """Boards between two shots aimed two boards apart: at the arrows, and at the pins."""
    low, high = (wb.roll(SETUP, lane, wb.Line(laydown_board=26, arrow_board=a)) for a in (17, 19))
    return high.arrow_board - low.arrow_board, high.entry_board - low.entry_board


def house_forgives() -> tuple[str, str]:
    (house_arrows, house), (flat_arrows, flat) = spread(wb.Lane.house()), spread(wb.Lane.flat())
    agrees = abs(house_arrows - flat_arrows) < 0.05 and house < flat - 0.1
    words = f"arrows {house_arrows:.2f} / {flat_arrows:.2f}, pins {house:.2f} / {flat:.2f} boards"
    return "yes" if agrees else "no", words


def rings_leave_grip() -> tuple[str, str]:
    setup = changed(layout=TOWARD_THUMB)
    rings = wb.roll(setup, REFERENCE, STRAIGHT, gutters=False).rings
    inch = 27.0 / 360.0
    thumb = wb.Pap(0.0, -2.625).vector(27.0)
    away = [
        inch * (np.degrees(np.arccos(ring.axis @ thumb)) - ring.opening_deg)
        for ring in (rings[0], rings[6])
    ]
    return "yes" if abs(away[1]) > abs(away[0]) else "no", (
        f"ring to thumb hole {abs(away[0]):.2f} -> {abs(away[1]):.2f} in"
    )


def pap_toward_psa() -> tuple[str, str]:
    setup = changed(layout=TOWARD_THUMB)
    path = wb.roll(setup, REFERENCE, STRAIGHT, gutters=False).path
    psa = wb.Pap(*setup.drilled.marks.psa_in).vector(27.0)
    apart = np.degrees(np.arccos(path.spin_axis @ psa))
    at_30 = np.interp(30.0, path.distance_ft, apart)
    return "yes" if at_30 < apart[0] else "no", f"axis to PSA {apart[0]:.1f} -> {at_30:.1f} deg"


def longer_and_sharper() -> tuple[str, str]:
    down, up = shot(layout=PIN_DOWN), shot(layout=PIN_UP)
    longer = judged("length", MORE, down.length_ft, up.length_ft)
    sharper = judged("sharpness", MORE, down.sharpness_deg, up.sharpness_deg)
    both = "yes" if longer[0] == sharper[0] == "yes" else "no"
    return both, f"{longer[1]}, {sharper[1]}"


UNDRILLED = dict(grip=wb.Grip())
GRIT = {grit: dict(surface=wb.Surface(grit=grit)) for grit in (180, 500)}
POLISHED = dict(surface=wb.Surface(polished=True))
SLOW = dict(speed_mph=15)
# A symmetric core with 3 oz of top weight: turning the drilling angle moves the CG mark alone.
SIDE = dict(intermediate_in=0, top_weight_oz=3)
BARE = dict(lane=wb.Lane("bare", np.zeros((61, 39))))
HEAVY_EFFORT, LIGHT_EFFORT = dict(rg_low_in=2.6, rev_rate_rpm=350 * 2.5 / 2.6), dict(rg_low_in=2.5)


def _row(change, expected, trial, quantity, sign, before, after, explanation="") -> Direction:
    return Direction(change, expected, trial, moves(quantity, sign, before, after), explanation)


def _rows(change, before, after, *effects) -> list[Direction]:
    """Rows of one change: each effect is (expected, trial, quantity, sign)."""
    return [_row(change, *effect, before, after) for effect in effects]


MORE_HOOK, LESS_HOOK = ("more hook", "yes", "hook", MORE), ("less hook", "yes", "hook", LESS)
LATER, EARLIER = ("later", "yes", "length", MORE), ("earlier", "yes", "length", LESS)
SHARPER = ("sharper", "yes", "sharpness", MORE)
LESS_FLARE, MORE_FLARE = ("less flare", "yes", "flare", LESS), ("more flare", "yes", "flare", MORE)

DIRECTIONS = [
    *_rows("more revs", dict(rev_rate_rpm=300), dict(rev_rate_rpm=400), MORE_HOOK),
    *_rows("faster", dict(speed_mph=17), dict(speed_mph=19), LESS_HOOK, LATER),
    *_rows("more rotation", dict(axis_rotation_deg=35), dict(axis_rotation_deg=65),
           MORE_HOOK, LATER, SHARPER),
    Direction("backup rotation", "backs up", "yes", backs_up),
    *_rows("more tilt", dict(axis_tilt_deg=5), dict(axis_tilt_deg=25),
           LESS_HOOK, ("longer", "hardly", "length", MORE)),
    *_rows("rougher: polished to 500 grit", POLISHED, GRIT[500], MORE_HOOK, EARLIER),
    _row("rougher: polished to 500 grit", "smoother", "yes", "sharpness", LESS, POLISHED,
         GRIT[500],
         "Sharpness here is the most turn in any 5 ft, and that happens on the dry boards past "
         "the oil, where a 500-grit ball and a polished one meet nearly the same friction. The "
         "rough ball arrives there with a little less slip, but friction, not slip, sets how "
         "fast it turns. The saying comes true when the ball has done much of its turning in "
         "the oil: for coarser finishes, thin oil or slow balls (next row)."),
    *_rows("rougher: polished to 180 grit, 15 mph", SLOW | POLISHED, SLOW | GRIT[180],
           ("smoother", "yes", "sharpness", LESS)),
    *_rows("more oil", dict(lane=film(0.75)), dict(lane=film(1.25)), LESS_HOOK, LATER),
    *_rows("longer oil", dict(lane=film(length_ft=38)), dict(lane=film(length_ft=42)),
           LESS_HOOK, LATER),
    *_rows("pin-to-PAP from 2 to 3 3/8, undrilled", UNDRILLED | dict(pin_to_pap_in=2),
           UNDRILLED | dict(pin_to_pap_in=3.375), MORE_FLARE),
    *_rows("pin-to-PAP from 5 1/2 to 3 3/8, undrilled", UNDRILLED | dict(pin_to_pap_in=5.5),
           UNDRILLED | dict(pin_to_pap_in=3.375), MORE_FLARE),
    _row("pin-to-PAP from 4 1/4 to 3 3/8, drilled", "more flare", "no", "flare", MORE,
         dict(pin_to_pap_in=4.25), dict(pin_to_pap_in=3.375),
         "The rule of 3 3/8 in is that of the undrilled ball. The holes pull the low-RG axis "
         "about a third of an inch from the pin toward the PAP and make the drilled ball "
         "asymmetric; at a VAL angle of 25 its greatest flare therefore lies nearer 4 to 4 1/2 "
         "in."),
    *_rows("larger VAL angle", dict(val_angle_deg=25), dict(val_angle_deg=75), LESS_FLARE,
           ("later roll", "yes", "roll", MORE)),
    _row("larger drilling angle", "later", "no", "length", MORE, dict(drilling_angle_deg=30),
         dict(drilling_angle_deg=75),
         "On a symmetric core the drilling angle moves nothing but the CG mark. On this mildly "
         "asymmetric one the larger angle leaves the drilled ball a larger differential; its "
         "axis starts more slowly but moves faster toward the end of the oil, so that drier "
         "cover meets the dry boards and the slip goes about half a foot earlier."),
    *_rows("higher RG", dict(rg_low_in=2.5), dict(rg_low_in=2.6), LATER),
    _row("higher RG, same rev rate", "less hook", "no", "hook", LESS, dict(rg_low_in=2.5),
         dict(rg_low_in=2.6),
         "At the same rev rate a higher RG brings more angular momentum to the lane, and the "
         "most turn there can be grows with it: the ball hooks later and, in the end, more. The "
         "saying holds at equal effort, when the rev rate falls as the RG rises (next row)."),
    *_rows("higher RG, equal effort (spin energy)", LIGHT_EFFORT, HEAVY_EFFORT, LESS_HOOK),
    *_rows("larger differential", dict(differential_in=0.030), dict(differential_in=0.055),
           MORE_HOOK),
    *_rows("no thumb hole", {}, dict(grip=wb.Grip(USUAL.holes[:2])), LESS_FLARE),
    *_rows("reactive against polyester, on oil", dict(cover="polyester"), dict(cover="reactive"),
           MORE_HOOK),
    *_rows("reactive against polyester, dry lane", BARE | dict(cover="polyester"),
           BARE | dict(cover="reactive"), MORE_HOOK),
    Direction("house against flat", "same spread at the arrows, less at the pins", "yes",
              house_forgives),
    *_rows("side weight: CG from away to toward the PAP", SIDE | dict(drilling_angle_deg=180),
           SIDE | dict(drilling_angle_deg=45), MORE_HOOK, LATER),
    Direction("oil rings", "leave the grip", "yes", rings_leave_grip),
    Direction("axis migration", "PAP goes toward the PSA", "yes", pap_toward_psa),
    Direction("pin up against pin down", "longer and snappier", "no", longer_and_sharper,
              "A widespread saying. Pin up leaves the drilled ball a larger differential, so it "
              "flares more, brings drier cover to the lane and gives up its slip earlier: it is "
              "not longer. Its sharpest turn is a few hundredths of a degree stronger at this "
              "release phase; at others it is the pin-down ball's."),
    _row("asymmetric against symmetric core", "sharper", "no", "sharpness", MORE,
         dict(intermediate_in=0), dict(intermediate_in=0.025),
         "The intermediate differential slows the axis just past the end of the oil, so the oil "
         "that the ball carries fades later and friction comes up a little later too: the slip "
         "goes later and the sharpest 5 ft are a little softer. Friction and the slip left set "
         "the turn."),
]  # fmt: skip


def table() -> list[tuple[Direction, str, str]]:
    """Every direction with what is found and the numbers."""
    return [(d, *d.measure()) for d in DIRECTIONS]


def main() -> None:
    rows = table()
    head = ("change", "expected (common practice, no source)", "trial", "model", "numbers")
    cells = [(d.change, d.expected, d.trial, found, words) for d, found, words in rows]
    widths = [max(len(row[i]) for row in [head, *cells]) for i in range(len(head))]
    for row in [head, *cells]:
        line = "  ".join(cell.ljust(width) for cell, width in zip(row, widths, strict=True))
        print(line.rstrip())
    print("\nWhy not:")
    for d, found, _ in rows:
        if found == "no":
            print(f"* {d.change}: {d.expected}. {d.explanation}")


if __name__ == "__main__":
    main()
