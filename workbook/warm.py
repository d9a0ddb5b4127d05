"""Compile the kernels, or load them from their cache, before anyone moves a slider.

`python -m workbook.warm` runs beside the start of Lab: the first start after an update compiles for
a few seconds, and the page's kernel then finds the code in the cache.
"""

from workbook import demo
from workbook.comparison import compare


def main() -> None:
    """Roll one comparison, batch kernel included."""
    comparison = compare(*demo.pin_up_and_down())
    assert comparison.shares


if __name__ == "__main__":
    main()
