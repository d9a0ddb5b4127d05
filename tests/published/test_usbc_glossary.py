"""USBC glossary (published)."""

import pytest

from tests.conftest import changed
from tests.published.facts import ROUNDING, fact
from tests.published.limit import last_before


@pytest.mark.parametrize("differential", [0.020, 0.050])
def test_asymmetric_above_five_percent_of_the_differential(differential):
    threshold = fact("asym_threshold").value * differential
    for share, asymmetric in ((0.0, False), (0.99, False), (1.01, True), (10.0, True)):
        core = dict(differential_in=differential, intermediate_in=share * threshold)
        assert changed(**core).ball.asymmetric is asymmetric

    def counts(share):
        core = dict(differential_in=differential, intermediate_in=share * differential)
        return changed(**core).ball.asymmetric

    fact("asym_threshold").check(last_before(counts, 0.0, 0.5), rel=ROUNDING)
