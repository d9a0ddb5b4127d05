"""Where an answer is put in: one box for each kind of exercise."""

import random
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import ipywidgets as widgets

from workbook.panels.lever_sliders import lever_class, lever_slider, typed_beside
from workbook.practice.posed import Posed

PLACES = ("1st", "2nd", "3rd", "4th", "5th", "6th", "7th", "8th")
CHOOSE = "choose"
SEMICOLON = "; "
Names = list[tuple[str, str, str]]


@dataclass
class AnswerBox:
    """What a student answers with.

    Parameters
    ----------
    widget : widget
    answer : callable
        The answer as `answering.mark` takes it; empty while nothing is filled in.
    given : callable
        The same as text, to be kept.
    names : list of (str, str, str)
        For screen readers: a part of the box as a CSS selector, the attribute, the words.
    inputs : sequence of widgets
        What may be held as it is.
    points : widget or None
        Of kind words: what is to be ticked, hidden at first.
    text : widget or None
        Of kind number: whose Enter key means Check.
    typed : callable
        Of kind target: takes what is typed beside a slider with these classes, or refuses it.
    """

    widget: widgets.Widget
    answer: Callable[[], object]
    given: Callable[[], str]
    names: Names = field(default_factory=list)
    inputs: Sequence[widgets.Widget] = ()
    points: widgets.Widget | None = None
    text: widgets.Text | None = None
    typed: Callable[[Sequence[str], str], None] = lambda _classes, _text: None

    def hold(self, on: bool) -> None:
        """Whether what is filled in stays as it is."""
        for one in self.inputs:
            one.disabled = on


def answer_box(posed: Posed) -> AnswerBox:
    """An empty box for an exercise."""
    return _BOXES[posed.exercise.kind](posed)


def _number(posed: Posed) -> AnswerBox:
    number = posed.exercise.answer
    assert number is not None
    text = widgets.Text(
        description="answer",
        placeholder="type a number",
        style={"description_width": "initial"},
        layout=widgets.Layout(width="240px"),
    )
    named = f"answer [{number.unit}]" if number.unit else "answer"
    row = widgets.HBox([text, widgets.Label(number.unit)])
    names = [("input", "aria-label", named), ("input", "autocomplete", "off")]
    return AnswerBox(row, lambda: text.value, lambda: text.value, names, [text], text=text)


def _choice(posed: Posed) -> AnswerBox:
    texts = shuffled([one.text for one in posed.exercise.choices], posed)
    radio = widgets.RadioButtons(options=texts, value=None, layout=widgets.Layout(width="100%"))
    # one group, which Tab enters once and arrow keys go through
    group = ("input[type=radio]", "name", f"{posed.exercise.id} {posed.seed}")
    names = [("", "role", "radiogroup"), ("", "aria-label", "your answer"), group]
    return AnswerBox(radio, lambda: radio.value, lambda: radio.value or "", names, inputs=[radio])


def _order(posed: Posed) -> AnswerBox:
    items = shuffled(list(posed.exercise.items), posed)
    if items == list(posed.exercise.items):
        items = [*items[1:], items[0]]
    options = [(CHOOSE, ""), *((item, item) for item in items)]
    wide = {"width": "100%"}
    places = [
        widgets.Dropdown(
            options=options, value="", description=place, style={"description_width": "44px"},
            layout=widgets.Layout(**wide),
        )
        for place, _item in zip(PLACES, items, strict=False)
    ]  # fmt: skip

    def chosen() -> list[str]:
        return [one.value for one in places if one.value]

    return AnswerBox(widgets.VBox(places), chosen, lambda: SEMICOLON.join(chosen()), inputs=places)


def _target(posed: Posed) -> AnswerBox:
    target = posed.exercise.target
    assert target is not None
    sliders = {name: lever_slider(lever) for name, lever in target.levers.items()}
    names: Names = []
    moved: list[bool] = []
    for place, one in enumerate(sliders.values()):
        at = f".{lever_class(place)}"
        one.add_class(at[1:])
        one.observe(lambda _change: moved.append(True), names="value")
        names.append((f"{at} .noUi-handle", "aria-label", one.description))
        typed = f"{one.description}, as a number"
        names.append((f"{at} .widget-readout", "aria-label", typed))
    return AnswerBox(
        widgets.VBox(list(sliders.values())),
        # a slider on the page answers 4.5 with 4.500000000000001
        lambda: {name: round(one.value, 9) for name, one in sliders.items()} if moved else {},
        lambda: SEMICOLON.join(f"{one.description} {one.value:g}" for one in sliders.values()),
        names,
        list(sliders.values()),
        typed=lambda classes, text: typed_beside(
            classes, text, list(target.levers.values()), list(sliders.values())
        ),
    )


def _words(posed: Posed) -> AnswerBox:
    text = _textarea("in your own words", 5)
    ticks = [
        widgets.Checkbox(False, description=one, indent=False) for one in posed.exercise.points
    ]
    for one in ticks:
        one.layout.width = "100%"
    asked = widgets.HTML("<p>Does your text say this?</p>")
    points = widgets.VBox([asked, *ticks], layout=widgets.Layout(display="none"))

    def held() -> list[int]:
        return [place for place, one in enumerate(ticks, 1) if one.value]

    def given() -> str:
        return f"{text.value}\n[points held: {', '.join(map(str, held())) or 'none'}]"

    names = [("textarea", "aria-label", "your text")]
    box = widgets.VBox([text, points])
    return AnswerBox(
        box, lambda: {"text": text.value, "points": held()}, given, names, [text], points=points
    )


def _drill(posed: Posed) -> AnswerBox:
    sheet = posed.exercise.sheet
    assert sheet is not None
    columns = SEMICOLON.join(sheet.columns)
    text = _textarea(f"one line each, with semicolons between: {columns}", min(sheet.rows + 1, 12))
    names = [("textarea", "aria-label", f"your sheet, one line each: {columns}")]
    return AnswerBox(text, lambda: text.value, lambda: text.value, names, [text])


def _textarea(placeholder: str, rows: int) -> widgets.Textarea:
    return widgets.Textarea(
        placeholder=placeholder, rows=rows, layout=widgets.Layout(width="100%", height="auto")
    )


def shuffled(texts: list[str], posed: Posed) -> list[str]:
    """`texts` in an order that belongs to the variant."""
    order = list(texts)
    random.Random(f"{posed.exercise.id} {posed.seed}").shuffle(order)
    return order


_BOXES: dict[str, Any] = {
    "number": _number, "choice": _choice, "predict": _choice, "order": _order, "target": _target,
    "words": _words, "drill": _drill,
}  # fmt: skip
