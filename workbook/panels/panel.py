"""The one panel class: controls in, pictures and words out, and a line for what went wrong."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from html import escape
from typing import Any

import ipywidgets as widgets

from workbook.draw.picture import Picture
from workbook.errors import InputRefused

Values = dict[str, Any]


@dataclass(frozen=True)
class Answer:
    """What a panel shows: a scene for each picture, and HTML for each text, by name."""

    scenes: Mapping[str, Any] = field(default_factory=dict)
    texts: Mapping[str, str] = field(default_factory=dict)


class Panel:
    """Controls, and the pictures and texts that follow them.

    A change of any control asks `answer` for the new answer and shows it. A refusal, or a fault of
    ours, is told in the status line, and the last good answer stays.

    Parameters
    ----------
    controls : mapping of str to widget
        What can be moved; the panel owns them, so building a panel again leaves no old callback.
    pictures : mapping of str to Picture
        Drawn from the answer's scenes of the same names.
    texts : sequence of str
        Names of the answer's texts.
    answer : callable
        From the controls' values to an `Answer`; raises InputRefused for what cannot be.
    """

    strict = False
    """Tests set this: what would only be told in the status line is raised."""

    def __init__(
        self,
        *,
        controls: Mapping[str, widgets.ValueWidget],
        pictures: Mapping[str, Picture],
        texts: tuple[str, ...],
        answer: Callable[[Values], Answer],
    ) -> None:
        self.controls = dict(controls)
        self.pictures = dict(pictures)
        self.images = {
            name: widgets.Image(format="png", layout=widgets.Layout(width="100%", height="auto"))
            for name in pictures
        }
        for name, image in self.images.items():
            image.add_class(f"workbook-{name}")
        self.texts = {name: widgets.HTML() for name in texts}
        self.status = widgets.HTML()
        self.status.add_class("workbook-status")
        self._answer = answer
        self._shown: Values | None = None
        for name, control in self.controls.items():
            control.add_class(f"workbook-{name.replace('_', '-')}")
            control.observe(self._changed, names="value")
        self.box = widgets.VBox([*self.controls.values(), self.status, *self.images.values(),
                                 *self.texts.values()])  # fmt: skip
        self._changed()

    @property
    def values(self) -> Values:
        """What the controls say now."""
        return {name: control.value for name, control in self.controls.items()}

    def set(self, **values: Any) -> None:
        """Move several controls at once and answer once."""
        for name in self.controls:
            self.controls[name].unobserve(self._changed, names="value")
        try:
            for name, value in values.items():
                self.controls[name].value = value
        finally:
            for name in self.controls:
                self.controls[name].observe(self._changed, names="value")
        self._changed()

    def _changed(self, _change: object = None) -> None:
        values = self.values
        if values == self._shown:
            return
        try:
            self._show(self._answer(values))
        except InputRefused as refusal:
            if self.strict:
                raise
            self._tell(str(refusal))
        except Exception as fault:
            if self.strict:
                raise
            self._tell(f"The workbook itself failed here ({type(fault).__name__}: {fault}).")
        else:
            self._shown = values
            self.status.value = ""

    def _tell(self, text: str) -> None:
        self.status.value = f"<b>{escape(text)}</b> The last good picture stays."

    def _show(self, answer: Answer) -> None:
        shots = {}
        for name, scene in answer.scenes.items():
            self.pictures[name].show(scene)
            shots[name] = self.pictures[name].png()
        for name, png in shots.items():
            self.images[name].value = png
        for name, text in answer.texts.items():
            self.texts[name].value = text

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(self.box)
