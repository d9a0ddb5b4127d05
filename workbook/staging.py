"""From results to plain drawing data: what `scenes` holds and `draw` draws."""

import math
from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from workbook import sources, units
from workbook.certainty import Bands
from workbook.clearance import rings_over_holes
from workbook.core import sphere
from workbook.lane import Lane
from workbook.layout import Layout
from workbook.pin_places import PinMap
from workbook.rolling import Shot
from workbook.scenes import LABELS, BallScene, HoleOutline, LaneScene, Trace
from workbook.scenes_map import MapLayer, PinMapScene
from workbook.setup import Setup
from workbook.tables import shown

ARC = np.linspace(-math.pi / 2, math.pi / 2, 61)


def lane_scene(
    lane: Lane, setups: Sequence[Setup], shots: Sequence[Shot], how_sure: Bands | None = None
) -> LaneScene:
    """The lane with the paths of one or two shots, labelled A and B, and their bands if given."""
    paths = (how_sure.path_a, how_sure.path_b) if how_sure else (None, None)
    hand = setups[0].bowler.hand
    film = lane.film_um if hand == "right" else lane.film_um[:, ::-1]
    traces = (
        _trace(label, setup, shot, path)
        for label, setup, shot, path in zip(LABELS, setups, shots, paths, strict=False)
    )
    return LaneScene(tuple(traces), film, hand)


def _trace(label: str, setup: Setup, shot: Shot, path: NDArray[np.float64] | None = None) -> Trace:
    board, distance = shot.path.board, shot.path.distance_ft
    feet = np.arange(0 if path is None else path.shape[1])
    gutter = None if shot.gutter_ft is None else (float(board[-1]), shot.gutter_ft)
    return Trace(
        label=label,
        name=setup.name,
        board=board,
        distance_ft=distance,
        breakpoint=(shot.breakpoint_board, shot.breakpoint_ft) if shot.turns_back else None,
        half_slip_ft=shot.length_ft,
        roll_ft=shot.roll_ft,
        gutter=gutter,
        entry_board=shot.entry_board,
        entry_angle_deg=shot.entry_angle_deg,
        already_rolls=shot.already_rolls,
        band=None if path is None else np.array([np.interp(distance, feet, end) for end in path]),
    )


def ball_scene(label: str, setup: Setup, shot: Shot | None = None) -> BallScene:
    """The laid-out ball; with a shot, the oil rings it leaves."""
    circumference, d = setup.ball.circumference_in, setup.drilled
    arc = units.arc_per_inch(circumference)
    rings = shot.rings if shot else ()
    pap = setup.bowler.pap
    t_up, _ = sphere.pap_tangents(pap.over_in * arc, pap.up_in * arc)
    mark = d.marks.psa_in if setup.ball.asymmetric else d.marks.cg_in
    return BallScene(
        label=label,
        title=f"{setup.name}: {layout_words(setup.layout)}".removeprefix(": "),
        caption=f"differential {shown(d.differential_in, 3)} in, RG low {shown(d.rg_low_in, 3)} in"
        + ("; one oil ring" if len(rings) == 1 else "")
        + (f"; {len(rings)} oil rings, the first darkest" if len(rings) > 1 else ""),
        hand=setup.bowler.hand,
        holes=hole_outlines(setup),
        pin=_point(d.marks.pin_in, arc),
        mass_mark=_point(mark, arc),
        mass_kind="PSA" if setup.ball.asymmetric else "CG",
        pap=pap.vector(circumference),
        val=np.array([sphere.go(pap.vector(circumference), t_up, t) for t in ARC]),
        midline=np.array([sphere.point(t, 0.0) for t in ARC]),
        grip_line=np.array([sphere.point(0.0, t) for t in ARC]),
        rings=tuple(ring.outline() for ring in rings),
        ring_over_hole=rings_over_holes(setup, shot),
        circumference_in=circumference,
        layout_line=np.vstack(
            [
                _way(pap.vector(circumference), _point(d.marks.pin_in, arc)),
                _way(_point(d.marks.pin_in, arc), _point(mark, arc)),
            ]
        ),
    )


def layout_words(layout: Layout) -> str:
    """The three numbers as drillers write them: "45° x 4 1/2 x 25°"."""
    whole, eighths = divmod(round(layout.pin_to_pap_in * 8), 8)
    inches = f"{layout.pin_to_pap_in:g}"
    if abs(layout.pin_to_pap_in * 8 - (8 * whole + eighths)) < 1e-9 and eighths:
        part = math.gcd(eighths, 8)
        inches = (
            f"{whole} {eighths // part}/{8 // part}" if whole else f"{eighths // part}/{8 // part}"
        )
    return f"{layout.drilling_angle_deg:g}° x {inches} x {layout.val_angle_deg:g}°"


def _way(a: sphere.Vector, b: sphere.Vector) -> NDArray[np.float64]:
    """Points of the great circle from a to b; just a where they are one point."""
    arc = sphere.angle(a, b)
    if not 1e-6 < arc < math.pi - 1e-6:
        return a[None, :]
    toward = sphere.tangent_toward(a, b)
    return np.array([sphere.go(a, toward, t) for t in np.linspace(0.0, arc, 25)])


def _point(place_in: tuple[float, float], arc: float) -> NDArray[np.float64]:
    return sphere.point(place_in[0] * arc, place_in[1] * arc)


def pin_map_scene(setup: Setup, mapped: PinMap, shot: Shot) -> PinMapScene:
    """The maps with the setup's own pin on them; its flare is that of the shot."""
    circumference, d = setup.ball.circumference_in, setup.drilled
    limited = setup.ball.weight_lb > sources.value("static_max_above")
    layers = (
        MapLayer("differential", "in", mapped.differential_in, d.differential_in, 3,
                 sources.value("differential_max")),
        MapLayer("intermediate", "in", mapped.intermediate_in, d.intermediate_in, 3),
        MapLayer("flare", "in", mapped.flare_in, shot.flare_in, 1),
    )  # fmt: skip
    return PinMapScene(
        places=mapped.places,
        layers=layers,
        static_oz=mapped.static_oz,
        static_limit_oz=sources.value("static_max") if limited else None,
        pin=_point(d.marks.pin_in, units.arc_per_inch(circumference)),
        pap=setup.bowler.pap.vector(circumference),
        holes=hole_outlines(setup),
        hand=setup.bowler.hand,
        circumference_in=circumference,
    )


def hole_outlines(setup: Setup) -> tuple[HoleOutline, ...]:
    """The rims of all holes."""
    circumference = setup.ball.circumference_in
    return tuple(HoleOutline(hole.name, hole.rim(circumference)) for hole in setup.grip.holes)
