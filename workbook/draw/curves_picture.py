"""Curves along the lane: speed, spin, slip, friction and oil of one or two shots."""

from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.text import Text

from workbook import sources
from workbook.draw import style
from workbook.draw.picture import Picture
from workbook.draw.placing import spread
from workbook.scenes import LABELS
from workbook.scenes_roll import CURVES, Curves, CurvesScene

END_FT = sources.value("lane_length")
# Scales to choose from, so that curves keep theirs while a control moves; beyond, what is needed.
SCALES: dict[str, tuple[tuple[float, float], ...]] = {
    "speed_mph": ((10, 20), (5, 25), (0, 30)),
    "rev_rate_rpm": ((0, 600), (0, 800), (0, 1200)),
    "slip_mph": ((0, 20), (0, 40)),
    "friction": ((0, 0.25), (0, 0.5), (0, 1)),
    "axis_rotation_deg": ((-10, 60), (-30, 120), (-180, 180)),
    "axis_tilt_deg": ((0, 20), (-10, 40), (-20, 90)),
    "lane_film_um": ((0, 6), (0, 12), (0, 40)),
    "carried_film_um": ((0, 3), (0, 6), (0, 40)),
}
COLUMNS = 4
LEFT_IN, RIGHT_IN, FOOT_IN, ROW_GAP_IN, HEAD_IN, STRIP_IN = 0.45, 0.3, 0.3, 0.42, 0.3, 0.85
COLUMN_GAP_IN, STRIP_LEFT_IN = 0.6, 1.8
LETTER_PX = 15 * style.LETTERS  # room for a letter at the end of a line
CLEAR_PX = 2  # between the words of two phases
ROW_Y = {"A": 1.0, "B": 0.0}


class CurvesPicture(Picture):
    """Eight small graphs over the distance, the phases on top; shows a `CurvesScene`."""

    def __init__(self, width_in: float = 9.6, height_in: float = 4.7):
        super().__init__(width_in, height_in)

    def _build(self) -> None:
        self._build_strip()
        self.graphs: dict[str, Axes] = {}
        wide = (self.width_in - LEFT_IN - RIGHT_IN - (COLUMNS - 1) * COLUMN_GAP_IN) / COLUMNS
        rows = len(CURVES) // COLUMNS
        floor = self.height_in - STRIP_IN - FOOT_IN - HEAD_IN
        high = (floor - (rows - 1) * (ROW_GAP_IN + FOOT_IN)) / rows
        for place, key in enumerate(CURVES):
            row, column = divmod(place, COLUMNS)
            bottom = FOOT_IN + (rows - 1 - row) * (high + ROW_GAP_IN + FOOT_IN)
            left = LEFT_IN + column * (wide + COLUMN_GAP_IN)
            self.graphs[key] = self._graph(key, self._axes(left, bottom, wide, high))
        self.lines: dict[tuple[str, str], Line2D] = {}
        self.skids: dict[tuple[str, str], Line2D] = {}
        self.rolls: dict[tuple[str, str], Line2D] = {}
        self.letters: dict[tuple[str, str], Text] = {}
        for key, axes in self.graphs.items():
            for label in reversed(LABELS):  # B below: its open marks show round A's
                self._build_curve(key, label, axes)

    def _build_curve(self, key: str, label: str, axes: Axes) -> None:
        look, at = style.SETUPS[label], (key, label)
        self.lines[at] = self.moving_line(axes, **look.line(1.8))
        self.skids[at] = self.moving_line(axes, marker="s", **look.mark(look.mark_pt * 0.8))
        self.rolls[at] = self.moving_line(axes, marker="o", **look.mark(look.mark_pt * 0.8))
        self.letters[at] = self.moving_text(
            axes, 0, 0, va="center", fontsize=style.SMALL, color=look.words, weight="bold"
        )

    def _axes(self, left: float, bottom: float, width: float, height: float) -> Axes:
        wide, high = self.width_in, self.height_in
        return self.figure.add_axes((left / wide, bottom / high, width / wide, height / high))

    def _graph(self, key: str, axes: Axes) -> Axes:
        words, unit = CURVES[key]
        title = f"{words} [{unit}]" if unit else words
        axes.set_title(title, fontsize=style.NORMAL, loc="left", pad=5)
        axes.set_xlim(0, END_FT)
        axes.set_xticks([0, 20, 40, 60], ["0", "20", "40", "60 ft"])
        axes.grid(color=style.FAINT, linewidth=0.6)
        axes.set_axisbelow(True)
        axes.tick_params(length=0, pad=3)
        return axes

    def _build_strip(self) -> None:
        bottom = self.height_in - STRIP_IN
        wide = self.width_in - STRIP_LEFT_IN - RIGHT_IN
        self.strip = axes = self._axes(STRIP_LEFT_IN, bottom, wide, STRIP_IN - 0.08)
        axes.set_axis_off()
        axes.set_xlim(0, END_FT)
        axes.set_ylim(-0.75, 1.75)
        names: Any = {"va": "center", "ha": "left", "fontsize": style.SMALL}
        start = -END_FT * (STRIP_LEFT_IN - 0.1) / wide
        self.name_px = 100 * (STRIP_LEFT_IN - 0.15)
        self.names, self.bars, self.ends, self.said = {}, {}, {}, {}
        for label, y in ROW_Y.items():
            look = style.SETUPS[label]
            axes.axhspan(y - 0.42, y + 0.42, color=style.ROW, linewidth=0)
            self.names[label] = self.moving_text(axes, start, y, color=look.words, **names)
            self.bars[label] = self.moving_line(axes, **look.line(2.4))
            self.ends[label] = [
                self.moving_line(axes, marker=marker, **look.mark()) for marker in "so"
            ]
            self.said[label] = [
                self.moving_text(axes, 0, y + 0.18, va="center", ha="center", fontsize=style.SMALL,
                                 color=look.words)
                for _phase in range(3)
            ]  # fmt: skip

    def _same_still(self, old: CurvesScene, new: CurvesScene) -> bool:
        return _scales(old) == _scales(new)

    def _show_still(self, scene: CurvesScene) -> None:
        for key, scale in _scales(scene).items():
            self.graphs[key].set_ylim(*scale)

    def _show(self, scene: CurvesScene) -> None:
        shown = {one.label: one for one in scene.curves}
        for label in LABELS:
            self._show_strip(label, shown.get(label))
        for key, axes in self.graphs.items():
            for label in LABELS:
                self._show_curve((key, label), shown.get(label))
            self._show_letters(key, axes, shown)

    def _show_curve(self, at: tuple[str, str], one: Curves | None) -> None:
        for artist in (self.lines[at], self.skids[at], self.rolls[at]):
            artist.set_data([], [])
        if one is None:
            return
        x, y = one.distance_ft, one.values[at[0]]
        self.lines[at].set_data(x, y)
        for mark, ft in ((self.skids[at], one.hook_ft), (self.rolls[at], one.roll_ft)):
            if ft is not None:
                mark.set_data([ft], [np.interp(ft, x, y)])

    def _show_letters(self, key: str, axes: Axes, shown: dict[str, Curves]) -> None:
        low, high = axes.get_ylim()
        labels = list(shown)
        gap = LETTER_PX * (high - low) / axes.bbox.height
        wanted = [float(np.clip(shown[label].values[key][-1], low, high)) for label in labels]
        # the lowest letter keeps clear of the words under the axis
        places = dict(zip(labels, spread(wanted, gap, low + gap / 2, high), strict=True))
        for label in LABELS:
            letter = self.letters[key, label]
            letter.set_text(label if label in shown else "")
            letter.set_position((END_FT * 1.02, places.get(label, low)))

    def _show_strip(self, label: str, one: Curves | None) -> None:
        name = "" if one is None else f"{label}  {one.name}".rstrip()
        self.write_within(self.names[label], name, self.name_px)
        y = ROW_Y[label] - 0.28
        self.bars[label].set_data(*([], []) if one is None else ([0, one.distance_ft[-1]], [y, y]))
        changes = (None, None) if one is None else (one.hook_ft, one.roll_ft)
        for mark, ft in zip(self.ends[label], changes, strict=True):
            mark.set_data(*([], []) if ft is None else ([ft], [y]))
        spans = [] if one is None else one.phases()
        for place, text in enumerate(self.said[label]):
            text.set_text("")
            if place < len(spans):
                self._name_phase(text, *spans[place], last=place == len(spans) - 1)

    def _name_phase(self, text: Text, phase: str, start: float, end: float, *, last: bool) -> None:
        """Write a phase over its part of the strip, shorter or not at all where room is short."""
        text.set_position(((start + end) / 2, text.get_position()[1]))
        room_px = (end - start) * self.strip.bbox.width / END_FT - CLEAR_PX
        for words in (phase if last else f"{phase} to {end:.1f} ft", phase, ""):
            text.set_text(words)
            if not words or self.width_px(text) <= room_px:
                break

    def _words(self, scene: CurvesScene) -> str:
        return scene.describe()


def _scales(scene: CurvesScene) -> dict[str, tuple[float, float]]:
    """The first scale of each quantity that holds all its values."""
    found = {}
    for key, scales in SCALES.items():
        values = np.concatenate([np.zeros(0), *(one.values[key] for one in scene.curves)])
        low, high = (values.min(), values.max()) if len(values) else scales[0]
        fits = (scale for scale in scales if scale[0] <= low and high <= scale[1])
        found[key] = next(fits, (float(min(low, scales[-1][0])), float(max(high, scales[-1][1]))))
    return found
