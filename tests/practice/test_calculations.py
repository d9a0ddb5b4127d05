"""Each permitted calculation against a value by hand, or a second way through the library."""

import math
from dataclasses import replace

import pytest

import workbook as wb
from tests.refusals.refusal import refused
from workbook import demo
from workbook.practice.calculations import DEEPEST, PERMITTED, Call

UP, DOWN = demo.pin_up_and_down()
LINE = demo.STYLES[demo.USUAL].line
RING = [[-6.6, 5.2], [-4, 3.9], [-2.7, -0.4], [-2.9, -4.75], [-7.9, -6.4]]
FOUND = wb.pap_from_track([tuple(one) for one in RING])
BALL_C = demo.balls()["ball C, mild"]
# mechanics of a uniform sphere, textbook: with no spin it keeps 5/7 of its speed
UNIFORM = 27.0 / (2 * math.pi) * math.sqrt(2 / 5)
NO_SPIN = {"rg_low_in": UNIFORM, "rev_rate_rpm": 0, "speed_mph": 18}


def plain(**about):
    return {**about, "val_angle_deg": 75}


CASES = [
    ("drilled", dict(of="differential_in"), UP.drilled.differential_in),
    ("drilled", plain(of="top_oz"), DOWN.drilled.static_balance.top_oz),
    ("drilled", dict(of="removed_oz", grip="none"), 0.0),
    ("ball", dict(of="rg_high_in", rg_low_in=2.5, differential_in=0.04), 2.54),
    ("clinic", dict(of="differential_in", ball="ball C, mild"), BALL_C.differential_in),
    ("placed", dict(of="pin_up"), UP.layout.place(UP.bowler.pap, UP.ball).pin_in[1]),
    # straight up from a PAP 5 over and 1/2 up: 4.5 in higher on the VAL
    ("placed", dict(of="pin_up", val_angle_deg=0, pap_up_in=0.5, pin_to_pap_in=4.5), 5.0),
    ("distances", dict(of="pin_to_pap_in", pin_to_pap_in=4.125), 4.125),
    # pin buffer, derived from spherical geometry, ../shared/facts.csv row buffer_2
    ("distances", dict(of="pin_buffer_in", pin_to_pap_in=4.5, val_angle_deg=45), 2.8321),
    ("rated", dict(of="length_ft"), wb.rate(UP).length_ft),
    ("rolled", plain(of="entry_board"), wb.roll(DOWN, wb.Lane.house(), LINE).entry_board),
    ("rolled", dict(of="roll_ft", lane="dry", laydown_board=20, arrow_board=15),
     wb.roll(UP, wb.Lane.dry(), wb.Line(laydown_board=20, arrow_board=15)).roll_ft),
    ("equal_grit", dict(a={}, b={"val_angle_deg": 75}), wb.match_grit(UP, DOWN).grit),
    ("friction", dict(film_um=0, cover="reactive", grit=500), wb.Assumptions().mu_dry_reactive),
    ("ra_um", dict(grit=2000), 16 * 0.0254),  # our anchor: 16 microinch at 2000 grit
    ("worn_grit", dict(grit=2000, games=0), 2000),
    ("speed_mph", dict(distance_ft=60, time_s=2.52), 16.23),  # published: two shop guides
    ("rev_rate_rpm", dict(turns=1, frames=10, frames_a_second=60), 360),  # common practice
    ("rotation_deg", dict(along=1, across=1), 45),
    ("tilt_deg", dict(tape_in=12), 10),  # derived: facts.csv row track_tilt
    ("tilt_deg", dict(tape_in=10.5, circumference_in=27), 20),
    ("track", dict(of="pap_over_in", points=RING), FOUND.pap_over_in),
    # a quarter of the way round is the radius times the root of 2, straight through
    ("chord_in", dict(arc_in=6.75), 27 / math.pi / math.sqrt(2)),
    ("arc_in", dict(chord_in=27 / math.pi / math.sqrt(2)), 6.75),
    ("arc_in", dict(chord_in=0, circumference_in=26.8), 0),
    ("end_of_roll", dict(of="speed_mph", **NO_SPIN), 18 * 5 / 7),
    ("end_of_roll", dict(of="turned_deg", **NO_SPIN), 0),
    ("plus", dict(a=2.5, b=-4), -1.5),
    ("minus", dict(a=2.5, b=-4), 6.5),
    ("times", dict(a=2.5, b=-4), -10),
    ("over", dict(a=2.5, b=-4), -0.625),
    ("sine", dict(deg=30), 0.5),
    ("cosine", dict(deg=60), 0.5),
    ("tangent_deg", dict(opposite=-1, adjacent=1), -45),
]  # fmt: skip
WITHIN = {"speed_mph": 0.005, "distances": 1e-4}


@pytest.mark.parametrize(("name", "given", "value"), CASES, ids=[one[0] for one in CASES])
def test_value(name, given, value):
    found = Call(name, given).value()
    assert type(found) is float and found == pytest.approx(value, abs=WITHIN.get(name, 1e-9))


def test_every_permitted_calculation_has_a_case_and_a_docstring():
    assert {name for name, *_ in CASES} == set(PERMITTED)
    assert all(one.__doc__ and one.__doc__.strip().endswith(".") for one in PERMITTED.values())


def test_what_wears_comes_closer_to_smooth_and_more_games_do_more():
    worn = [Call("worn_grit", dict(grit=1000, games=games)).value() for games in (0, 10, 40)]
    assert worn == sorted(set(worn))


def test_half_a_spin_turns_the_path_by_hand():
    """Rotation 90, no tilt: across is k times the rim's speed over 1 + k, ahead is v over 1 + k."""
    about = NO_SPIN | {"rev_rate_rpm": 300, "axis_rotation_deg": 90, "axis_tilt_deg": 0}
    rim = 300 * 27 / 12 / 5280 * 60  # mph
    angle = math.degrees(math.atan2(0.4 * rim, 18))
    assert Call("end_of_roll", {"of": "turned_deg", **about}).value() == pytest.approx(angle)


def test_drawn_numbers_stand_in_for_their_names_also_deep_inside():
    inner = Call("times", {"a": "{turns}", "b": Call("plus", {"a": "{turns}", "b": 1})})
    assert inner.value({"turns": 3}) == 12
    refused(lambda: inner.value(), "nothing is drawn for '{turns}'")
    grit = Call("equal_grit", {"a": {"grit": "{g}"}, "b": {}})
    assert grit.value({"g": 1000.0}) == pytest.approx(1000, abs=1)


def test_names_of_the_clinic_and_grips_are_those_of_the_library():
    left = replace(UP, bowler=demo.STYLES["left-hander"].bowler)
    for grip, made in (("none", wb.Grip()), ("no thumb", wb.Grip.usual(thumb=False))):
        found = Call("drilled", dict(of="differential_in", grip=grip)).value()
        assert found == pytest.approx(replace(UP, grip=made).drilled.differential_in)
    pin = Call("distances", dict(of="pin_buffer_in", style="left-hander")).value()
    assert pin == pytest.approx(left.layout.distances(left.ball.circumference_in).pin_buffer_in)


@pytest.mark.parametrize(
    ("name", "given", "part"),
    [("os.system", dict(command="x"), "not permitted"), ("__import__", {}, "not permitted"),
     ("eval", dict(a="1"), "not permitted"), ("plus", dict(a=1), "missing"),
     ("plus", dict(a=1, b=2, c=3), "unexpected"), ("plus", {"a": 1, "b\n" * 200: 2}, "plus"),
     ("plus", dict(a="1", b=2), "number"), ("over", dict(a=1, b=0), "divided by 0"),
     ("plus", dict(a=math.nan, b=1), "finite"), ("times", dict(a=1e308, b=1e308), "outside"),
     ("rated", dict(of="__class__"), "of must be"), ("rated", dict(of="length_ft", x=1), "no 'x'"),
     ("rated", dict(of="length_ft", style=[]), "style"),
     ("clinic", dict(of="weight_lb", ball={}), "no ball"),
     ("friction", dict(film_um=1, cover="reactive", foo=1), "no 'foo'"),
     ("friction", dict(film_um=1, cover="reactive"), "neither"),
     ("friction", dict(film_um=1, cover="reactive", grit=500, polished=True), "polished"),
     ("equal_grit", dict(a=1, b={}), "group"),
     ("equal_grit", dict(a={"lane": 1}, b={}), "no 'lane'"),
     ("track", dict(of="pap_over_in", points=7), "list of pairs"),
     ("track", dict(of="pap_over_in", points=[1, 2, 3]), "two numbers"),
     ("rolled", dict(of="entry_board", lane="os"), "lane must be"),
     ("tangent_deg", dict(opposite=0, adjacent=0), "no angle"),
     ("sine", dict(deg=1e9), "outside"), ("worn_grit", dict(grit=2000, games=math.inf), "finite")],
)  # fmt: skip
def test_anything_else_is_refused_in_a_sentence(name, given, part):
    refused(lambda: Call(name, given).value(), part)


def test_calls_may_stand_inside_each_other_only_so_deep():
    one = 1.0
    for _ in range(DEEPEST + 1):
        one = Call("plus", {"a": one, "b": 1})
    assert one.value() == DEEPEST + 2
    refused(lambda: Call("plus", {"a": one, "b": 1}).value(), "deeper")


def test_an_illegal_ball_may_be_asked_about_without_a_warning():
    assert Call("rolled", dict(of="flare_in", differential_in=0.08)).value() > 4
