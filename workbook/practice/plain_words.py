"""Numbers as a student reads them."""


def number_words(value: float) -> str:
    """Four digits where that is enough, never "-0"."""
    text = f"{round(value, 10) + 0.0:.4g}"
    return f"{value:.10f}".rstrip("0").rstrip(".") if "e" in text else text
