"""Numbers as a student reads them."""


def number_words(value: float) -> str:
    """Four digits where that is enough, never "-0"."""
    return f"{round(value, 10) + 0.0:.4g}" if abs(value) < 10_000 else f"{value:.0f}"
