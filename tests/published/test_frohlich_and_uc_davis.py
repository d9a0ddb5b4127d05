"""Lane friction, recalled (memory): modelling values after Frohlich, Am. J. Phys. 72, 1170 (2004).

And a page of UC Davis sports biomechanics; neither has a title at hand.
"""

import numpy as np
import pytest

import workbook as wb
from tests.conftest import changed
from tests.published.facts import fact
from workbook import sources


@pytest.mark.parametrize(("row", "key"), [("mu_oil", "mu_oil"), ("mu_dry", "mu_dry_reactive")])
def test_recalled_modelling_value_lies_in_the_range_that_the_model_assumes(row, key):
    recalled, assumed = fact(row), sources.FACTS[key]
    low, high = assumed.range
    recalled.check_that(low <= recalled.value <= high, "lies in the range that the library assumes",
                        f"{low:.2f} to {high:.2f}")  # fmt: skip
    assert assumed.mark == "assumption" and f"{recalled.value:.2f}" in assumed.source


@pytest.mark.parametrize("speed", [10, 15, 20, 25])
def test_friction_is_dry_style_whatever_the_slip(speed):
    """Coulomb: the ball loses the same speed each second, and it loses it against the slip."""
    assert fact("coulomb").text == "yes"
    setup = changed(speed_mph=speed, rev_rate_rpm=0, grip=wb.Grip(),
                    differential_in=0, intermediate_in=0)  # fmt: skip
    path = wb.roll(setup, wb.Lane.of_friction([(0, 0.05)]),
                   wb.Line(laydown_board=20, launch_deg=0)).path  # fmt: skip
    sliding = path.slip_mph > 1.0
    lost = np.gradient(path.speed_mph, path.time_s)[sliding][1:-1] * 0.44704
    fact("coulomb").check_that(
        len(lost) > 0 and lost == pytest.approx(np.full(len(lost), -0.05 * 9.80665), rel=1e-4),
        "the library's is Coulomb's: mu 0.05 takes 0.4903 m/s^2 at 10 to 25 mph",
        f"{-lost.mean():.4f} m/s^2",
    )
