"""Speed and revs: a tour sample and a shop guide's example (memory), common practice, derived."""

import pytest

import workbook as wb
from tests.conftest import BOWLER, changed
from tests.published.facts import fact

ICE = wb.Lane.of_friction([(0, 0.0)])
STRAIGHT = wb.Line(laydown_board=20, launch_deg=0)
CENTRED = dict(grip=wb.Grip(), differential_in=0, intermediate_in=0)


@pytest.mark.parametrize("row", ["tour_men", "tour_women"])
def test_tour_sample_bowls_and_loses_a_usual_amount_of_speed(row):
    """The note of each row has the speed that goes with the rev rate."""
    sample = fact(row)
    mph = float(sample.note.removesuffix(" mph"))
    shot = wb.roll(
        changed(speed_mph=mph, rev_rate_rpm=sample.value),
        wb.Lane.house(),
        wb.Line(laydown_board=26, arrow_board=17),
    )
    loss, lost = fact("speed_loss"), mph - shot.entry_speed_mph
    least, most = loss.band
    sample.check_that(
        least < lost < most, f"at {mph} mph, loses {loss.given}", f"loses {lost:.1f} mph"
    )
    loss.check_between(lost)  # common practice, no source


@pytest.mark.parametrize("speed", [16, 18, 21])
@pytest.mark.parametrize("revs", [150, 350, 500])
def test_speed_lost_on_the_house_lane(speed, revs):
    """Common practice, no source: 1.5 to 4.5 mph from release to the pins, at usual speeds."""
    setup = changed(speed_mph=speed, rev_rate_rpm=revs)
    line = wb.Line(laydown_board=30, arrow_board=18)
    shot = wb.roll(setup, wb.Lane.house(), line, gutters=False)
    fact("speed_loss").check_between(speed - shot.entry_speed_mph)


@pytest.mark.parametrize("speed", [10.0, 16.0, 23.0])
def test_average_speed_from_the_time_over_the_lane(speed):
    shot = wb.roll(changed(speed_mph=speed, rev_rate_rpm=0, **CENTRED), ICE, STRAIGHT)
    fact("speed_const").check(shot.time_s * speed)


def test_shop_guides_example():
    """2.52 s over 60 ft is 16.23 mph: their example, recalled; the speed follows."""
    shot = wb.roll(changed(speed_mph=20, rev_rate_rpm=0, **CENTRED), ICE, STRAIGHT)
    fact("speed_example").check(20 * shot.time_s / 2.52)


@pytest.mark.parametrize("friction", [0.10, 0.25])
def test_rolling_spin(friction):
    """v = omega R: 27 in ball at 16 mph, from any spin about a level axis and any friction."""
    setup = changed(speed_mph=18, rev_rate_rpm=200, axis_tilt_deg=0, **CENTRED)
    shot = wb.roll(setup, wb.Lane.of_friction([(0, friction)]), STRAIGHT, gutters=False)
    fact("roll_spin_16").check(shot.path.rev_rate_rpm[-1] / shot.entry_speed_mph * 16.0)


@pytest.mark.parametrize(("row", "arc_in"), [("track_tilt", 12.0), ("track_tilt2", 10.5)])
def test_tape_over_the_negative_pole_gives_the_tilt(row, arc_in):
    """Spherical geometry (derived): across the track's small cap, tilt = (13.5 - arc)/0.15."""
    tilt = fact(row).value
    shot = wb.roll(changed(axis_tilt_deg=tilt, **CENTRED), ICE, STRAIGHT)
    cap_in = 2 * (180.0 - shot.rings[0].opening_deg) / 360.0 * 27.0
    assert cap_in == pytest.approx(arc_in, abs=1e-5)  # the steps of the integration are felt
    fact(row).check((13.5 - cap_in) / 0.15, within=1e-4)


def test_rev_rate_from_video_frames():
    """Common practice, no source: 60 frames a second, one turn in 10 frames."""
    fact("rev_frames").check(wb.rev_rate_rpm(1, 10, 60).value)


def test_tape_and_clock_give_what_the_table_says():
    """The same rows through the functions that a coach calls."""
    for row, tape_in in (("track_tilt", 12.0), ("track_tilt2", 10.5)):
        fact(row).check(wb.axis_tilt_deg(tape_in, 27.0).value)
    fact("speed_const").check(wb.mean_speed_mph(60, 2.5).value * 2.5)
    fact("speed_example").check(wb.mean_speed_mph(60, 2.52).value)


def test_usual_pap_places_are_taken():
    """Common practice: 4 to 6.5 in over."""
    usual = fact("pap_over")
    taken = [changed(pap_over_in=over).bowler.pap.over_in for over in usual.band]
    usual.check_that(taken == list(usual.band), "both ends are accepted",
                     usual.with_unit("{:g} and {:g}".format(*taken)))  # fmt: skip
    assert usual.band[0] < BOWLER.pap_over_in < usual.band[1]
