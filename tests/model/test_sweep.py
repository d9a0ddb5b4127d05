"""The whole allowed range of input: finite numbers, no numpy warnings, and a small slip scale."""

import math
import warnings
from dataclasses import fields

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import workbook as wb
from tests.conftest import BENCH, USUAL, changed

AT_THE_PINS = {"entry_board", "entry_angle_deg", "entry_speed_mph", "time_s", "total_hook_boards"}
NOT_ALWAYS = AT_THE_PINS | {"arrow_board", "length_ft", "roll_ft", "gutter_ft"}
PITCHED = wb.Hole(over_in=0, up_in=-3, diameter_in=1.5, depth_in=4, forward_pitch_in=-1.5,
                  lateral_pitch_in=1.5)  # fmt: skip
GRIPS = [wb.Grip(), USUAL, BENCH, wb.Grip(USUAL.holes[:2]), wb.Grip((*USUAL.holes[:2], PITCHED))]
LANES = {name: getattr(wb.Lane, name)() for name in ("house", "heavy", "dry", "reference")} | {
    "ice": wb.Lane.of_friction([(0, 0.0)]), "grippy": wb.Lane.of_friction([(0, 0.32)]),
    "flooded": wb.Lane("flooded", np.full((61, 39), 35.0)),
    "bare": wb.Lane("bare", np.zeros((61, 39))),
}  # fmt: skip


def inputs(record, *left_out):
    """Every number of an input record over its whole range."""
    return st.fixed_dictionaries({
        f.name: st.floats(f.metadata["low"], f.metadata["high"])
        for f in fields(record) if "unit" in f.metadata and f.name not in left_out
    })  # fmt: skip


balls = inputs(wb.Ball, "intermediate_in", "filler_density_g_cm3")
line = inputs(wb.Line, "arrow_board")
surfaces = st.one_of(st.just(dict(polished=True)), inputs(wb.Surface))
HARD_RELEASES = {
    "no revs": dict(rev_rate_rpm=0.0),
    "backup": dict(axis_rotation_deg=-20.0),
    "cranked": dict(rev_rate_rpm=700.0, speed_mph=8.0, axis_rotation_deg=90.0),
    "past side roll": dict(axis_rotation_deg=110.0, axis_tilt_deg=60.0, rev_rate_rpm=700.0),
    "slow": dict(speed_mph=8.0, rev_rate_rpm=0.0),
    "fast": dict(speed_mph=25.0, rev_rate_rpm=700.0),
}


def check(setup, lane, line, gutters=True):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        warnings.simplefilter("ignore", wb.LegalLimit)
        d = setup.drilled
        shot = wb.roll(setup, lane, line, gutters=gutters)
        p = shot.path
        columns = [p.time_s, p.distance_ft, p.board, p.speed_mph, p.direction_deg, p.rev_rate_rpm,
                   p.slip_mph, p.lane_film_um, p.contact_film_um, p.carried_film_um, p.friction,
                   p.spin_axis, p.axis_tilt_deg, p.axis_rotation_deg, p.ball_to_lane]  # fmt: skip
    drilled = [getattr(d, f.name) for f in fields(d)]
    numbers = [v for v in drilled if isinstance(v, (float, tuple)) and not isinstance(v, str)]
    flat = [x for v in numbers for x in (v if isinstance(v, tuple) else (v,))]
    assert all(math.isfinite(x) for x in flat if isinstance(x, float))
    assert 0 < d.rg_low_in <= d.rg_intermediate_in <= d.rg_high_in
    assert all(np.all(np.isfinite(column)) for column in columns)
    for f in fields(shot):
        value = getattr(shot, f.name)
        if f.name in NOT_ALWAYS and value is None:
            continue
        assert f.name in ("rings", "path", "notes") or math.isfinite(value), f.name
    assert not any("could not be followed" in note for note in shot.notes)
    in_gutter = shot.gutter_ft is not None
    assert all((getattr(shot, name) is None) == in_gutter for name in AT_THE_PINS)
    assert p.distance_ft[-1] == pytest.approx(shot.gutter_ft if in_gutter else 60.0)
    for ring in shot.rings:
        assert np.linalg.norm(ring.axis) == pytest.approx(1.0) and 0 <= ring.opening_deg <= 180
    return shot


@settings(max_examples=250)
@given(inputs(wb.Bowler), balls, st.floats(0, 1), inputs(wb.Layout), st.sampled_from(GRIPS),
       surfaces, inputs(wb.Assumptions), st.sampled_from(sorted(LANES)), line,
       st.booleans())  # fmt: skip
def test_every_number_is_finite(
    bowler, ball, share, layout, grip, surface, assumed, lane, aim, gutters
):
    ball["intermediate_in"] = share * ball["differential_in"]
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", wb.LegalLimit)
        setup = changed(grip=grip, surface=wb.Surface(**surface), intermediate_in=0.0)
        setup = changed(setup, **bowler, **ball, **layout, **assumed)
        check(setup, LANES[lane], wb.Line(**aim), gutters)


@pytest.mark.parametrize("release", HARD_RELEASES.values(), ids=HARD_RELEASES.keys())
@pytest.mark.parametrize("lane", LANES)
def test_hard_releases(release, lane):
    for grip in GRIPS:
        check(changed(grip=grip, **release), LANES[lane], wb.Line(laydown_board=12, launch_deg=0))


# Near rolling the step is bound by friction over slip scale: these take the most steps of all.
@pytest.mark.parametrize(
    ("assumed", "lane"),
    [({}, wb.Lane.of_friction([(0, 1.0)])),
     (dict(slip_scale=0.005), wb.Lane.of_friction([(0, 1.0)])),
     (dict(slip_scale=0.005, mu_dry_reactive=0.25), LANES["bare"])],
    ids=["greatest friction", "and least slip scale", "least slip scale"],
)  # fmt: skip
def test_slowest_ball_is_followed_to_the_pins(assumed, lane):
    setup = changed(speed_mph=8, rev_rate_rpm=0, **assumed)
    check(setup, lane, wb.Line(laydown_board=12, launch_deg=0))


@pytest.mark.parametrize(("laydown", "launch"), [(2, 10), (38, -10), (1, 0.5)])
def test_gutter_ball(laydown, launch):
    shot = check(changed(), LANES["ice"], wb.Line(laydown_board=laydown, launch_deg=launch))
    half_in, start_in = 20.75, (20 - laydown) * 41.5 / 39
    to_edge_ft = (half_in - math.copysign(start_in, start_in * launch)) / 12
    # straight but for the wobble of the centre about the centre of mass, under a millimetre
    straight_ft = to_edge_ft / math.tan(math.radians(abs(launch)))
    assert shot.gutter_ft == pytest.approx(straight_ft, rel=0.02)


def test_release_that_already_rolls_has_no_length_and_no_roll():
    circumference_ft = 27.0 / 12
    rolling = dict(speed_mph=15.0, axis_rotation_deg=0.0, axis_tilt_deg=0.0,
                   rev_rate_rpm=15 * 88 / circumference_ft)  # fmt: skip
    setup = changed(grip=wb.Grip(), differential_in=0, intermediate_in=0, **rolling)
    shot = check(setup, LANES["house"], wb.Line(laydown_board=20, launch_deg=0))
    assert shot.length_ft is None and shot.roll_ft is None
    assert shot.entry_speed_mph == pytest.approx(15.0)


def test_halving_the_slip_scale_moves_the_board_by_less_than_a_twentieth():
    """At the 95th percentile of 100 random releases of the teaching range."""
    rng = np.random.default_rng(5)
    aim = wb.Line(laydown_board=20, launch_deg=0)
    moved = []
    for _ in range(100):
        release = dict(
            speed_mph=rng.uniform(14, 21), rev_rate_rpm=rng.uniform(150, 500),
            axis_rotation_deg=rng.uniform(0, 90), axis_tilt_deg=rng.uniform(0, 30),
            release_phase_deg=rng.uniform(-180, 180), pin_to_pap_in=rng.uniform(1, 6),
            val_angle_deg=rng.uniform(10, 90), drilling_angle_deg=rng.uniform(10, 170),
        )  # fmt: skip
        boards = [
            wb.roll(changed(slip_scale=scale, **release), LANES["reference"], aim, gutters=False)
            for scale in (0.02, 0.01)
        ]
        moved.append(abs(boards[0].entry_board - boards[1].entry_board))
    assert np.percentile(moved, 95) < 0.05
    assert max(moved) > 0
