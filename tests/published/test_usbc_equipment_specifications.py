"""USBC equipment specifications and rules of 2018 and 2020 (published): legal limits warn."""

import math
import warnings

import pytest

import workbook as wb
from tests.conftest import BALL, SETUP, changed
from tests.published.facts import fact
from workbook import sources, units

A_LITTLE = 1e-3  # in, or oz: the figures are written to a thousandth


def notes(**changes):
    """Sentences of the warnings that a ball gives."""
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        changed(**{"intermediate_in": 0.0} | changes)
    assert all(issubclass(w.category, wb.LegalLimit) for w in caught)
    return [str(w.message) for w in caught]


@pytest.mark.parametrize(
    ("row", "field", "beyond", "words"),
    [("ball_circ_min", "circumference_in", -1, "circumference"),
     ("ball_circ_max", "circumference_in", 1, "circumference"),
     ("rg_min", "rg_low_in", -1, "low RG"),
     ("diff_max", "differential_in", 1, "differential")],
)  # fmt: skip
def test_a_ball_beyond_a_limit_computes_and_warns(row, field, beyond, words):
    limit = fact(row)
    assert notes(**{field: limit.value}) == []
    (note,) = notes(**{field: limit.value + beyond * A_LITTLE})
    assert words in note and limit.text.rstrip("0") in note and "USBC" in note
    dates = [part for part in ("1 Jul 2010", "1 Feb 2005") if part in limit.source]
    assert all(date in note for date in dates)


def test_highest_rg_counts_with_the_differential():
    limit = fact("rg_max").value
    assert notes(rg_low_in=limit - 0.05, differential_in=0.05) == []
    (note,) = notes(rg_low_in=limit - 0.05 + A_LITTLE, differential_in=0.05)
    assert "high RG" in note and "2.8" in note


@pytest.mark.parametrize(("circumference", "diameter"),
                         [("ball_circ_min", "ball_diameter_min"),
                          ("ball_circ_max", "ball_diameter_max")])  # fmt: skip
def test_circumference_limits_are_pi_times_the_diameter(circumference, diameter):
    key = circumference.replace("ball_circ", "circumference")
    assert sources.value(key) == pytest.approx(
        math.pi * fact(diameter).value, abs=fact(circumference).within
    )


def test_greatest_weight_is_the_greatest_input():
    most = fact("ball_weight_max").value
    assert changed(weight_lb=most).ball.weight_lb == 16.0
    with pytest.raises(wb.InputRefused, match=r"ball weight 16\.01 lb is outside 6 to 16 lb"):
        changed(weight_lb=most + 0.01)


@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")  # so heavy: static imbalance
def test_greatest_component_density_is_the_greatest_filler_density():
    most = fact("component_density_max").value
    assert changed(filler_density_g_cm3=most).drilled.removed_oz > 0
    with pytest.raises(wb.InputRefused, match=r"outside 0\.3 to 3\.8 g/cm3"):
        changed(filler_density_g_cm3=most + 0.01)


def test_certification_roughness_does_not_limit_later_sanding():
    """50 microinch is 1.27 um; a rough surface computes without a word."""
    limit = fact("ra_mean_max")
    assert limit.value * units.MICROINCH / units.MICROMETRE == pytest.approx(1.27)
    rough = changed(surface=wb.Surface(grit=180))
    assert rough.surface.ra_um() > 1.27 and rough.drilled.legal_notes == ()


def static(top_weight_oz, weight_lb=15):
    setup = changed(top_weight_oz=top_weight_oz, weight_lb=weight_lb, grip=wb.Grip(),
                    layout=wb.Layout(drilling_angle_deg=90, pin_to_pap_in=5, val_angle_deg=60),
                    pin_to_cg_in=3.0)  # fmt: skip
    with warnings.catch_warnings(record=True) as caught:
        warnings.simplefilter("always")
        drilled = setup.drilled
    assert tuple(str(w.message) for w in caught) == drilled.legal_notes
    return drilled


def test_static_imbalance_above_the_limit_warns_with_rule_and_date():
    limit = fact("static_max").value
    balance = static(1.0).static_balance_oz
    largest = max(abs(v) for v in balance)
    assert static((limit - A_LITTLE) / largest).legal_notes == ()
    (note,) = static((limit + A_LITTLE) / largest).legal_notes
    assert "3 oz" in note and "1 Aug 2018" in note and "1 Jan 2019" in note


def test_balls_to_10_lb_have_other_static_limits():
    assert static(5.0).legal_notes and static(5.0, weight_lb=10).legal_notes == ()


def test_reference_ball_breaks_no_rule():
    assert BALL.legal_notes == () and SETUP.drilled.legal_notes == ()
