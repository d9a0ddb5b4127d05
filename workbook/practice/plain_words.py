"""Numbers as a student reads them."""

import math


def number_words(value: float, tolerance: float = 0.0) -> str:
    """Four digits, or as many decimals as keep within the tolerance; never "-0"."""
    if tolerance > 0.0:
        decimals = max(0, math.ceil(math.log10(0.5 / tolerance)))
        text = f"{round(value, decimals) + 0.0:.{decimals}f}"
        return text.rstrip("0").rstrip(".") if decimals else text
    text = f"{round(value, 10) + 0.0:.4g}"
    return f"{value:.10f}".rstrip("0").rstrip(".") if "e" in text else text
