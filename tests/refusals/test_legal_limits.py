"""The rules of the sport only warn: they name the rule and its date, and the ball computes.

Published: USBC equipment specifications (circumference 26.704 to 27.002 in; RG 2.460 to 2.800 in,
the lower one for balls approved from 1 Jul 2010; differential to 0.060 in from 1 Feb 2005); static
balance to 3 oz for balls over 10 lb, USBC from 1 Aug 2018, World Bowling from 1 Jan 2019.
"""

import warnings

import pytest

import workbook as wb
from tests.refusals.refusal import BALL, SETUP, one_sentence

SPECIFICATIONS = "USBC equipment specifications"


def notes(call):
    """What `call` warns of: sentences, each once."""
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        made = call()
    assert all(w.category is wb.LegalLimit for w in caught)
    return made, [one_sentence(str(w.message)) for w in caught]


@pytest.mark.parametrize(
    ("changes", "parts"),
    [
        (dict(circumference_in=26.70), ("circumference 26.7 in", "below", "26.704 in")),
        (dict(circumference_in=27.01), ("circumference 27.01 in", "above", "27.002 in")),
        (dict(rg_low_in=2.45), ("low RG 2.45 in", "below", "2.46 in", "1 Jul 2010")),
        (dict(rg_low_in=2.76, differential_in=0.05), ("high RG 2.81 in", "above", "2.8 in")),
        (dict(differential_in=0.061), ("differential 0.061 in", "above", "0.06 in", "1 Feb 2005")),
    ],
)
def test_a_ball_beyond_a_rule_warns_and_computes(changes, parts):
    ball, said = notes(lambda: wb.Ball(**BALL | changes))
    assert len(said) == 1 and said == list(ball.legal_notes)
    assert all(part in said[0] for part in (*parts, SPECIFICATIONS, "legal limit", "current rules"))
    drilled, _ = notes(lambda: wb.Setup(**SETUP | {"ball": ball}).drilled)
    assert drilled.differential_in > 0 and 2.3 < drilled.rg_low_in < 2.9


def test_two_rules_broken_are_two_warnings():
    _, said = notes(lambda: wb.Ball(**BALL | dict(rg_low_in=2.42, differential_in=0.08)))
    assert len(said) == 2


@pytest.mark.parametrize(
    "changes",
    [
        {},
        dict(circumference_in=26.704),
        dict(circumference_in=27.002),
        dict(rg_low_in=2.46),
        dict(rg_low_in=2.74, differential_in=0.06),
        dict(differential_in=0.06),
    ],
)
def test_a_legal_ball_gives_no_warning(changes):
    ball, said = notes(lambda: wb.Ball(**BALL | changes))
    assert said == [] and ball.legal_notes == ()


def test_static_balance_beyond_the_rule_warns_above_ten_pounds_only():
    def drilled(**changes):
        ball = wb.Ball(**BALL | dict(filler_density_g_cm3=None) | changes)
        return notes(lambda: wb.drill(ball, SETUP["layout"], SETUP["grip"], SETUP["bowler"]))

    shallow = wb.Grip.usual(finger_depth_in=0.25, thumb_depth_in=0.25)
    heavy_side = wb.Layout(drilling_angle_deg=90, pin_to_pap_in=0, val_angle_deg=0)
    ball = wb.Ball(**BALL | dict(top_weight_oz=5, pin_to_cg_in=0))
    result, said = notes(lambda: wb.drill(ball, heavy_side, shallow, SETUP["bowler"]))
    assert result.static_balance.side_oz > 3 and result.legal_notes == tuple(said)
    (side,) = said
    for part in ("side imbalance", "3 oz", "USBC, from 1 Aug 2018", "World Bowling", "1 Jan 2019"):
        assert part in side
    light = wb.Ball(**BALL | dict(weight_lb=10, top_weight_oz=5, pin_to_cg_in=0))
    result, said = notes(lambda: wb.drill(light, heavy_side, shallow, SETUP["bowler"]))
    assert result.static_balance.side_oz > 3 and said == []
    _, said = drilled(top_weight_oz=3)
    assert said == []


def test_a_setup_file_of_a_ball_beyond_a_rule_is_read_with_the_same_warning(tmp_path):
    ball, said = notes(lambda: wb.Ball(**BALL | dict(differential_in=0.065)))
    setup = wb.Setup(**SETUP | {"ball": ball})
    setup.to_json(tmp_path / "strong.json")
    again, said_again = notes(lambda: wb.Setup.from_json(tmp_path / "strong.json"))
    assert again == setup and said_again == said
