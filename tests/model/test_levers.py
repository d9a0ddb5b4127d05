"""What each lever is worth: single ratings over its range, and the published order."""

import warnings
from dataclasses import replace

import pytest

import workbook as wb
from workbook import demo

UP, _DOWN = demo.pin_up_and_down()


@pytest.fixture(scope="module")
def swings():
    return {lever.name: lever for lever in wb.lever_swings(UP, draws=16)}


def test_each_is_the_greatest_minus_the_least_rating(swings):
    surfaces = [*(wb.Surface(grit=g) for g in (500, 1000, 2000, 5000)), wb.Surface(polished=True)]
    over = {
        "surface": [replace(UP, surface=one) for one in surfaces],
        "pin-to-PAP": [replace(UP, layout=replace(UP.layout, pin_to_pap_in=d))
                       for d in (2, 3, 4, 5, 6)],
        "other ball: RG": [replace(UP, ball=replace(UP.ball, rg_low_in=r))
                           for r in (2.47, 2.535, 2.6)],
    }  # fmt: skip
    for name, setups in over.items():
        rated = [wb.rate(one) for one in setups]
        for quantity, kept in (
            ("length_ft", "length_ft"),
            ("hook_potential_boards", "hook_boards"),
        ):
            values = [getattr(one, quantity) for one in rated]
            found = getattr(swings[name], kept)
            assert found.value == pytest.approx(max(values) - min(values), abs=1e-6), name
            assert found.low <= found.value <= found.high


def test_surface_ranks_first(swings):
    """Published: USBC Ball Motion Study, 2008: surface leads the factors of ball motion."""
    others = [lever for name, lever in swings.items() if name != "surface"]
    for quantity in ("length_ft", "hook_boards"):
        assert getattr(swings["surface"], quantity).value > 2 * max(
            getattr(lever, quantity).value for lever in others
        )


def test_without_draws_there_are_no_bands_and_the_same_values(swings):
    for lever in wb.lever_swings(UP):
        assert lever.hook_boards.low is None
        assert lever.hook_boards.value == pytest.approx(swings[lever.name].hook_boards.value)


def test_steps_beyond_a_rule_do_not_warn():
    heavy = replace(UP, ball=replace(UP.ball, top_weight_oz=4.9))
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        assert len(wb.lever_swings(heavy, draws=2)) == 6


def test_a_ball_without_length_has_no_swing_of_it():
    hurled = replace(UP.bowler, speed_mph=25.0, rev_rate_rpm=0.0)
    slides = replace(UP, bowler=hurled, ball=replace(UP.ball, cover="polyester"))
    assert wb.rate(replace(slides, surface=wb.Surface(polished=True))).length_ft is None
    assert wb.lever_swings(slides)[0].length_ft is None


@pytest.mark.parametrize(("setup", "draws"), [(None, 0), (UP, 1), (UP, -3), (UP, 2.5)])
def test_what_cannot_be_is_refused(setup, draws):
    with pytest.raises(wb.InputRefused, match=r"setup is missing|number of draws"):
        wb.lever_swings(setup, draws=draws)
