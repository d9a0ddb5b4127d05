"""The sentence and the notes: every claim follows the numbers, for usual and for odd setups."""

import re
from dataclasses import replace

import numpy as np
import pytest

import workbook as wb
from workbook import demo
from workbook.certainty import Bands, Range, bands
from workbook.comparison import USUAL_LINE, compare
from workbook.notes import HARDLY, notes, slider_notes
from workbook.sentences import FLARE, HOOK, ROLL, Told, _blamed, compare_sentence
from workbook.tables import shown

UP, DOWN = demo.pin_up_and_down()
STRAIGHT = wb.Line(laydown_board=20, launch_deg=0)


def sure(**ranges):
    """Bands with the given differences, of 64 draws."""
    path = np.zeros((2, 61))
    found = {key: Range(*ends) for key, ends in ranges.items()}
    missing = dict.fromkeys(("roll_ft", "total_hook_boards", "flare_in", "length_ft"), 9)
    return Bands(64, {}, {}, found, missing, path, path)


def thrown(**changes):
    return replace(UP, bowler=replace(UP.bowler, **changes))


def test_sentence_follows_the_numbers():
    c = compare(UP, DOWN)
    said = compare_sentence(c, bands(UP, DOWN, draws=64))
    roll = c.shot_b.roll_ft - c.shot_a.roll_ft
    assert f"rolls {shown(roll, 1)} ft later" in said
    assert "flares 1.2 inches less" in said
    turned = compare_sentence(compare(DOWN, UP))
    assert f"rolls {shown(roll, 1)} ft earlier" in turned and "flares 1.2 inches more" in turned


@pytest.mark.parametrize(("claim", "difference", "band", "words"), [
    (ROLL, 0.41, (0.18, 0.72), "rolls 0.4 ft later (0.2 to 0.7)"),
    (ROLL, -0.41, (-0.72, -0.18), "rolls 0.4 ft earlier (0.2 to 0.7)"),
    (HOOK, -0.4, (-0.55, 0.03), "hooks 0.4 boards less (0.6 less to 0.03 more)"),
    (HOOK, 0.4, (-0.03, 0.55), "hooks 0.4 boards more (0.6 more to 0.03 less)"),
    (FLARE, 1.2, None, "flares 1.2 inches more"),
])  # fmt: skip
def test_bands_in_words(claim, difference, band, words):
    assert str(Told(claim, difference, band and Range(*band))) == words


def test_small_and_undecided_are_called_so():
    c = compare(UP, DOWN)
    wide = compare_sentence(c, sure(roll_ft=(-1, 1), total_hook_boards=(-1, 1), flare_in=(-2, -1)))
    assert "less than 0.5 ft and 0.5 boards at our best values: too small to matter" in wide
    assert "difference in roll and hook could be the other way round: undecided" in wide
    assert "comes" not in wide  # no cause of what may be the other way round
    tight = compare_sentence(
        c, sure(roll_ft=(0.1, 0.4), total_hook_boards=(-0.45, 0.01), flare_in=(-2, -1))
    )
    assert "0.5 boards in four of five tries: too small to matter" in tight
    assert "undecided" not in tight
    assert "too small" not in compare_sentence(
        compare(UP, replace(UP, surface=wb.Surface(grit=500)))
    )


def test_a_missing_band_is_said_to_be_missing():
    said = compare_sentence(
        compare(UP, DOWN), sure(total_hook_boards=(-1, -0.6), flare_in=(-2, -1))
    )
    assert "How sure the roll is cannot be told: in 9 of 64 tries" in said


def test_causes_are_named_with_their_sign():
    said = _blamed("hook", {"flare": -0.83, "static balance": 0.56})
    assert said == "The difference in hook comes from flare; static balance works against it."
    assert _blamed("hook", {"flare": 1.0, "RG": 0.02}) == "The difference in hook comes from flare."
    assert "mostly from flare" in _blamed("hook", {"flare": 0.7, "RG": 0.3})
    assert "from flare and RG" in _blamed("hook", {"RG": 0.4, "flare": 0.5, "static balance": 0.1})


def test_alike_says_how_alike():
    assert "In roll, hook and flare the two are alike." in compare_sentence(compare(UP, UP))
    said = compare_sentence(
        compare(UP, UP), sure(roll_ft=(0, 0), total_hook_boards=(0, 0), flare_in=(-0.7, 0.5))
    )
    assert "flare (0.7 less to 0.5 more, in inches) the two are alike at our best values" in said


def test_gutters_are_told_with_side_and_distance():
    for own, other in (("right", "left"), ("left", "right")):
        setup = thrown(hand=own)
        lost = compare(setup, setup, line=wb.Line(laydown_board=5, arrow_board=1))
        said = compare_sentence(lost)
        at = f"{lost.shot_a.gutter_ft:.1f} ft"
        assert f"Both go into the {own} gutter, A at {at}" in said
        assert "entry_board" not in lost.shares
        across = replace(setup, bowler=replace(
            setup.bowler, speed_mph=14, rev_rate_rpm=550, axis_rotation_deg=80))  # fmt: skip
        assert f"the {other} gutter" in compare_sentence(compare(across, across))


def test_a_ball_that_turns_back_before_the_far_gutter_has_a_breakpoint():
    shot = compare(thrown(speed_mph=14, rev_rate_rpm=550, axis_rotation_deg=80), UP).shot_a
    assert shot.gutter_ft is not None and shot.turns_back
    assert not wb.roll(UP, wb.Lane.house(), wb.Line(laydown_board=5, arrow_board=1)).turns_back


def test_backing_up_and_hooking_are_kept_apart():
    back = thrown(axis_rotation_deg=-20)
    rough = replace(back, surface=wb.Surface(grit=500))
    said = compare_sentence(compare(back, rough, line=STRAIGHT))
    assert "backs up" in said and "hooks" not in said
    mixed = compare(back, thrown(axis_rotation_deg=15), line=STRAIGHT)
    said = compare_sentence(mixed)
    assert f"A backs up {-mixed.shot_a.total_hook_boards:.1f} boards" in said
    assert f"B hooks {mixed.shot_b.total_hook_boards:.1f} boards" in said


def test_a_release_that_already_rolls_and_one_that_never_does():
    rolling = thrown(speed_mph=12, rev_rate_rpm=470, axis_rotation_deg=0, axis_tilt_deg=0)
    c = compare(rolling, replace(rolling, bowler=replace(rolling.bowler, rev_rate_rpm=100)),
                line=STRAIGHT)  # fmt: skip
    assert c.shot_a.already_rolls and not c.shot_b.already_rolls
    assert "A already rolls at release, B rolls at" in compare_sentence(c)
    assert "Both already roll at release." in compare_sentence(compare(c.a, c.a, line=STRAIGHT))
    slick = replace(UP, ball=replace(UP.ball, cover="polyester"), surface=wb.Surface(polished=True))
    fast = replace(slick, bowler=replace(slick.bowler, speed_mph=22))
    assert "Neither rolls before the pins." in compare_sentence(compare(fast, fast))
    assert "A rolls at" in compare_sentence(compare(UP, fast))
    assert "B does not roll before the pins" in compare_sentence(compare(UP, fast))


def random_setup(rng):
    style = demo.STYLES[rng.choice(list(demo.STYLES))]
    who = replace(
        style.bowler, hand="right",
        speed_mph=rng.uniform(12, 21), rev_rate_rpm=rng.uniform(100, 500),
        axis_rotation_deg=rng.uniform(-15, 90), axis_tilt_deg=rng.uniform(0, 30),
    )  # fmt: skip
    layout = wb.Layout(
        drilling_angle_deg=rng.uniform(10, 90), pin_to_pap_in=rng.uniform(2, 6),
        val_angle_deg=rng.uniform(10, 85),
    )  # fmt: skip
    ball = replace(UP.ball, cover=str(rng.choice(["reactive", "urethane", "polyester"])))
    surface = wb.Surface(grit=float(rng.choice([500, 1000, 3000])))
    return wb.Setup(who, ball, layout, wb.Grip.usual(thumb=style.thumb), surface)


@pytest.mark.parametrize("seed", range(60))
def test_no_claim_against_the_numbers(seed):
    rng = np.random.default_rng(seed)
    c = compare(
        random_setup(rng), random_setup(rng), line=wb.Line(laydown_board=25, arrow_board=18)
    )
    said = compare_sentence(c, bands(c.a, c.b, c.lane, c.line, draws=16))
    signs = {"later": 1, "earlier": -1, "longer": 1, "shorter": -1, "more": 1, "less": -1}
    found = re.findall(r"(rolls|skids|hooks|backs up|flares) ([\d.]+) \w+ (\w+)", said)
    keys = {"rolls": "roll_ft", "skids": "length_ft", "hooks": "total_hook_boards",
            "backs up": "total_hook_boards", "flares": "flare_in"}  # fmt: skip
    for verb, size, way in found:
        difference = getattr(c.shot_b, keys[verb]) - getattr(c.shot_a, keys[verb])
        sign = -signs[way] if verb == "backs up" else signs[way]
        assert difference * sign > 0 and shown(abs(difference), 1) == size, said
    lost = [shot.gutter_ft is not None for shot in (c.shot_a, c.shot_b)]
    assert (" gutter" in said.split("How sure")[0]) == any(lost)
    if not any(lost):
        rolls = [shot.roll_ft is not None for shot in (c.shot_a, c.shot_b)]
        assert bool(re.search("rolls? before the pins", said)) == (not all(rolls)), said
        for cause in re.findall(r"in hook comes (?:mostly )?from (RG|flare|static balance)", said):
            whole = sum(c.shares["total_hook_boards"].values())
            assert c.shares["total_hook_boards"][cause] * whole > 0, said


def test_notes_name_rules_rings_and_the_pocket():
    with pytest.warns(wb.LegalLimit):
        ball = replace(UP.ball, differential_in=0.07)
    c = compare(replace(UP, ball=ball), DOWN)
    assert any("A: differential 0.07 in is above the legal limit" in note for note in notes(c))
    first = notes(compare(UP, DOWN))[0]
    assert first.startswith("A hits the pocket, B hits the pocket.") and "USBC" in first
    high = notes(compare(UP, replace(UP, surface=wb.Surface(grit=500))))[0]
    assert "B comes in high of the pocket, on board" in high


def test_a_slider_note_is_true_on_a_finer_sweep():
    still = wb.Ball(weight_lb=15, rg_low_in=2.5, differential_in=0.0, cover="reactive")
    a = replace(UP, ball=still, grip=wb.Grip())
    words = slider_notes(a, wb.Lane.house(), wb.Line(laydown_board=25, arrow_board=17), "A")
    assert [note.split(" can hardly")[0] for note in words] == [
        "The drilling angle", "The VAL angle", "The pin-to-PAP distance",
    ]  # fmt: skip
    finer = [replace(a.layout, drilling_angle_deg=float(x)) for x in range(0, 181, 5)]
    hooks = wb.roll_many([replace(a, layout=layout) for layout in finer], wb.Lane.house(),
                         wb.Line(laydown_board=25, arrow_board=17)).total_hook_boards  # fmt: skip
    assert np.ptp(hooks) < HARDLY
    assert slider_notes(UP, wb.Lane.house(), USUAL_LINE, "A") == []


def test_no_slider_is_called_idle_where_nothing_can_be_told():
    lost = wb.Line(laydown_board=5, arrow_board=1)
    assert slider_notes(UP, wb.Lane.house(), lost, "A") == []
