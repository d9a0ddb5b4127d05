"""Every number of every input record: its limits are allowed, all beyond is refused in words.

The limits are written here by hand. Most are the sport's own spread of values with room to spare
(common practice, no source); those of `Assumptions` are the ranges in which we believe each
assumption; "ours" marks the rest.
"""

import math
from dataclasses import fields, replace
from decimal import Decimal
from fractions import Fraction

import numpy as np
import pytest

import workbook as wb
from tests.refusals.refusal import VALID, accepted, refused

BOARD, QUARTER = (1, 39), 6.75  # a quarter of a 27 in circumference
LIMITS: dict[type, dict[str, tuple[str, str, float, float]]] = {
    wb.Bowler: {
        "pap_over_in": ("PAP over", "in", 0, QUARTER),
        "pap_up_in": ("PAP up", "in", -2, 2),
        "speed_mph": ("ball speed", "mph", 8, 25),
        "rev_rate_rpm": ("rev rate", "rpm", 0, 700),
        "axis_rotation_deg": ("axis rotation", "deg", -20, 110),
        "axis_tilt_deg": ("axis tilt", "deg", 0, 60),
        "release_phase_deg": ("release phase", "deg", -180, 180),  # ours
    },
    wb.Ball: {
        "weight_lb": ("ball weight", "lb", 6, 16),
        "circumference_in": ("ball circumference", "in", 26.5, 27.2),
        "rg_low_in": ("low RG", "in", 2.40, 2.85),
        "differential_in": ("differential", "in", 0, 0.080),
        "intermediate_in": ("intermediate differential", "in", 0, 0.080),
        "top_weight_oz": ("top weight", "oz", -5, 5),
        "pin_to_cg_in": ("pin-to-CG distance", "in", 0, QUARTER),
        # up to the greatest density of a component (USBC equipment specifications)
        "filler_density_g_cm3": ("filler density", "g/cm3", 0.3, 3.80),
    },
    wb.Hole: {
        "over_in": ("hole over", "in", -QUARTER, QUARTER),
        "up_in": ("hole up", "in", -QUARTER, QUARTER),
        "diameter_in": ("hole diameter", "in", 0.25, 1.5),
        "depth_in": ("hole depth", "in", 0.25, 4),
        "forward_pitch_in": ("forward pitch", "in", -1.5, 1.5),  # ours
        "lateral_pitch_in": ("lateral pitch", "in", -1.5, 1.5),  # ours
        "insert_inner_in": ("hole inside the insert", "in", 0.25, 1.5),
    },
    wb.Layout: {
        "drilling_angle_deg": ("drilling angle", "deg", 0, 180),
        "pin_to_pap_in": ("pin-to-PAP distance", "in", 0, QUARTER),
        "val_angle_deg": ("VAL angle", "deg", 0, 90),
    },
    wb.DistanceLayout: {
        "pin_to_pap_in": ("pin-to-PAP distance", "in", 0, QUARTER),
        "psa_to_pap_in": ("PSA-to-PAP distance", "in", 0, 13.6),  # half the largest circumference
        "pin_buffer_in": ("pin buffer", "in", 0, QUARTER),
    },
    wb.Surface: {"grit": ("grit", "", 180, 5000)},
    wb.Line: {
        "laydown_board": ("laydown board", "", *BOARD),
        "launch_deg": ("launch angle", "deg", -17, 17),  # ours
        "arrow_board": ("arrow board", "", *BOARD),
    },
    wb.Assumptions: {
        "mu_oil": ("oil friction", "", 0.02, 0.05),
        "mu_dry_polyester": ("dry friction of polyester", "", 0.10, 0.13),
        "mu_dry_urethane": ("dry friction of urethane", "", 0.16, 0.18),
        "mu_dry_reactive": ("dry friction of reactive", "", 0.18, 0.25),
        "absorbed_polyester": ("oil absorbed by polyester", "", 0, 0.05),  # ours
        "absorbed_urethane": ("oil absorbed by urethane", "", 0, 0.2),  # ours
        "absorbed_reactive": ("oil absorbed by reactive", "", 0.1, 0.5),
        "kept": ("film kept on the ball", "", 0.4, 0.6),  # ours
        "track_width": ("track width", "in", 0.25, 0.8),
        "film_cap": ("most film in the contact", "um", 3, 6),
        "film_ratio": ("film-to-roughness ratio", "", 0.3, 0.7),
        "lane_roughness": ("lane roughness", "um", 0.2, 0.4),  # ours
        "ra_at_2000": ("Ra at 2000 grit", "uin", 16 * 0.6, 16 * 1.4),
        "ra_exponent": ("Ra exponent", "", 0.55, 0.75),  # ours
        "ra_polished": ("Ra polished", "uin", 4 * 0.6, 4 * 1.4),
        "slip_scale": ("slip scale", "m/s", 0.005, 0.02),  # ours
        "kappa": ("static-balance scale", "", 0.53, 1.0),
        "insert_density": ("insert density", "g/cm3", 1.0, 1.3),  # ours
        "filler_ratio": ("filler density ratio", "", 0.7, 1.1),  # ours
        "ring_film": ("thinnest film of a ring", "um", 0.02, 0.2),  # ours
    },
}
NUMBERS = [(record, name) for record, table in LIMITS.items() for name in table]
# What else has to change so that a number can reach its limits, or stand at all
BESIDE: dict[str, dict[str, object]] = {
    "intermediate_in": dict(differential_in=0.080),
    "differential_in": dict(intermediate_in=0.0),
    "insert_inner_in": dict(diameter_in=1.5),
    "diameter_in": dict(insert_inner_in=None),
    "arrow_board": dict(launch_deg=None),
}
LEFT_OUT: dict[str, dict[str, object]] = {  # and what has to stand there instead
    "filler_density_g_cm3": {},
    "insert_inner_in": {},
    "grit": dict(polished=True),
    "launch_deg": dict(arrow_board=10),
    "arrow_board": dict(launch_deg=1),
}
HAVE_DEFAULTS = {
    "release_phase_deg", "circumference_in", "intermediate_in", "top_weight_oz", "pin_to_cg_in",
    "forward_pitch_in", "lateral_pitch_in", *LIMITS[wb.Assumptions],
}  # fmt: skip


def make(record, name, value):
    return accepted(lambda: record(**{**VALID[record], **BESIDE.get(name, {}), name: value}))


def each_number(test):
    names = [f"{record.__name__}.{name}" for record, name in NUMBERS]
    return pytest.mark.parametrize(("record", "name"), NUMBERS, ids=names)(test)


def test_the_table_names_every_number():
    declared = {
        (record, f.name) for record in VALID if record is not wb.Grip for f in fields(record)
        if "unit" in f.metadata
    }  # fmt: skip
    assert set(NUMBERS) == declared


@each_number
def test_both_limits_are_allowed_and_become_floats(record, name):
    _, _, low, high = LIMITS[record][name]
    if name == "insert_inner_in":
        high = np.nextafter(high, 0)  # the widest bore, 1 1/2 in, has to be wider than what is left
    for given in (low, high, np.float64(low), Fraction(low), Fraction(high)):
        kept = getattr(make(record, name, given), name)
        assert type(kept) is float and kept == float(given)


@each_number
def test_numbers_of_other_types_are_numbers(record, name):
    _, _, low, high = LIMITS[record][name]
    whole = math.ceil(low)
    if whole <= high and name != "differential_in":
        for kind in (int, np.int64, np.int16, np.float32, np.float16, np.longdouble):
            assert getattr(make(record, name, kind(whole)), name) == whole


@each_number
def test_a_number_beyond_its_limits_is_refused_with_value_unit_and_limits(record, name):
    words, unit, low, high = LIMITS[record][name]
    limits = f"{low:g} to {high:g} {unit}".strip()
    beyond = [math.nextafter(low, -math.inf), math.nextafter(high, math.inf), low - 1, high + 1]
    for value in [*beyond, *map(np.float64, beyond), -1e300, 1e300, 10**30]:
        text = refused(lambda value=value: make(record, name, value), words, limits, "outside")
        given = text.removeprefix(f"{words} ").split(" ")[0]
        assert float(given) == float(value)  # the person sees what was typed, to the last digit


@each_number
def test_what_is_no_finite_number_is_refused(record, name):
    words, unit, low, high = LIMITS[record][name]
    limits = f"{low:g} to {high:g} {unit}".strip()
    for value, seen in [
        (math.nan, "nan"), (math.inf, "inf"), (-math.inf, "-inf"), (np.float32("nan"), "nan"),
        (10**400, "401 digits"), (-(10**5000), "5001 digits"), (Fraction(10**400), "inf"),
    ]:  # fmt: skip
        call = lambda value=value: make(record, name, value)  # noqa: E731
        refused(call, words, f"must be a finite number from {limits}, not ", seen)
    for value in (
        True, np.True_, str(low), "", "x" * 500, "two\nlines", b"1", complex(low), [low], (low,),
        {}, {low}, np.array(low), np.array([low, high]), Decimal(1), object(), float, math.sqrt,
    ):  # fmt: skip
        call = lambda value=value: make(record, name, value)  # noqa: E731
        refused(call, words, f"must be a number from {limits}, not ")


@each_number
def test_a_missing_number_is_refused_unless_it_may_be_left_out(record, name):
    words, unit, low, high = LIMITS[record][name]
    limits = f"{low:g} to {high:g} {unit}".strip()
    given = {**VALID[record], **BESIDE.get(name, {}), **LEFT_OUT.get(name, {})}
    given.pop(name, None)
    if name in LEFT_OUT:
        assert getattr(record(**given), name) is None
        return
    missing = f"{words} is missing: give a number from {limits}."
    refused(lambda: make(record, name, None), missing)
    if name in HAVE_DEFAULTS:
        assert low <= getattr(accepted(lambda: record(**given)), name) <= high
    else:
        refused(lambda: record(**given), missing)


@each_number
def test_a_refused_replacement_leaves_the_record_as_it_was(record, name):
    whole = make(record, name, LIMITS[record][name][2])
    before = repr(whole)
    for bad in (math.nan, 1e9, "x", True):
        refused(lambda bad=bad: replace(whole, **{name: bad}))
    assert repr(whole) == before
