"""What a refusal has to look like, and valid inputs to start from. All of them are invented."""

import math
import re
import warnings
from collections.abc import Callable

import pytest
from hypothesis import HealthCheck, settings

import workbook as wb

# Nothing is stored, and the same examples come every time.
QUIET = dict(derandomize=True, database=None, deadline=None, suppress_health_check=HealthCheck)


def examples(number: int) -> settings:
    return settings(max_examples=number, **QUIET)


def one_sentence(text: str) -> str:
    """`text`, if it is one sentence on one line that can be printed and read at a glance."""
    assert text.endswith(".") and text[:-1].strip() and len(text) < 250, text
    assert text.isprintable() and "  " not in text, text
    assert not re.search(r"[.!?]\s", text), text
    return text


def refused(call: Callable[[], object], *parts: str) -> str:
    """Refuse `call` in one sentence that has all `parts`; return the sentence."""
    with warnings.catch_warnings(), pytest.raises(wb.InputRefused) as caught:
        warnings.simplefilter("ignore", wb.LegalLimit)
        call()
    text = one_sentence(str(caught.value))
    assert all(part in text for part in parts), (parts, text)
    return text


def accepted(call: Callable[[], object]) -> object:
    """The result of `call`, legal or not."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore", wb.LegalLimit)
        return call()


def refused_or(call: Callable[[], object], kind: type) -> object:
    """A `kind`, or None after a refusal in one sentence; nothing else may come out of `call`."""
    try:
        result = accepted(call)
    except wb.InputRefused as refusal:
        one_sentence(str(refusal))
        return None
    assert isinstance(result, kind)
    return result


BOWLER = dict(
    hand="right",
    pap_over_in=5.0,
    pap_up_in=0.5,
    speed_mph=18.0,
    rev_rate_rpm=350.0,
    axis_rotation_deg=50.0,
    axis_tilt_deg=12.0,
    release_phase_deg=30.0,
)
BALL = dict(
    weight_lb=15.0,
    circumference_in=27.0,
    rg_low_in=2.5,
    differential_in=0.05,
    intermediate_in=0.015,
    top_weight_oz=1.0,
    pin_to_cg_in=3.0,
    cover="reactive",
    filler_density_g_cm3=1.2,
)
HOLE = dict(
    over_in=0.0,
    up_in=-2.75,
    diameter_in=1.25,
    depth_in=2.5,
    forward_pitch_in=0.25,
    lateral_pitch_in=-0.125,
    insert_inner_in=1.0,
    name="thumb",
)
VALID: dict[type, dict[str, object]] = {
    wb.Bowler: BOWLER,
    wb.Ball: BALL,
    wb.Hole: HOLE,
    wb.Layout: dict(drilling_angle_deg=45.0, pin_to_pap_in=4.5, val_angle_deg=25.0),
    wb.DistanceLayout: dict(pin_to_pap_in=4.5, psa_to_pap_in=5.0, pin_buffer_in=2.0),
    wb.Surface: dict(grit=2000.0, polished=False),
    wb.Line: dict(laydown_board=22.0, launch_deg=2.0),
    wb.Assumptions: {},
}
SETUP = dict(
    bowler=wb.Bowler(**BOWLER),
    ball=wb.Ball(**BALL),
    layout=wb.Layout(**VALID[wb.Layout]),
    grip=wb.Grip.usual(),
    surface=wb.Surface(grit=2000),
    name="ball C, pin up",
    assumptions=wb.Assumptions(),
)
VALID[wb.Setup] = SETUP
VALID[wb.Grip] = dict(holes=wb.Grip.usual().holes)
# Values that are no record of any kind
NOT_THAT = (None, 3, 2.5, True, "house", b"x", [], {}, (), object(), wb.Bowler, math.nan)
