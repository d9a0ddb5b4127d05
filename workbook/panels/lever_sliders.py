"""Sliders of a target's levers: exact limits, and steps that reach what the exercise is about."""

import math
from collections.abc import Sequence

import ipywidgets as widgets

from workbook import errors
from workbook.panels.controls import UNIT_SIGNS
from workbook.practice.exercise import Lever
from workbook.typed import NO_UNIT, UNITS, number_from

FEWEST = 40  # steps of a slider, so that it can show what was typed
NICE = (5.0, 2.5, 2.0, 1.25, 1.0)
TENTHS = 4  # how often a step is made ten times finer before it need not be round


def lever_slider(lever: Lever) -> widgets.FloatSlider:
    """The slider of a lever, where the exercise starts it."""
    step, unit = step_of(lever), UNIT_SIGNS.get(lever.unit, lever.unit)
    return widgets.FloatSlider(
        lever.start,
        min=lever.low,
        max=lever.high,
        step=step,
        description=f"{lever.words} [{unit}]" if unit else lever.words,
        readout_format=f".{_digits(lever.low, step)}f",
        style={"description_width": "initial"},
        layout=widgets.Layout(width="640px", max_width="100%"),
    )


def lever_class(place: int) -> str:
    """CSS class of the lever at a place, counted from 0."""
    return f"workbook-lever-{place}"


def typed_beside(
    classes: Sequence[str], text: str, levers: Sequence[Lever], sliders: Sequence[widgets.Widget]
) -> None:
    """Move the slider of one of these classes to the number that was typed beside it.

    Raises
    ------
    InputRefused
        No number, another unit, or beyond the limits; the slider stays where it is.
    """
    for place, (lever, slider) in enumerate(zip(levers, sliders, strict=True)):
        if lever_class(place) in classes:
            value = number_from(text, lever.unit if lever.unit in UNITS else NO_UNIT)
            slider.value = errors.number(lever.words, value, lever.unit, lever.low, lever.high)


def step_of(lever: Lever) -> float:
    """The widest round step that reaches both ends, the start and the worked setting."""
    span = lever.high - lever.low
    if span <= 0.0:
        return 1.0
    widest = math.floor(math.log10(span / FEWEST))
    steps = (nice * 10.0 ** (widest - tenth) for tenth in range(TENTHS) for nice in NICE)
    reached = (lever.high, lever.start, lever.worked)
    for step in steps:
        if span / step >= FEWEST and all(_whole((one - lever.low) / step) for one in reached):
            return step
    return span / 1000


def _whole(steps: float) -> bool:
    return abs(steps - round(steps)) < 1e-6


def _digits(low: float, step: float) -> int:
    """Decimals that show every step."""
    return next((n for n in range(6) if _whole(low * 10**n) and _whole(step * 10**n)), 6)
