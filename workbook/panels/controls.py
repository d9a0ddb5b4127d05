"""Controls made from the declarations of the input records: one place for limits and units."""

from typing import Any

import ipywidgets as widgets

from workbook.glossary import term_in
from workbook.inputs import Inputs, limits

UNIT_SIGNS = {"deg": "°"}


def wide() -> dict[str, Any]:
    """Looks that all controls share; each gets a layout of its own, to be hidden by itself."""
    return {
        "style": {"description_width": "205px"},
        "layout": widgets.Layout(width="400px", max_width="100%"),
    }


def slider(
    record: type[Inputs], name: str, value: float, step: float, *, words: str = "", digits: int = 2
) -> widgets.FloatSlider:
    """Slider for the number `name` of an input record, between the record's own limits."""
    low, high, unit = limits(record, name)
    words = words or record.__dataclass_fields__[name].metadata["words"]
    return widgets.FloatSlider(
        value,
        min=low,
        max=high,
        step=step,
        description=f"{words} [{UNIT_SIGNS.get(unit, unit)}]" if unit else words,
        readout_format=f".{digits}f",
        **wide(),
    )


def menu(words: str, options: Any, value: Any) -> widgets.Dropdown:
    """A list to choose one from."""
    return widgets.Dropdown(
        options=options,
        value=value,
        description=words,
        **wide(),
    )


def switch(words: str, options: list[str], value: str | None) -> widgets.ToggleButtons:
    """A few buttons of which one is down."""
    return widgets.ToggleButtons(
        options=options,
        value=value,
        description=words,
        style={"button_width": "110px", "font_weight": "bold"},
        layout=wide()["layout"],
    )


def tick(words: str, tooltip: str = "", *, on: bool = False) -> widgets.Checkbox:
    """A box to tick."""
    return widgets.Checkbox(on, description=words, tooltip=tooltip, indent=False)


def steps(words: str, options: tuple[str, ...], value: str) -> widgets.SelectionSlider:
    """A slider that steps through words."""
    return widgets.SelectionSlider(
        options=options,
        value=value,
        description=words,
        **wide(),
    )


def offer_number(slider: widgets.SelectionSlider, number: str) -> None:
    """Let a slider of numbers, with words behind them, stand at one more number."""
    if number in slider.options:
        return
    chosen = slider.value
    numbers = sorted({number, *filter(_is_number, slider.options)}, key=float)
    slider.options = [*numbers, *(one for one in slider.options if not _is_number(one))]
    slider.value = chosen


def limits_of(slider: widgets.SelectionSlider) -> tuple[float, float]:
    """The least and the greatest number on a slider of numbers and words."""
    numbers = [float(one) for one in slider.options if _is_number(one)]
    return min(numbers), max(numbers)


def _is_number(word: str) -> bool:
    return word[:1].isdigit()


def hover(words: str) -> str:
    """What the glossary says on the term in these words; "" if there is none."""
    term = term_in(words)
    if term is None:
        return ""
    return f"{term.meaning} Positive: {term.positive}." if term.positive else term.meaning


def explain(control: widgets.DOMWidget) -> None:
    """Give a control that has no hover text yet the glossary's on the term in its words.

    A row of buttons gets one a button. Never for an image: a tooltip breaks its view under Voila.
    """
    if isinstance(control, widgets.ToggleButtons):
        control.tooltips = control.tooltips or [hover(str(option)) for option in control.options]
    elif not control.tooltip:
        control.tooltip = hover(control.description) or None


def folded(parts: dict[str, widgets.Widget]) -> widgets.VBox:
    """A row of buttons, each of which opens its part under the row; the keyboard reaches them."""
    row, boxes = [], []
    for words, part in parts.items():
        button = widgets.ToggleButton(
            False, description=words, tooltip=f"show or hide: {words}",
            layout=widgets.Layout(width="auto"),
        )  # fmt: skip
        button.add_class("workbook-fold")
        box = widgets.VBox([part], layout=widgets.Layout(display="none"))

        def toggle(change: dict[str, Any], box: widgets.VBox = box) -> None:
            box.layout.display = "" if change["new"] else "none"

        button.observe(toggle, names="value")
        row.append(button)
        boxes.append(box)
    return widgets.VBox([widgets.HBox(row, layout=widgets.Layout(flex_flow="row wrap")), *boxes])
