"""The one panel class: controls in, pictures and words out, and a line for what went wrong."""

import asyncio
import threading
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from dataclasses import dataclass, field
from functools import partial
from html import escape
from itertools import chain, count, repeat
from typing import Any

import ipywidgets as widgets
from traitlets import TraitError

from workbook import errors
from workbook.draw.picture import Picture
from workbook.errors import InputRefused
from workbook.panels.controls import explain, limits_of, offer_number
from workbook.panels.names import Names
from workbook.typed import NO_UNIT, UNITS, number_from

Values = dict[str, Any]
Job = Callable[[], None]
# A control rests when it has not moved for so long [s]: sooner after a single move than in a drag,
# whose moves come one in 0.06 s and must not wait for what follows at rest.
SINGLE_REST_S, DRAG_REST_S, DRAG_GAP_S = 0.005, 0.08, 0.4
BREATH_S = 0.002  # between two jobs, so that a move that has come in goes first
SHARP = 2
_numbers = count(1)
# Lab may handle a move in another thread than the one that builds panels, and pictures share what
# matplotlib keeps for all: one at a time.
ONE_AT_A_TIME = threading.RLock()


@dataclass(frozen=True)
class Answer:
    """What a panel shows.

    Parameters
    ----------
    scenes : mapping
        A scene for each picture, by name.
    texts : mapping
        HTML for each text, by name.
    says : mapping
        Values of controls that only say what came out (a switch, a menu), by name.
    later : sequence of callables
        Each gives more of the answer that is slow to work out; asked for when the controls rest.
        Only the first may add to pictures: they are made sharp after it.
    """

    scenes: Mapping[str, Any] = field(default_factory=dict)
    texts: Mapping[str, str] = field(default_factory=dict)
    says: Mapping[str, Any] = field(default_factory=dict)
    later: Sequence[Callable[[], "Answer"]] = ()


class Panel:
    """Controls, and the pictures and texts that follow them.

    A change of any control asks `answer` for the new answer and shows its texts and first picture
    at once, the other pictures a breath later: the page, which has to fetch and paint them, can
    meanwhile send the next move. When the controls rest, the pictures become sharp and the slow
    texts follow. A refusal, or a fault of ours, is
    told in the status line, and the last good answer stays.

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
    follow : mapping of str to callable
        What else moves with a control, by its name: gets the new value and moves other controls,
        all before the panel answers once.
    """

    strict = False
    """Tests set this: what would only be told in the status line is raised."""

    def __init__(
        self,
        *,
        controls: Mapping[str, widgets.ValueWidget],
        pictures: Mapping[str, Picture],
        texts: Sequence[str],
        answer: Callable[[Values], Answer],
        follow: Mapping[str, Callable[[Any], None]] | None = None,
    ) -> None:
        self.controls, self.pictures = dict(controls), dict(pictures)
        self._answer, self._follow, self._last = answer, dict(follow or {}), Answer()
        self._exact: Values = {}
        self._shown: Values | None = None
        self._quiet = False
        self._timer: asyncio.TimerHandle | None = None
        self._moved = -DRAG_GAP_S
        wide = widgets.Layout(width="100%", height="auto")
        self.images = {name: widgets.Image(format="png", layout=wide) for name in pictures}
        self.texts = {name: widgets.HTML() for name in texts}
        self.mark = f"workbook-{next(_numbers)}"  # tells this panel from others on the page
        self.status, self.names = widgets.HTML(), Names()
        self.names.on_msg(self._typed)
        for name, widget in (*self.controls.items(), *self.images.items(), *self.texts.items(),
                             ("status", self.status)):  # fmt: skip
            widget.add_class(_class(name))
        for name, control in self.controls.items():
            control.observe(partial(self._moved_one, name), names="value")
            explain(control)
        self.box = widgets.VBox()
        self.box.add_class("workbook-panel").add_class(self.mark)
        self.arrange([*self.controls.values(), self.status, *self.images.values(),
                      *self.texts.values()])  # fmt: skip
        self._changed()
        self.settle()

    def arrange(self, children: Sequence[widgets.Widget]) -> None:
        """Put the panel's parts in this order."""
        self.box.children = [*children, self.names]

    @property
    def values(self) -> Values:
        """What the controls say now, exact where a slider only stands at the nearest step."""
        # a slider on the page answers 4.5 with 4.500000000000001
        said = {name: control.value for name, control in self.controls.items()}
        said = {n: round(v, 9) if isinstance(v, float) else v for n, v in said.items()}
        return said | self._exact

    @property
    def between_steps(self) -> Values:
        """Numbers that were set or typed and that their sliders have no step for."""
        found = {}
        for name, value in self._exact.items():
            steps = (value - self.controls[name].min) / self.controls[name].step
            if abs(steps - round(steps)) > 1e-6:
                found[name] = value
        return found

    def set(self, **values: Any) -> None:
        """Move several controls at once and answer once; all or none of them.

        Raises
        ------
        InputRefused
            A name that is no control, or a value that its control cannot take.
        """
        for name in values:
            errors.choice("control", name, tuple(self.controls))
        for name, value in values.items():
            self._check(name, value)  # before anything that follows a move has moved
        before, exact = self.values, self._exact
        with self.moving_together():
            try:
                for name, value in values.items():
                    self._move(name, value)
            except InputRefused:
                for name, value in before.items():
                    self.controls[name].value = value
                self._exact = exact
                raise
            numbers = {n: float(v) for n, v in values.items()
                       if isinstance(self.controls[n], widgets.FloatSlider)}  # fmt: skip
            self._exact = self._exact | numbers
        self._changed()

    def refresh(self) -> None:
        """Answer again although no control has moved: something behind them has."""
        self._shown = None
        self._changed()

    def _check(self, name: str, value: Any) -> None:
        control = self.controls[name]
        words, unit = self._named(name)
        if isinstance(control, widgets.FloatSlider):
            errors.number(words, value, unit, control.min, control.max)
        elif hasattr(control, "options"):
            choices = [one[1] if isinstance(one, tuple) else one for one in control.options]
            if value not in choices and not (
                value is None and isinstance(control, widgets.ToggleButtons)
            ):
                raise InputRefused(f"{words} {value} is not among this panel's choices.")

    def _named(self, name: str) -> tuple[str, str]:
        """The words on a control, and the unit in brackets behind them."""
        words, _, unit = (self.controls[name].description or name).partition(" [")
        return words, unit.rstrip("]")

    def _move(self, name: str, value: Any) -> None:
        control = self.controls[name]
        words, _unit = self._named(name)
        try:
            control.value = value
        except TraitError:
            raise InputRefused(f"{words} {value} is not among this panel's choices.") from None

    def _moved_one(self, name: str, change: dict[str, Any]) -> None:
        # the page answers an exact number once, with the nearest step; any other change is a move
        if name in self._exact:
            exact, half = self._exact[name], 0.5 * self.controls[name].step + 1e-9
            answered = abs(change["old"] - exact) > 1e-9
            if answered or abs(change["new"] - exact) > half:
                self._exact = {n: v for n, v in self._exact.items() if n != name}
        if name in self._follow:
            with self.moving_together():
                self._follow[name](change["new"])
        self._changed()

    def _typed(self, _names: Names, said: dict[str, Any], _buffers: object) -> None:
        """Take the number that was typed beside a slider, or say why not."""
        with _Telling(self, "The slider stays where it is."):
            for name in self.controls:
                if _class(name) in said["classes"]:
                    self.set(**{name: self._meant(name, said["text"])})

    def _meant(self, name: str, text: str) -> float | str:
        """What was typed beside a slider: a number, or a word or number that it steps through."""
        control, (words, sign) = self.controls[name], self._named(name)
        known = (unit for unit, written in UNITS.items() if sign in written)
        if not isinstance(control, widgets.SelectionSlider):
            return number_from(text, next(known, NO_UNIT))
        if text.strip() in control.options:
            return text.strip()
        number = number_from(text, next(known, NO_UNIT))
        number = errors.number(words, number, sign, *limits_of(control))
        with self.moving_together():
            offer_number(control, f"{number:g}")
        return f"{number:g}"

    @contextmanager
    def moving_together(self) -> Iterator[None]:
        """No answer to the moves made here; whoever opened the outermost one answers once."""
        with ONE_AT_A_TIME:
            before, self._quiet = self._quiet, True
            try:
                yield
            finally:
                self._quiet = before

    def settle(self) -> None:
        """Do now what follows when the controls rest: slow texts, sharp pictures, names."""
        if self._timer:
            self._timer.cancel()
            self._timer = None
        for job in self._jobs():
            with _Telling(self):
                job()

    def _jobs(self) -> Iterator[Job]:
        """What follows at rest, in pieces that a new move can come between."""
        names = dict.fromkeys(self._last.scenes)
        laters = [partial(self._add, later, names) for later in self._last.later]
        yield from laters[:1]
        for name in names:
            yield partial(self._draw, name, SHARP)
        yield from laters[1:]
        yield self._name_all

    def _draw(self, name: str, scale: float = 1) -> None:
        self.images[name].value = self.pictures[name].png(scale)

    def _add(self, later: Callable[[], Answer], names: dict[str, None]) -> None:
        more = later()
        self._show(more)
        names.update(dict.fromkeys(more.scenes))

    def _show(self, answer: Answer) -> None:
        for name, scene in answer.scenes.items():
            self.pictures[name].show(scene)
        for name, text in answer.texts.items():
            self.texts[name].value = text
        with self.moving_together():
            for name, value in answer.says.items():
                self.controls[name].value = value

    def tell(self, text: str) -> None:
        """Say something in the status line ("" clears it)."""
        self.status.value = f'<span role="alert">{escape(text)}</span>' if text else ""

    def _tell_kept(self) -> None:
        """Say which numbers their sliders only show roughly; nothing where there are none."""
        kept = []
        for name, value in self.between_steps.items():
            words, unit = self._named(name)
            kept.append(f"{words} {value:g} {unit}".rstrip())
        said = f"Kept as given, between two steps of the slider: {', '.join(kept)}."
        self.status.value = f'<span class="workbook-kept">{escape(said)}</span>' if kept else ""

    def _changed(self) -> None:
        with _Telling(self, "The last good picture stays."):
            values = self.values
            if self._quiet:
                return
            if values != self._shown:
                answer = self._answer(values)
                self._show(answer)
                for name in list(answer.scenes)[:1]:
                    self._draw(name)
                self._shown, self._last = self.values, answer
                self._go_on()
            self._tell_kept()

    def _go_on(self) -> None:
        """Draw the other pictures, and what follows at rest, unless a new move comes first."""
        if self._timer:
            self._timer.cancel()
        others = [partial(self._draw, name) for name in list(self._last.scenes)[1:]]
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:  # a script or a test: nobody drags, and it calls `settle` itself
            for job in others:
                job()
            return
        dragged, self._moved = loop.time() - self._moved < DRAG_GAP_S, loop.time()
        rest = DRAG_REST_S if dragged else SINGLE_REST_S
        waits = chain(repeat(BREATH_S, len(others)), [rest], repeat(BREATH_S))
        self._do_next(zip(waits, chain(others, self._jobs()), strict=False), self._last)

    def _do_next(self, waits_and_jobs: Iterator[tuple[float, Job]], answer: Answer) -> None:
        wait, job = next(waits_and_jobs, (0.0, None))
        if job is None:
            return

        def do() -> None:
            with ONE_AT_A_TIME:
                if answer is not self._last:
                    return  # a move came in between, and has its own rest
                with _Telling(self):
                    job()
                self._do_next(waits_and_jobs, answer)

        self._timer = asyncio.get_running_loop().call_later(wait, do)

    def _name_all(self) -> None:
        """Names of handles and words for pictures, for screen readers."""
        names = []
        for name, control in self.controls.items():
            at = f".{self.mark} .{_class(name)}"
            for part in (".noUi-handle", "select", "input"):
                names.append([f"{at} {part}", "aria-label", control.description])
            if isinstance(control, widgets.SelectionSlider):
                names.append([f"{at} .widget-readout", "contenteditable", "true"])
                typed = f"{control.description}, as a number"
                names.append([f"{at} .widget-readout", "aria-label", typed])
            if isinstance(control, widgets.FloatSlider):
                typed = f"{control.description}, as a number"
                names.append([f"{at} .widget-readout", "aria-label", typed])
            if isinstance(control, widgets.ToggleButtons):
                for place, option in enumerate(control.options):
                    button = f"{at} button[value='{place}']"
                    names.append([button, "aria-label", f"{control.description}: {option}"])
        for name, picture in self.pictures.items():
            names.append([f".{self.mark} img.workbook-{name}", "alt", picture.describe()])
        self.names.names = names

    def _ipython_display_(self) -> None:
        from IPython.display import display

        display(self.box)


def _class(name: str) -> str:
    return f"workbook-{name.replace('_', '-')}"


class _Telling:
    """A stretch of work whose refusals and faults are told in the panel's status line."""

    def __init__(self, panel: Panel, kept: str = "") -> None:
        self.panel, self.kept = panel, kept

    def __enter__(self) -> None:
        ONE_AT_A_TIME.acquire()

    def __exit__(self, kind: type | None, why: BaseException | None, _trace: object) -> bool:
        try:
            if why is None or self.panel.strict or not isinstance(why, Exception):
                return False
            fault = f"The workbook itself failed here ({type(why).__name__}: {why})."
            told = str(why) if isinstance(why, InputRefused) else fault
            self.panel.tell(f"{told} {self.kept}".strip())
            return True
        finally:
            ONE_AT_A_TIME.release()
