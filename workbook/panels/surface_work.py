"""Chapter 06's panel: grit and cover of two balls, and the grit that makes B read where A does."""

from dataclasses import replace

import ipywidgets as widgets

from workbook import demo, errors
from workbook.ball import COVERS
from workbook.draw.surface_picture import SurfacePicture
from workbook.equal_grit import EqualGrit, match_grit
from workbook.equal_grit_band import match_grit_band
from workbook.lane import Lane
from workbook.levers import Lever, lever_swings
from workbook.panels import record_controls as records
from workbook.panels.controls import folded, menu, switch, wide
from workbook.panels.html import STYLE, code_html, list_html, spoken_html, table_html
from workbook.panels.panel import Answer, Panel, Values
from workbook.panels.record_controls import VAL_DEG, Controls
from workbook.setup import Setup
from workbook.staging_surface import surface_scene
from workbook.surface import Surface
from workbook.surface_tables import abrasives_table, surfaces_table
from workbook.surface_words import LABELS, equal_code, equal_sentence, surface_notes, wear_sentence
from workbook.wear import wear_worth, worn

QUANTITIES = [
    ("length, on the reference lane", "length_ft"),
    ("breakpoint, on the house lane", "breakpoint_ft"),
]
HOUSE = Lane.house()
MOST_GAMES = 30
DRAWS, LEVER_DRAWS = 64, 32  # of what nobody knows well, each time the controls rest


class SurfaceWork:
    """Holds what the controls do not show: the two setups, and what levers are worth to A."""

    def __init__(self, style: str) -> None:
        self.a, self.b = demo.pin_up_and_down(style)
        self.found: EqualGrit | None = None
        self.levers: tuple[Lever, ...] = ()
        self.weighed: Setup | None = None  # whose levers those are
        self.controls = _controls(style)
        self.panel = Panel(
            controls=self.controls,
            pictures={"surface": SurfacePicture()},
            texts=("sentence", "wear", "numbers", "notes", "abrasives", "code"),
            answer=self._answer,
        )
        self.panel.texts["abrasives"].value = f"{table_html(abrasives_table())}<p>{LABELS}</p>"
        self._arrange()

    def _answer(self, values: Values) -> Answer:
        a, b = (self._setup(letter, values) for letter in "ab")
        where = {} if values["quantity"] == "length_ft" else self._house(values)
        found = match_grit(a, b, values["quantity"], **where)
        self.a, self.b, self.found = a, b, found
        return Answer(
            scenes={"surface": surface_scene(a, b, self.levers)},
            texts={"sentence": spoken_html(equal_sentence(a, found))},
            later=(
                lambda: self._levers(a, b),
                lambda: self._words(a, b, found, values),
                lambda: self._sure(a, b, found, values),
            ),
        )

    def _levers(self, a: Setup, b: Setup) -> Answer:
        if self.weighed != a:
            self.levers, self.weighed = lever_swings(a, draws=LEVER_DRAWS), a
        return Answer(scenes={"surface": surface_scene(a, b, self.levers)})

    def _sure(self, a: Setup, b: Setup, found: EqualGrit, values: Values) -> Answer:
        where = {} if values["quantity"] == "length_ft" else self._house(values)
        band = match_grit_band(a, b, values["quantity"], draws=DRAWS, **where)
        return Answer(texts={"sentence": spoken_html(equal_sentence(a, found, band))})

    def _words(self, a: Setup, b: Setup, found: EqualGrit, values: Values) -> Answer:
        columns = {f"A, {a.name}": a, f"B, {b.name}": b}
        if found.grit is not None:
            columns["B made equal"] = replace(b, surface=Surface(grit=found.grit))
        fresh = [records.surface_from(values[f"grit_{letter}"]) for letter in "ab"]
        line = demo.STYLES[values["style"]].line
        code = equal_code(a, b, values["quantity"], line, values["games"], (fresh[0], fresh[1]))
        return Answer(
            texts={
                "numbers": table_html(surfaces_table(columns)),
                "wear": list_html(self._wear(values)),
                "notes": list_html(surface_notes(a, b)),
                "code": code_html(code),
            }
        )

    def _wear(self, values: Values) -> list[str]:
        if not values["games"]:
            return []
        return [
            wear_sentence(letter.upper(), wear_worth(self._fresh(letter, values), values["games"]))
            for letter in "ab"
        ]

    def _setup(self, letter: str, values: Values) -> Setup:
        fresh = self._fresh(letter, values)
        return replace(fresh, surface=worn(fresh.surface, values["games"]).surface)

    def _fresh(self, letter: str, values: Values) -> Setup:
        setup = demo.setup(
            val_angle_deg=VAL_DEG[values[f"pin_{letter}"]],
            name=values[f"pin_{letter}"],
            style=values["style"],
        )
        ball = replace(setup.ball, cover=values[f"cover_{letter}"])
        surface = records.surface_from(values[f"grit_{letter}"])
        return replace(setup, ball=ball, surface=surface)

    def _house(self, values: Values) -> Values:
        return {"lane": HOUSE, "line": demo.STYLES[values["style"]].line}

    def _arrange(self) -> None:
        panel, c = self.panel, self.controls
        first = widgets.GridBox(list(c.values()))
        first.add_class("workbook-first").add_class("workbook-columns")
        for name, control in c.items():
            columns = {"a": "auto / 1 / auto / span 3", "b": "auto / 4 / auto / span 3"}
            control.layout.grid_area = columns.get(name[-1:], "auto / span 3")
        folds = {
            "The abrasives": panel.texts["abrasives"],
            "Copy as code": panel.texts["code"],
        }
        panel.arrange([
            widgets.HTML(STYLE), first, folded(folds), panel.status, panel.texts["sentence"],
            panel.images["surface"], panel.texts["wear"], panel.texts["numbers"],
            panel.texts["notes"],
        ])  # fmt: skip


def _controls(style: str) -> Controls:
    made: Controls = {}
    for kind in ("pin", "grit", "cover"):
        for letter, pin in (("a", "pin up"), ("b", "pin down")):
            label = letter.upper()
            if kind == "pin":
                made["pin_" + letter] = switch(f"{label} is", list(VAL_DEG), pin)
            elif kind == "grit":
                made["grit_" + letter] = records.of_surface(f"{label}: sanded to [grit]")
            else:
                made["cover_" + letter] = menu(f"{label}: cover", list(COVERS), "reactive")
    made["games"] = widgets.FloatSlider(
        0, min=0, max=MOST_GAMES, step=1, readout_format=".0f", description="wear [games]",
        **wide(),
    )  # fmt: skip
    made["quantity"] = menu("made equal [ft]", QUANTITIES, "length_ft")
    made["style"] = menu("bowler", list(demo.STYLES), style)
    return made


def work_the_surface(style: str = demo.USUAL) -> Panel:
    """Two balls' grits and covers: friction, the grit that makes B read where A does, wear, levers.

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
    return SurfaceWork(style).panel
