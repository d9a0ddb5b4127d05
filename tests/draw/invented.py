"""Invented scenes for the drawing tests: they look like real ones, and come from no physics."""

import numpy as np

from workbook.scenes import BallScene, HoleOutline, LaneScene, Trace

FT = np.linspace(0.0, 60.0, 121)


def film(thickest=5.0, length_ft=40.0):
    across = np.interp(np.arange(1, 40), [1, 8, 14, 26, 32, 39], [0.15, 0.3, 1, 1, 0.3, 0.15])
    along = np.clip(1 - 0.75 * np.arange(61) / length_ft, 0, None) * (np.arange(61) <= length_ft)
    return thickest * along[:, None] * across[None, :]


def hook(label, start=20.0, out=7.0, turn_ft=38.0, entry=17.5, name="", **changes):
    """A path that runs straight out to `out` at `turn_ft` and bends back to `entry`."""
    before = np.clip(1 - FT / max(turn_ft, 0.1), 0, None) ** 1.3
    after = np.clip((FT - turn_ft) / (60 - turn_ft), 0, None) ** 1.7
    board = out + (start - out) * before + (entry - out) * after
    facts = dict(
        breakpoint=(out, turn_ft),
        half_slip_ft=turn_ft - 3,
        roll_ft=turn_ft + 11,
        entry_board=entry,
        entry_angle_deg=4.9,
    )
    return Trace(label, name, board, FT, **(facts | changes))


def gutter(label, ft=45.0, edge=0.5, name=""):
    along = FT[ft >= FT]
    board = 15 + (edge - 15) * along / ft
    return Trace(
        label,
        name,
        board,
        along,
        breakpoint=(edge, ft),
        half_slip_ft=None,
        roll_ft=None,
        gutter=(edge, ft),
    )


def backup(label):
    board = 25 - 20 * (FT / 60) ** 2
    return Trace(
        label,
        "backs up",
        board,
        FT,
        breakpoint=(5.0, 60.0),
        half_slip_ft=35.0,
        roll_ft=58.0,
        entry_board=5.0,
        entry_angle_deg=-3.2,
    )


def lane(*traces, hand="right", thickest=5.0):
    return LaneScene(traces, film(thickest), hand)


def point(over_deg, up_deg):
    a, b = np.radians([over_deg, up_deg])
    return np.array([np.cos(b) * np.sin(a), np.sin(b), np.cos(b) * np.cos(a)])


def circle(axis, opening_deg, number=121):
    """Closed circle at an angle from an axis."""
    axis = np.asarray(axis) / np.linalg.norm(axis)
    side = np.cross(axis, (0.3, 0.9, 0.2))
    side /= np.linalg.norm(side)
    turn, angle = np.linspace(0, 2 * np.pi, number), np.radians(opening_deg)
    return np.cos(angle) * axis + np.sin(angle) * (
        np.outer(np.cos(turn), side) + np.outer(np.sin(turn), np.cross(axis, side))
    )


def holes(thumb=True):
    places = [
        ("middle finger", -8.2, 34.8, 6.5),
        ("ring finger", 8.2, 34.8, 6.5),
        ("thumb", 0.0, -35.0, 8.0),
    ]
    return tuple(
        HoleOutline(name, circle(point(over, up), wide, 40))
        for name, over, up, wide in places[: 2 + thumb]
    )


def ball(label="A", hand="right", rings=12, over=(), mass_kind="PSA", **changes):
    pap, psa = point(66.7, 6.7), point(30.8, -33.0)
    axes = [pap + 0.045 * k * (psa - pap) for k in range(rings)]
    arc = np.radians(np.linspace(-90, 90, 91))
    across = pap * (1, 0, 1) / np.hypot(pap[0], pap[2])
    facts = dict(
        title="pin up",
        caption="flare 4.1 in",
        hand=hand,
        holes=holes(),
        pin=point(24.5, 57.0),
        mass_mark=psa,
        mass_kind=mass_kind,
        pap=pap,
        val=np.outer(np.cos(arc), across) + np.outer(np.sin(arc), (0, 1, 0)),
        midline=np.array([point(a, 0) for a in range(-180, 181, 4)]),
        grip_line=np.array([point(0, a) for a in range(-90, 91, 4)]),
        rings=tuple(circle(axis, 76) for axis in axes),
        ring_over_hole=tuple(k in over for k in range(rings)),
    )
    return BallScene(label, **(facts | changes))
