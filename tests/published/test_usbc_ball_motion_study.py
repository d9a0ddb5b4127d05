"""USBC Ball Motion Study, 2008 (published)."""

import numpy as np

import workbook as wb
from tests.conftest import PIN_DOWN, PIN_UP, SETUP, changed
from tests.published.facts import fact

HOOK = "hook_potential_boards"


def test_surface_moves_the_hook_more_than_layout_or_core():
    """The top three of its 18 factors are surface."""
    assert fact("surface_first").text == "yes"

    def effect(one, two):
        return abs(getattr(wb.rate(changed(**one)), HOOK) - getattr(wb.rate(changed(**two)), HOOK))

    surface = effect(dict(surface=wb.Surface(polished=True)), dict(surface=wb.Surface(grit=500)))
    others = [
        effect(dict(layout=PIN_UP), dict(layout=PIN_DOWN)),
        effect(dict(rg_low_in=2.48), dict(rg_low_in=2.58)),
        effect(dict(differential_in=0.030), dict(differential_in=0.055)),
        effect(dict(drilling_angle_deg=30), dict(drilling_angle_deg=75)),
    ]
    fact("surface_first").check_that(
        surface > 2 * max(others),
        "surface moves hook over twice as much as layout or core",
        f"{surface:.1f} boards against {max(others):.1f} at most",
    )


def test_skid_then_hook_then_roll():
    """Hardly any turn at first, most in the middle, little once a tenth of the slip is left."""
    assert fact("skid_hook_roll").text == "skid, hook, roll"
    shot = wb.roll(SETUP, wb.Lane.house(), wb.Line(laydown_board=26, arrow_board=18))
    at = np.array([0.0, shot.length_ft - 20, shot.length_ft, shot.roll_ft, 60.0])
    turned = np.interp(at, shot.path.distance_ft, shot.path.direction_deg)
    skid, _, hook, roll = np.diff(turned) / np.diff(at)
    slip = np.interp(60.0, shot.path.distance_ft, shot.path.slip_mph)
    in_order = bool(np.all(np.diff(at) > 0))
    fact("skid_hook_roll").check_that(
        in_order and 0 <= skid < 0.2 * hook and abs(roll) < 0.5 * hook and slip < 0.1,
        "turns most in the hook; roll starts with a tenth of the slip left",
        f"{skid:.2f}, {hook:.2f}, {roll:.2f} deg a foot",
    )
