"""Chapter 05's panel: two setups on one lane, in time and along the lane."""

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import Any

from workbook import demo, errors
from workbook.certainty import bands
from workbook.comparison import Comparison, compare
from workbook.draw.curves_picture import CurvesPicture
from workbook.line import Line
from workbook.notes import notes
from workbook.panels import record_controls as records
from workbook.panels import watch_controls as made
from workbook.panels.html import code_html, list_html, shares_html, spoken_html
from workbook.panels.panel import Answer, Panel, Values
from workbook.panels.record_controls import BOWLER, LANES, LINE, OWN, VAL_DEG
from workbook.panels.rolling_view import RollingView
from workbook.roll_words import own_lines_sentence, watch_code
from workbook.rolling import roll
from workbook.scenes_roll import PHASES
from workbook.sentences import compare_sentence
from workbook.setup import Setup
from workbook.staging_roll import curves_scene, roll_scene

DRAWS = 64  # of what nobody knows well, each time the controls rest


class WatchItRoll:
    """Holds what the controls do not show: ball, grip and VAL angles, and the view in time."""

    def __init__(self, style: str) -> None:
        self.base = demo.pin_up_and_down(style)[0]
        self.val_deg = dict(zip("ab", VAL_DEG.values(), strict=True))
        self.put_away: Values = {}  # B's own line while it is not shown
        self.rolling = RollingView()
        self.same_spot: Comparison | None = None
        self.shown: Comparison | None = None  # B on its own line, if it has one
        follow: dict[str, Callable[[Any], None]] = {
            "style": self._style_chosen, "own": self._own_line,
        }  # fmt: skip
        for letter in "ab":
            follow[f"pin_{letter}"] = partial(self._switched, letter)
        self.controls = made.controls(style)
        self.panel = Panel(
            controls=self.controls,
            pictures={"curves": CurvesPicture()},
            texts=("sentence", "notes", "shares", "code"),
            answer=self._answer,
            follow=follow,
        )
        made.arrange(self.panel, self.rolling)

    def _answer(self, values: Values) -> Answer:
        a, b = self._setups(values)
        line = _line("a", values)
        c = shown = compare(a, b, LANES[values["lane"]], line)
        own = _line("b", values) if values["own"] and _line("b", values) != line else None
        said = ""
        if own:
            shown = replace(c, shot_b=roll(b, c.lane, own))
            lines, shots = (line, own), (shown.shot_a, shown.shot_b)
            said = f"{own_lines_sentence(lines, shots)} Both on A's line: "
        self.same_spot, self.shown = c, shown
        curves = curves_scene((a, b), (shown.shot_a, shown.shot_b))
        phases = [f"{one.label}: {one.phase_words()}." for one in curves.curves]
        return Answer(
            scenes={"curves": curves},
            texts={"sentence": spoken_html(said + compare_sentence(c))},
            says=self._what_came_out({"a": a, "b": b}, values),
            later=(
                lambda: self._play(shown),
                lambda: self._sure(c, said),
                lambda: self._words(c, own),
                lambda: Answer(texts={"notes": list_html([*phases, PHASES, *notes(shown)])}),
            ),
        )

    def _play(self, shown: Comparison) -> Answer:
        """Send the shots to the page when the controls rest: a drag need not carry them."""
        shots = (shown.shot_a, shown.shot_b)
        self.rolling.show(roll_scene(shown.lane, (shown.a, shown.b), shots))
        return Answer()

    def _sure(self, c: Comparison, said: str) -> Answer:
        how = bands(c.a, c.b, c.lane, c.line, draws=DRAWS)
        return Answer(texts={"sentence": spoken_html(said + compare_sentence(c, how))})

    def _words(self, c: Comparison, own: Line | None) -> Answer:
        grip = f"wb.Grip.usual({'' if c.a.grip.has_thumb else 'thumb=False'})"
        spot = "<p>Both on A's line.</p>" if own else ""
        code = code_html(watch_code(c, grip, own))
        return Answer(texts={"shares": spot + shares_html(c), "code": code})

    def _setups(self, values: Values) -> tuple[Setup, Setup]:
        a, b = (self._setup(letter, values) for letter in "ab")
        if a.surface != b.surface:
            a, b = (replace(one, name=f"{one.name}, {one.surface}") for one in (a, b))
        return a, b

    def _setup(self, letter: str, values: Values) -> Setup:
        setup = replace(
            self.base,
            bowler=records.bowler_from(self.base.bowler, values),
            layout=replace(self.base.layout, val_angle_deg=self.val_deg[letter]),
            surface=records.surface_from(values[f"grit_{letter}"]),
        )
        return replace(setup, name=f"pin {setup.drilled.pin_side}")

    def _what_came_out(self, setups: dict[str, Setup], values: Values) -> Values:
        """Switches and the clinic's menu say what came out, and nothing else."""
        says: Values = {"style": records.style_of(setups["a"].bowler, values)}
        for letter, setup in setups.items():
            words = f"pin {setup.drilled.pin_side}"
            fits = VAL_DEG.get(words) == self.val_deg[letter]
            says[f"pin_{letter}"] = words if fits else None
        return says

    def _style_chosen(self, chosen: str) -> None:
        if chosen == OWN:
            return
        self.put_away = {}
        self.base, style = demo.pin_up_and_down(chosen)[0], demo.STYLES[chosen]
        lines = {f"{n}_{letter}": getattr(style.line, n) for n in LINE for letter in "ab"}
        who = {name: getattr(style.bowler, name) for name in BOWLER}
        self.panel.set(hand=style.bowler.hand, **who, **lines)

    def _switched(self, letter: str, chosen: str | None) -> None:
        if chosen:
            self.val_deg[letter] = VAL_DEG[chosen]

    def _own_line(self, own: bool) -> None:
        """Show B's own line, at first from where A's stands, or put it away."""
        for name in LINE:
            b = self.controls[f"{name}_b"]
            if own:
                b.value = self.put_away.get(name, self.controls[f"{name}_a"].value)
            else:
                self.put_away[name] = b.value
        made.place_lines(self.controls, own=own)


def _line(letter: str, values: Values) -> Line:
    return Line(**{name: values[f"{name}_{letter}"] for name in LINE})


def watch_it_roll(style: str = demo.USUAL) -> Panel:
    """Two setups of a bowler on one lane: the shot in time, curves along the lane, causes.

    Parameters
    ----------
    style : str
        A bowler of the invented clinic (`workbook.demo.STYLES`).

    Raises
    ------
    InputRefused
        A style that is not in the clinic.
    """
    errors.choice("style", style, tuple(demo.STYLES))
    return WatchItRoll(style).panel
