"""The grit that makes B read where A does: rolled again, against known answers and dense scans."""

import math
import random
from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from workbook import demo
from workbook.equal_grit import QUANTITIES, match_grit
from workbook.equal_grit_band import match_grit_band

UP, DOWN = demo.pin_up_and_down()
HOUSE, USUAL = wb.Lane.house(), wb.Line(laydown_board=25, arrow_board=17)
TWENTIETH_OF_A_FOOT = 0.05


def read(setup, quantity):
    """By single shots and ratings, one at a time."""
    if quantity == "length_ft":
        found = wb.rate(setup).length_ft
        return math.nan if found is None else found
    shot = wb.roll(setup, HOUSE, USUAL)
    return shot.breakpoint_ft if shot.turns_back else math.nan


def sanded(setup, grit):
    return replace(setup, surface=wb.Surface(grit=grit))


def anyone(draw):
    """A random setup: release, ball, layout, cover and surface."""
    cover = draw.choice(["polyester", "urethane", "reactive"])
    ball = wb.Ball(weight_lb=draw.uniform(12, 16), rg_low_in=draw.uniform(2.46, 2.6), cover=cover,
                   differential_in=0.05, intermediate_in=0.01, top_weight_oz=2)  # fmt: skip
    layout = wb.Layout(drilling_angle_deg=draw.uniform(10, 90), val_angle_deg=draw.uniform(20, 80),
                       pin_to_pap_in=draw.uniform(2, 6))  # fmt: skip
    who = draw.choice(list(demo.STYLES.values())).bowler
    surface = wb.Surface(grit=draw.uniform(180, 5000))
    return wb.Setup(who, ball, layout, wb.Grip.usual(), surface)


@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")
@pytest.mark.parametrize(
    "seeds", [range(40), pytest.param(range(40, 240), marks=pytest.mark.slow)], ids=["40", "200"]
)
def test_random_pairs_read_alike_or_no_grit_does_it(seeds):
    for seed in seeds:
        draw = random.Random(seed)
        a, b, quantity = anyone(draw), anyone(draw), draw.choice(QUANTITIES)
        wanted = read(a, quantity)
        if math.isnan(wanted):
            with pytest.raises(wb.InputRefused, match="of A is missing"):
                match_grit(a, b, quantity)
            continue
        found = match_grit(a, b, quantity)
        for grit in (found.grit, *found.others):
            if grit is not None:
                off = abs(read(sanded(b, grit), quantity) - wanted)
                assert off < TWENTIETH_OF_A_FOOT, (seed, grit)
        if found.grit is None:
            scan = np.array([read(sanded(b, g), quantity) for g in np.geomspace(180, 5000, 60)])
            passes = int((np.diff(np.sign(scan[np.isfinite(scan)] - wanted)) != 0).sum())
            assert passes <= (found.leap is not None), (seed, found)
            if found.leap is not None:
                sides = [
                    read(sanded(b, found.leap.grit * k), quantity) for k in (1 - 1e-5, 1.00001)
                ]
                assert min(sides) < wanted - 0.04 and max(sides) > wanted + 0.04, (seed, found)


@pytest.mark.parametrize("quantity", QUANTITIES)
@pytest.mark.parametrize("grit", [180.0, 320.0, 1234.0, 4321.0, 5000.0])
def test_a_ball_reads_as_itself_at_its_own_grit(quantity, grit):
    found = match_grit(sanded(UP, grit), sanded(UP, 900.0), quantity)
    assert found.grit == pytest.approx(grit, rel=0.002)
    band = match_grit_band(sanded(UP, grit), sanded(UP, 900.0), quantity, draws=8)
    # between the grits that it looks at the band takes the reading to be straight
    assert (band.low, band.high, band.without) == (
        pytest.approx(grit, rel=0.1), pytest.approx(grit, rel=0.1), 0)  # fmt: skip


def test_the_rougher_a_the_rougher_b_and_the_later_a_reads():
    found = [match_grit(sanded(UP, grit), DOWN) for grit in (400, 800, 1600, 3200)]
    assert [one.grit for one in found] == sorted(one.grit for one in found)
    assert [one.wanted_ft for one in found] == sorted(one.wanted_ft for one in found)


def test_a_spare_ball_never_reads_where_a_dull_reactive_one_does():
    spare = replace(DOWN, ball=demo.balls()["ball A, for spares"])
    found = match_grit(sanded(UP, 500), spare)
    assert found.grit is None and found.found_ft is None and found.others == ()
    lengths = [read(sanded(spare, grit), "length_ft") for grit in np.geomspace(180, 5000, 60)]
    assert min(lengths) > found.wanted_ft or max(lengths) < found.wanted_ft
    assert (found.least_ft, found.most_ft) == pytest.approx((min(lengths), max(lengths)), abs=0.1)


def test_finer_than_5000_only_polish_is_left():
    polished = replace(UP, surface=wb.Surface(polished=True))
    found = match_grit(polished, UP)
    assert found.grit is None and found.most_ft < found.wanted_ft
    assert found.polished_ft == pytest.approx(found.wanted_ft)
    assert match_grit_band(polished, UP, draws=8).high is None


def test_hands_do_not_matter_where_the_lane_is_the_same_on_both_sides():
    lefty = replace(DOWN, bowler=replace(DOWN.bowler, hand="left"))
    for quantity in QUANTITIES:
        found = match_grit(UP, lefty, quantity).grit
        assert found == pytest.approx(match_grit(UP, DOWN, quantity).grit, rel=1e-6)


def test_the_band_is_that_of_an_equal_grit_for_each_draw():
    """Second method: the answer for each way in which the assumptions and bowler could be."""
    from workbook.draws import draw
    from workbook.rating import STRAIGHT
    from workbook.scatter import Scatter

    band = match_grit_band(UP, DOWN, draws=16)
    one_by_one = [
        match_grit(replace(UP, bowler=d.thrower.bowler, assumptions=d.thrower.assumptions),
                   replace(DOWN, bowler=d.thrower.bowler, assumptions=d.thrower.assumptions)).grit
        for d in draw(UP, STRAIGHT, Scatter(), 16)[1:]
    ]  # fmt: skip
    # those balls are drilled for the PAP as drawn, with axes on their marks: near, not the same
    known = sorted(grit for grit in one_by_one if grit is not None)
    assert len(known) >= 12
    middle = known[len(known) // 2]
    assert band.low < middle < band.high and band.high / band.low < 6


@pytest.mark.parametrize(
    ("given", "words"),
    [({"quantity": "hook"}, "quantity must be length_ft or breakpoint_ft"),
     ({"a": None}, "setup A is missing"), ({"b": 3}, "setup B must be a Setup"),
     ({"lane": "house"}, "lane must be a Lane"), ({"line": 8}, "line must be a Line")],
)  # fmt: skip
def test_what_is_not_what_its_name_says_is_refused(given, words):
    with pytest.raises(wb.InputRefused, match=words):
        match_grit(**({"a": UP, "b": DOWN} | given))
