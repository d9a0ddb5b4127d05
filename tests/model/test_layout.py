"""Layouts there and back, and doubts where the way back is ill-conditioned (spherical geometry)."""

import math

import numpy as np
import pytest

import workbook as wb
from tests.conftest import BALL, BOWLER

TENTH_DEGREE, THOUSANDTH_INCH = 0.1, 1e-3
ARC = 2 * math.pi / 27.0


def layouts(n=200, seed=3):
    """Random layouts away from where the way back loses digits."""
    rng = np.random.default_rng(seed)
    for _ in range(n):
        yield wb.Layout(
            drilling_angle_deg=rng.uniform(8, 172), pin_to_pap_in=rng.uniform(0.5, 6.5),
            val_angle_deg=rng.uniform(1, 80),
        )  # fmt: skip


def angles(layout):
    return layout.drilling_angle_deg, layout.pin_to_pap_in, layout.val_angle_deg


@pytest.mark.parametrize("mark", ["psa_in", "cg_in"])
def test_angles_to_marks_and_back(mark):
    for layout in layouts():
        marks = layout.place(BOWLER.pap, BALL)
        read = wb.read_marks(BOWLER.pap, BALL, marks.pin_in, getattr(marks, mark)).layout
        assert angles(read) == pytest.approx(angles(layout), abs=1e-6)


@pytest.mark.parametrize("mark", ["psa_in", "cg_in"])
@pytest.mark.parametrize("drilling", [0, 45, 180])
@pytest.mark.parametrize("val", [0, 45, 90])
def test_ends_of_the_angles_come_back(mark, drilling, val):
    """Angles read from marks come from -180 to 180: at an end rounding may fall on either side."""
    for pin_to_pap in (0.5, 1, 3.375, 4.5, 6, 6.75):
        layout = wb.Layout(
            drilling_angle_deg=drilling, pin_to_pap_in=pin_to_pap, val_angle_deg=val
        )  # fmt: skip
        marks = layout.place(BOWLER.pap, BALL)
        read = wb.read_marks(BOWLER.pap, BALL, marks.pin_in, getattr(marks, mark)).layout
        assert angles(read) == pytest.approx(angles(layout), abs=1e-6)


def test_marks_rounded_to_a_hundredth_come_back():
    """0.007 in at most at each mark: 0.4 degrees seen from 1 in away, 0.1 from a quarter around."""
    fiftieth_inch, half_degree = 0.02, 0.5
    rng = np.random.default_rng(8)
    for i in range(400):
        layout = wb.Layout(
            drilling_angle_deg=rng.uniform(0, 180) if i % 4 else rng.choice([0.0, 180.0]),
            pin_to_pap_in=rng.uniform(1, 6.75), val_angle_deg=rng.uniform(0, 80) if i % 5 else 0,
        )  # fmt: skip
        pap = wb.Pap(rng.uniform(0, 6.75), rng.uniform(-2, 2))
        marks = layout.place(pap, BALL)
        pin, psa = (tuple(round(v, 2) for v in at) for at in (marks.pin_in, marks.psa_in))
        read = wb.read_marks(pap, BALL, pin, psa).layout
        assert read.pin_to_pap_in == pytest.approx(layout.pin_to_pap_in, abs=fiftieth_inch)
        assert read.val_angle_deg == pytest.approx(layout.val_angle_deg, abs=half_degree)
        assert read.drilling_angle_deg == pytest.approx(layout.drilling_angle_deg, abs=half_degree)


def test_angles_to_distances_and_back():
    for layout in layouts():
        back = layout.distances().layout()
        assert angles(back) == pytest.approx(angles(layout), abs=1e-6)


def test_distances_are_those_between_the_marks():
    """Great-circle distances measured between the marks themselves."""
    for layout in layouts():
        marks = layout.place(BOWLER.pap, BALL)
        pap = BOWLER.pap.vector(27.0)
        pin, psa, cg = (wb.Pap(*at).vector(27.0) for at in
                        (marks.pin_in, marks.psa_in, marks.cg_in))  # fmt: skip
        given = layout.distances()
        apart = [math.acos(float(a @ b)) / ARC for a, b in ((pin, pap), (psa, pap), (pin, psa),
                                                            (pin, cg))]  # fmt: skip
        assert apart == pytest.approx(
            [given.pin_to_pap_in, given.psa_to_pap_in, 6.75, BALL.pin_to_cg_in],
            abs=THOUSANDTH_INCH,
        )
        over, up = (BOWLER.pap_over_in * ARC, BOWLER.pap_up_in * ARC)
        east = np.array([math.cos(over), 0.0, -math.sin(over)])  # pole of the VAL
        assert up and math.asin(abs(float(pin @ east))) / ARC == pytest.approx(
            given.pin_buffer_in, abs=THOUSANDTH_INCH
        )


def sensitivity(layout, error_in=1 / 32):
    """Degrees by which a buffer too small by the error moves the VAL angle: sin b = sin p sin V."""
    p, v = layout.pin_to_pap_in * ARC, math.radians(layout.val_angle_deg)
    buffer = math.asin(math.sin(p) * math.sin(v)) - error_in * ARC
    return math.degrees(v - math.asin(math.sin(buffer) / math.sin(p)))


def test_distances_near_a_val_angle_of_90_are_doubted():
    layout = wb.Layout(drilling_angle_deg=60, pin_to_pap_in=4, val_angle_deg=90)
    assert sensitivity(layout) > 5.0
    (doubt,) = layout.distances().doubts()
    assert "VAL angle" in doubt and "drilling" not in doubt


def test_small_pin_to_pap_is_doubted_either_way():
    layout = wb.Layout(drilling_angle_deg=60, pin_to_pap_in=0.3, val_angle_deg=30)
    assert sensitivity(layout) > 5.0
    marks = layout.place(BOWLER.pap, BALL)
    read = wb.read_marks(BOWLER.pap, BALL, marks.pin_in, marks.psa_in)
    for doubts in (layout.distances().doubts(), read.doubts):
        assert {d.split(" is doubtful")[0] for d in doubts} == {
            "The drilling angle", "The VAL angle"
        }  # fmt: skip


def test_sound_marks_are_not_doubted():
    layout = wb.Layout(drilling_angle_deg=60, pin_to_pap_in=4, val_angle_deg=30)
    marks = layout.place(BOWLER.pap, BALL)
    assert layout.distances().doubts() == ()
    assert wb.read_marks(BOWLER.pap, BALL, marks.pin_in, marks.psa_in).doubts == ()


@pytest.mark.parametrize(
    "impossible",
    [dict(pin_to_pap_in=4, psa_to_pap_in=1, pin_buffer_in=1),
     dict(pin_to_pap_in=2, psa_to_pap_in=6, pin_buffer_in=3)],
)  # fmt: skip
def test_distances_that_no_layout_has_are_refused(impossible):
    with pytest.raises(wb.InputRefused, match="no layout has these distances"):
        wb.DistanceLayout(**impossible).layout()


def test_marks_that_cannot_be_are_told():
    marks = wb.Layout(drilling_angle_deg=45, pin_to_pap_in=4.5, val_angle_deg=25).place(
        BOWLER.pap, BALL
    )
    over, up = marks.psa_in
    wrong = wb.read_marks(BOWLER.pap, BALL, marks.pin_in, (over, -up))
    assert any("A PSA lies about 6.75 in from the pin" in doubt for doubt in wrong.doubts)
    with pytest.raises(wb.InputRefused, match=r"VAL angle \d+\.\d deg is outside 0 to 90 deg"):
        wb.read_marks(BOWLER.pap, BALL, (2.0, -3.0), marks.psa_in)
