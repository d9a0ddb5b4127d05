"""Shapley values (Shapley 1953): how much of an effect each of several switches brings."""

import math
from collections.abc import Mapping


def shapley(worth: Mapping[tuple[bool, ...], float], i: int) -> float:
    """Mean effect of switch `i` over all orders of switching; the shares of all add up.

    Parameters
    ----------
    worth : mapping
        A value for every setting of the switches, 2^n of them.
    """
    n = len(next(iter(worth)))
    total = 0.0
    for setting, value in worth.items():
        if not setting[i]:
            others = sum(setting)
            weight = math.factorial(others) * math.factorial(n - 1 - others) / math.factorial(n)
            total += weight * (worth[(*setting[:i], True, *setting[i + 1 :])] - value)
    return total
