"""Friction under an oil film, and surface against layout: what each lever is worth."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import PolyCollection
from matplotlib.colors import to_rgb
from matplotlib.lines import Line2D
from matplotlib.patches import Rectangle
from matplotlib.text import Text

from workbook.draw import style
from workbook.draw.picture import Picture
from workbook.levers import Swing
from workbook.scenes_surface import SurfaceScene, swing_words

MOST_FRICTION = 0.26
ENDS = (4, 8, 12, 20, 30, 60)  # where the axes of the levers may end [ft, board]
FOOT_IN, HEAD_IN, LEFT_IN, GAP_IN, RIGHT_IN = 0.5, 0.66, 0.55, 0.3, 0.15
NAMES_IN = 0.2 + 1.3 * style.LETTERS
TITLE_PT = 22  # of both headings over their graphs
BAR, LIFT = 0.2, 0.2  # height of a bar, and how far below the row's middle it lies [rows]
BAND = 0.22  # how much of the setup's colour the band takes


class SurfacePicture(Picture):
    """Shows a `SurfaceScene`.

    Parameters
    ----------
    rows : int
        Number of levers.
    """

    def __init__(self, rows: int = 6, width_in: float = 9.6, height_in: float = 4.0):
        self.rows = rows
        super().__init__(width_in, height_in)

    def _build(self) -> None:
        self.friction = self._axes(LEFT_IN, 0.33 * self.width_in)
        self._build_friction(self.friction)
        first = LEFT_IN + 0.33 * self.width_in + NAMES_IN
        wide = (self.width_in - first - GAP_IN - RIGHT_IN) / 2
        self.lever_axes = [self._axes(first, wide), self._axes(first + wide + GAP_IN, wide)]
        self.bars: list[list[Rectangle]] = []
        self.whiskers: list[list[Line2D]] = []
        self.values: list[list[Text]] = []
        for axes, words in zip(self.lever_axes, ("length [ft]", "hook [boards]"), strict=True):
            self._build_levers(axes, words)
        look = {"ha": "right", "va": "center"}
        axes = self.lever_axes[0]
        self.names = [
            self.moving_text(axes, 0, row + 0.16, fontsize=style.NORMAL, **look)
            for row in range(self.rows)
        ]
        self.ranges = [
            self.moving_text(axes, 0, row - 0.2, fontsize=style.SMALL, color=style.MUTED, **look)
            for row in range(self.rows)
        ]
        low, top = axes.get_ylim()
        above = TITLE_PT / 72 / (self.height_in - FOOT_IN - HEAD_IN) * (top - low)
        self.head = self.moving_text(
            axes, 0, top + above, ha="left", va="baseline", fontsize=style.NORMAL
        )

    def _axes(self, left: float, width: float) -> Axes:
        wide, high = self.width_in, self.height_in
        tall = high - FOOT_IN - HEAD_IN
        return self.figure.add_axes((left / wide, FOOT_IN / high, width / wide, tall / high))

    def _build_friction(self, axes: Axes) -> None:
        axes.set_ylim(0, MOST_FRICTION)
        axes.grid(color=style.FAINT, linewidth=0.7)
        axes.set_axisbelow(True)
        axes.set_xlabel("oil film [µm]", fontsize=style.SMALL, color=style.MUTED)
        axes.set_title("friction under an oil film", fontsize=style.NORMAL, loc="left",
                       pad=TITLE_PT)  # fmt: skip
        axes.text(0, 1.02, "0 is a dry board; shaded: the middle four fifths", va="bottom",
                  transform=axes.transAxes, fontsize=style.SMALL, color=style.MUTED)  # fmt: skip
        self.bands, self.lines, self.samples, self.words = {}, {}, {}, {}
        for letter, look in style.SETUPS.items():
            paper, ink = (np.array(to_rgb(one)) for one in (style.PAPER, look.colour))
            tint = (1 - BAND) * paper + BAND * ink
            edge = (1 - 3 * BAND) * paper + 3 * BAND * ink
            band = PolyCollection([], facecolors=[(*tint, 0.75)], edgecolors=[edge], linewidths=0.6)
            axes.add_collection(self.moves(band))
            self.bands[letter] = band
        for place, (letter, look) in enumerate(style.SETUPS.items()):
            self.lines[letter] = self.moving_line(axes, **look.line())
            high = MOST_FRICTION * (0.94 - 0.085 * place)
            self.samples[letter] = self.moving_line(axes, **look.line())
            self.words[letter] = self.moving_text(
                axes, 0, high, ha="left", va="center", fontsize=style.SMALL, color=look.words
            )

    def _build_levers(self, axes: Axes, words: str) -> None:
        axes.set_ylim(-0.6, self.rows - 0.4)
        axes.set_yticks([])
        axes.spines[["top", "right"]].set_visible(False)
        axes.grid(axis="x", color=style.FAINT, linewidth=0.7)
        axes.set_axisbelow(True)
        axes.set_xlabel(words, fontsize=style.SMALL, color=style.MUTED)
        bars = [Rectangle((0, 0), 0, BAR, facecolor=style.MUTED) for _ in range(self.rows)]
        for bar in bars:
            axes.add_patch(self.moves(bar))
        self.bars.append(bars)
        self.whiskers.append([
            self.moving_line(axes, color=style.INK, linewidth=1.4, marker="|", markersize=7)
            for _ in range(self.rows)
        ])  # fmt: skip
        self.values.append([
            self.moving_text(axes, 0, row + 0.2, ha="left", va="center", fontsize=style.SMALL)
            for row in range(self.rows)
        ])  # fmt: skip

    def _same_still(self, old: SurfaceScene, new: SurfaceScene) -> bool:
        return _ends(old) == _ends(new) and old.films_um[-1] == new.films_um[-1]

    def _show_still(self, scene: SurfaceScene) -> None:
        if len(scene.levers) > self.rows:
            raise ValueError(
                f"This picture has room for {self.rows} levers; asked for: {len(scene.levers)}."
            )
        self.friction.set_xlim(0, scene.films_um[-1])
        for axes, end in zip(self.lever_axes, _ends(scene), strict=True):
            axes.set_xlim(0, end)

    def _show(self, scene: SurfaceScene) -> None:
        films, end = scene.films_um, scene.films_um[-1]
        for curve in scene.curves:
            low, best, high = curve.friction
            around = np.column_stack([[*films, *films[::-1]], [*low, *high[::-1]]])
            self.bands[curve.label].set_verts([around])
            self.lines[curve.label].set_data(films, best)
            words = self.words[curve.label]
            self.samples[curve.label].set_data(
                [0.28 * end, 0.4 * end], [words.get_position()[1]] * 2
            )
            words.set_x(0.43 * end)
            self.write_within(
                words, f"{curve.label} {curve.words}", 0.56 * self.friction.bbox.width
            )
        self.head.set_text(f"what one lever is worth to {scene.of}" if scene.levers else "")
        self._show_levers(scene)

    def _show_levers(self, scene: SurfaceScene) -> None:
        aside = -0.03 * _ends(scene)[0]
        for place in range(self.rows):
            row = self.rows - 1 - place  # the first lever stands on top
            lever = scene.levers[place] if place < len(scene.levers) else None
            for texts, words in (
                (self.names, lever.name if lever else ""),
                (self.ranges, lever.range_words if lever else ""),
            ):
                texts[row].set_x(aside)
                texts[row].set_text(words)
            swings = (lever.length_ft, lever.hook_boards) if lever else (None, None)
            for column, swing in enumerate(swings):
                self._show_swing(column, row, swing)
                if lever and swing is None:
                    self.values[column][row].set_text("a ball in the range has none")

    def _show_swing(self, column: int, row: int, swing: Swing | None) -> None:
        middle = row - LIFT
        self.bars[column][row].set_bounds(0, middle - BAR / 2, swing.value if swing else 0, BAR)
        ends: list[float] = []
        if swing is not None and swing.low is not None and swing.high is not None:
            ends = [swing.low, swing.high]
        self.whiskers[column][row].set_data(ends, [middle] * len(ends))
        self.values[column][row].set_x(0.0)
        self.values[column][row].set_text(f" {swing_words(swing)}" if swing else "")

    def _words(self, scene: SurfaceScene) -> str:
        return scene.describe()


def _ends(scene: SurfaceScene) -> tuple[float, float]:
    """Where the two axes of the levers end: the least of a few that holds all bands."""
    most = [0.0, 0.0]
    for lever in scene.levers:
        for place, swing in enumerate((lever.length_ft, lever.hook_boards)):
            if swing is not None:
                most[place] = max(most[place], swing.value, swing.high or 0.0)
    length, hook = (
        float(next((end for end in ENDS if end >= 1.02 * each), ENDS[-1])) for each in most
    )
    return length, hook
