"""USBC equipment specifications and rules of 2018 and 2020 (published): legal limits warn."""

import math
import warnings

import pytest

import workbook as wb
from tests.conftest import BALL, SETUP, changed
from tests.published.facts import ROUNDING, fact
from tests.published.limit import last_before, refused
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
    dates = [part for part in ("1 Jul 2010", "1 Feb 2005") if part in limit.quantity]
    assert all(date in note for date in dates)
    usual, far = getattr(BALL, field), limit.value + beyond * 10 * A_LITTLE
    limit.check(last_before(lambda v: bool(notes(**{field: v})), usual, far), rel=ROUNDING)


def test_highest_rg_counts_with_the_differential():
    limit = fact("rg_max")
    assert notes(rg_low_in=limit.value - 0.05, differential_in=0.05) == []
    (note,) = notes(rg_low_in=limit.value - 0.05 + A_LITTLE, differential_in=0.05)
    assert "high RG" in note and "2.8" in note
    low = last_before(lambda rg: bool(notes(rg_low_in=rg, differential_in=0.05)), 2.5, 2.8)
    limit.check(low + 0.05, rel=ROUNDING)


@pytest.mark.parametrize(
    ("diameter", "beyond"), [("ball_diameter_min", -1), ("ball_diameter_max", 1)]
)
def test_a_ball_beyond_a_diameter_warns(diameter, beyond):
    """The library asks for the circumference, whose limits are written to a thousandth."""

    def warns(inches):
        return bool(notes(circumference_in=math.pi * inches))

    limit = fact(diameter)
    limit.check(last_before(warns, 8.55, limit.value + beyond * 0.01), within=0.0005 / math.pi)


def test_greatest_weight_is_the_greatest_input():
    most = fact("ball_weight_max")
    assert changed(weight_lb=most.value).ball.weight_lb == 16.0
    with pytest.raises(wb.InputRefused, match=r"ball weight 16\.01 lb is outside 6 to 16 lb"):
        changed(weight_lb=most.value + 0.01)
    most.check(last_before(lambda lb: refused(lambda: changed(weight_lb=lb)), 15, 20))


@pytest.mark.filterwarnings("ignore::workbook.errors.LegalLimit")  # so heavy: static imbalance
def test_greatest_component_density_is_the_greatest_filler_density():
    most = fact("component_density_max")
    assert changed(filler_density_g_cm3=most.value).drilled.removed_oz > 0
    with pytest.raises(wb.InputRefused, match=r"outside 0\.3 to 3\.8 g/cm3"):
        changed(filler_density_g_cm3=most.value + 0.01)
    most.check(last_before(lambda d: refused(lambda: changed(filler_density_g_cm3=d)), 1, 5))


def test_certification_roughness_does_not_limit_later_sanding():
    """50 microinch is 1.27 um; a rough surface computes without a word."""
    limit = fact("ra_mean_max")
    assert limit.value * units.MICROINCH / units.MICROMETRE == pytest.approx(1.27)
    rough = changed(surface=wb.Surface(grit=180))
    limit.check_that(
        rough.surface.ra_um() > 1.27 and rough.drilled.legal_notes == (),
        "no limit to later sanding: no warning at grit 180",
        f"none at {rough.surface.ra_um() * 1e-6 / units.MICROINCH:.0f} microinch",
    )


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
    limit = fact("static_max")
    largest = max(abs(v) for v in static(1.0).static_balance_oz)
    assert static((limit.value - A_LITTLE) / largest).legal_notes == ()
    (note,) = static((limit.value + A_LITTLE) / largest).legal_notes
    assert "3 oz" in note and "1 Aug 2018" in note and "1 Jan 2019" in note
    top = last_before(lambda oz: bool(static(oz).legal_notes), 1.0, 5.0)
    limit.check(max(abs(v) for v in static(top).static_balance_oz), rel=ROUNDING)


def test_balls_to_10_lb_have_other_static_limits():
    assert static(5.0).legal_notes and static(5.0, weight_lb=10).legal_notes == ()


def test_bands_take_the_tolerances_of_the_marks():
    """31 Jan 2012. tests/compare/test_bands.py holds the draws to them."""
    fact("pin_mark_tol").check_taken(sources.value("pin_mark"))
    fact("psa_mark_tol").check_taken(sources.value("psa_mark"))


def test_reference_ball_breaks_no_rule():
    assert BALL.legal_notes == () and SETUP.drilled.legal_notes == ()
