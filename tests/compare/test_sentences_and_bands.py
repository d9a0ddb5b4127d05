"""Words, shares and bands of a comparison: composed from what is computed, never canned."""

from dataclasses import replace
from itertools import permutations

import numpy as np
import pytest

import workbook as wb
from workbook import comparison, demo
from workbook.assumptions import Assumptions
from workbook.certainty import Range, difference_ranges
from workbook.comparison import CAUSES, SHOT_QUANTITIES, USUAL_LINE, compare
from workbook.rolling import roll_many
from workbook.sentences import compare_sentence, notes, slider_notes
from workbook.sources import FACTS
from workbook.tables import comparison_frame, shares_frame, shown

UP, DOWN = demo.pin_up_and_down()
HOUSE = wb.Lane.house()


@pytest.fixture(scope="module")
def pin():
    return compare(UP, DOWN)


def other(setup):
    """The same bowler with another ball, cover, surface and release phase."""
    return replace(
        setup,
        ball=replace(setup.ball, rg_low_in=2.55, differential_in=0.03, cover="urethane"),
        surface=wb.Surface(grit=800),
        bowler=replace(setup.bowler, speed_mph=17),
    )


def test_shares_add_up_to_the_difference():
    c = compare(UP, other(DOWN))
    assert set(c.shares["entry_board"]) == set(CAUSES)
    for key in SHOT_QUANTITIES:
        difference = getattr(c.shot_b, key) - getattr(c.shot_a, key)
        # to the accuracy of two shots: those of the mixtures are rounded differently
        assert sum(c.shares[key].values()) == pytest.approx(difference, abs=0.01)


def test_shares_are_the_mean_over_all_orders():
    """Shapley 1953: the value is the mean marginal effect over all permutations."""
    worth = dict(zip([(x, y, z) for x in (0, 1) for y in (0, 1) for z in (0, 1)],
                     np.random.default_rng(3).normal(size=8), strict=True))  # fmt: skip
    worth = {tuple(map(bool, key)): value for key, value in worth.items()}
    for i in range(3):
        effects = []
        for order in permutations(range(3)):
            before = [False] * 3
            for j in order[: order.index(i)]:
                before[j] = True
            after = list(before)
            after[i] = True
            effects.append(worth[tuple(after)] - worth[tuple(before)])
        assert comparison._shapley(worth, i) == pytest.approx(np.mean(effects), abs=1e-12)


def test_only_what_differs_is_a_cause():
    rough = replace(UP, surface=wb.Surface(grit=500))
    assert set(compare(UP, rough).shares["entry_board"]) == {"cover and surface"}
    assert compare(UP, UP).shares["entry_board"] == {}


def plainly_drawn(setup, rng):
    """One draw of everything that nobody knows well, by a generator of the test's own."""
    assumed = {
        key: rng.uniform(*fact.range) for key, fact in FACTS.items()
        if key in Assumptions.__dataclass_fields__ and key not in ("slip_scale", "ring_film")
    }  # fmt: skip
    turned = replace(setup.bowler, release_phase_deg=rng.uniform(-180, 180))
    return replace(setup, bowler=turned, assumptions=replace(setup.assumptions, **assumed))


def test_bands_hold_the_middle_four_fifths():
    """Against 400 plain Monte Carlo draws of the same ranges, worked out here."""
    one, two = (
        roll_many([plainly_drawn(s, np.random.default_rng(i)) for i in range(400)],
                  HOUSE, USUAL_LINE)
        for s in (UP, DOWN)
    )  # fmt: skip
    bands = difference_ranges(UP, DOWN, HOUSE, USUAL_LINE)
    c = compare(UP, DOWN)
    for key, near in (("total_hook_boards", 0.12), ("roll_ft", 0.2), ("flare_in", 0.15)):
        drawn = getattr(two, key) - getattr(one, key)
        low, high = np.percentile(drawn[np.isfinite(drawn)], (10, 90))
        best = getattr(c.shot_b, key) - getattr(c.shot_a, key)
        assert bands[key].low == pytest.approx(min(low, best), abs=near)
        assert bands[key].high == pytest.approx(max(high, best), abs=near)


def test_the_same_twice_differs_by_nothing_whatever_is_assumed():
    ranges = difference_ranges(UP, UP, HOUSE, USUAL_LINE)
    assert all(band == Range(0.0, 0.0) for band in ranges.values())


def test_sentence_follows_the_numbers(pin):
    ranges = difference_ranges(pin.a, pin.b, pin.lane, pin.line)
    said = compare_sentence(pin, ranges)
    roll = pin.shot_b.roll_ft - pin.shot_a.roll_ft
    assert f"rolls {shown(roll, 1)} ft later" in said
    assert "flares 1.2 in less" in said and "comes from flare" in said
    turned = compare_sentence(compare(DOWN, UP), {})
    assert f"rolls {shown(roll, 1)} ft earlier" in turned and "flares 1.2 in more" in turned


def test_small_and_undecided_are_called_so(pin):
    wide = dict.fromkeys(("roll_ft", "total_hook_boards", "flare_in"), Range(-1.0, 1.0))
    said = compare_sentence(pin, wide)
    assert "too small to matter on the lane, as computed" in said
    assert "round: undecided" in said
    narrow = {key: Range(0.1, 0.4) for key in wide}
    assert "whatever we assume" in compare_sentence(pin, narrow)
    rough = compare(UP, replace(UP, surface=wb.Surface(grit=500)))
    said = compare_sentence(rough, {})
    assert "too small" not in said and "hooks" in said and "more" in said


def test_alike_gutter_and_backup():
    assert "the two are alike" in compare_sentence(compare(UP, UP), {})
    gutter = compare(UP, DOWN, line=wb.Line(laydown_board=5, arrow_board=1))
    assert "gutter" in compare_sentence(gutter, {}) and "entry_board" not in gutter.shares
    back = replace(UP, bowler=replace(UP.bowler, axis_rotation_deg=-20))
    rough = replace(back, surface=wb.Surface(grit=500))
    said = compare_sentence(compare(back, rough, line=wb.Line(laydown_board=20, launch_deg=0)), {})
    assert "backs up" in said and "hooks" not in said


def test_notes_name_rules_rings_and_sliders_that_cannot_matter():
    with pytest.warns(wb.LegalLimit):
        ball = replace(UP.ball, differential_in=0.07)
    c = compare(replace(UP, ball=ball), DOWN)
    assert any("A: differential 0.07 in is above the legal limit" in note for note in notes(c))
    still = wb.Ball(weight_lb=15, rg_low_in=2.5, differential_in=0.0, cover="reactive")
    a = replace(UP, ball=still, grip=wb.Grip())
    words = slider_notes(compare(a, a))
    assert [note.split(" can hardly")[0] for note in words] == [
        "The drilling angle", "The VAL angle", "The pin distance",
    ]  # fmt: skip
    assert slider_notes(compare(UP, DOWN)) == [] or "drilling" in slider_notes(compare(UP, DOWN))[0]


def test_frames_carry_units_and_the_same_numbers(pin):
    frame = comparison_frame(pin)
    value = frame.loc[("Drilled ball", "differential [in]"), "B - A"]
    assert value == pin.b.drilled.differential_in - pin.a.drilled.differential_in
    shares = shares_frame(pin)
    assert shares.loc["flare [in]", "B - A"] == pytest.approx(
        pin.shot_b.flare_in - pin.shot_a.flare_in, abs=0.01
    )


def test_numbers_for_people():
    assert shown(-0.004, 2) == "0.00" and shown(0.5, 1, sign=True) == "+0.5"
    assert shown(None, 2) == "-"


def test_bowlers_of_two_hands_are_refused():
    left = replace(UP, bowler=replace(UP.bowler, hand="left"))
    with pytest.raises(wb.InputRefused, match="hand of B must be right like that of A, not left"):
        compare(UP, left)
