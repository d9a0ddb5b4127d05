"""Conversions between what people type (inches, pounds, boards) and SI.

Factors are exact by definition (international yard and pound, 1959); mark: published, the
international agreement of 1959 as kept by the national metrology institutes.
"""

import math

INCH = 0.0254  # [m]
FOOT = 12 * INCH  # [m]
POUND = 0.45359237  # [kg]
OUNCE = POUND / 16  # [kg]
MPH = 0.44704  # [m/s]
RPM = 2 * math.pi / 60  # [rad/s]
DEGREE = math.pi / 180  # [rad]
MICROMETRE = 1e-6  # [m]
MICROINCH = 1e-6 * INCH  # [m]
MILLILITRE = 1e-6  # [m^3]
GRAM_PER_CM3 = 1000.0  # [kg/m^3]


def radius_m(circumference_in: float) -> float:
    """Radius [m] of a ball of that circumference [in]."""
    return circumference_in * INCH / (2 * math.pi)


def arc_per_inch(circumference_in: float) -> float:
    """Angle at the centre [rad] of one inch [in] along the surface of a ball [in]."""
    return 2 * math.pi / circumference_in
