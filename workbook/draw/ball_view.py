"""One view of one ball: holes, lines, oil rings, marks and their names."""

from functools import partial
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection
from matplotlib.colors import to_hex, to_rgb
from matplotlib.patches import Circle
from matplotlib.text import Text
from numpy.typing import ArrayLike

from workbook.draw import style
from workbook.draw.picture import Picture
from workbook.draw.placing import around
from workbook.draw.projection import View
from workbook.scenes import BallScene

ROOM = 1.06  # half the side of the view, in ball radii
MARK_PX, CLEAR_PX = 7.0, 9.0  # half the size of a mark, distance of its name
# names keep off squares of this half side at the points of a line, of rings at every so many
LINE_PX, LINE_STEP = 3.0, 4
RIM = np.column_stack(
    [np.cos(np.linspace(0, 2 * np.pi, 241)), np.sin(np.linspace(0, 2 * np.pi, 241))]
)
MARK: Any = {
    "linestyle": "none",
    "markersize": 9.5,
    "markeredgecolor": style.PAPER,
    "markeredgewidth": 1.0,
}
POINT: Any = {
    "linestyle": "none",
    "marker": "o",
    "markersize": 4.5,
    "markerfacecolor": style.PAPER,
    "markeredgecolor": style.INK,
    "markeredgewidth": 1.2,
}
DASHES = (0, (2.4, 1.2))
MARKS = {"pin": "o", "mass": "X", "PAP": "P"}
LINES = {"VAL": "-", "midline": (0, (1, 1.6)), "grip line": (0, (5, 2))}
# in this order names choose their places
NAMED = ("pin", "mass", "PAP", "VAL", "midline")


class BallView:
    """The still outline of one view and all that moves in it.

    Parameters
    ----------
    picture : Picture
        Takes the moving artists.
    axes : Axes
        An empty square.
    name_lines : bool
        Whether VAL and midline are named here.
    """

    def __init__(self, picture: Picture, axes: Axes, name_lines: bool):
        self.picture, self.axes, self.name_lines = picture, axes, name_lines
        axes.set_axis_off()
        axes.set_aspect("equal")
        axes.set_xlim(-ROOM, ROOM)
        axes.set_ylim(-ROOM, ROOM)
        self.outline = axes.add_patch(
            Circle((0, 0), 1.0, facecolor=style.BALL, edgecolor=style.MUTED, linewidth=1.2)
        )
        self.px_per_radius = axes.bbox.width / (2 * ROOM)
        self.sizes: dict[tuple[str, object], np.ndarray] = {}
        line, text = partial(picture.moving_line, axes), partial(picture.moving_text, axes)
        self.lines = {
            name: line(linestyle=dashes, color=style.MUTED, linewidth=1.1)
            for name, dashes in LINES.items()
        }
        self.layout = line(linewidth=1.6)
        self.rings = LineCollection([], linewidths=1.2)
        self.holes = PolyCollection([], facecolors=style.HOLE, edgecolors=style.INK, alpha=0.85)
        self.warned = LineCollection([], colors=style.WARNING, linewidths=2.2, linestyles=[DASHES])
        for collection in (self.rings, self.holes, self.warned):
            axes.add_collection(picture.moves(collection))
        self.fitted, self.points = line(linewidth=1.8), line(**POINT)
        self.marks = {name: line(marker=marker, **MARK) for name, marker in MARKS.items()}
        self.region = line(color=style.WARNING, linewidth=1.4)
        self.names = {
            name: text(
                ha="center",
                va="center",
                fontsize=style.NORMAL if name in MARKS else style.SMALL,
                color=style.MUTED if name in LINES else style.INK,
            )
            for name in NAMED
        }

    def hide(self) -> None:
        """Show nothing but the outline."""
        self._set_visible(False)

    def show(self, scene: BallScene, view: View) -> None:
        """Set everything to one ball as seen in a view."""
        self._set_visible(True)
        for name, points in (
            ("VAL", scene.val),
            ("midline", scene.midline),
            ("grip line", scene.grip_line),
        ):
            self.lines[name].set_data(*_joined(view.near_runs(points)))
        self.layout.set_color(style.SETUPS[scene.label].colour)
        runs = [] if scene.layout_line is None else view.near_runs(scene.layout_line)
        self.layout.set_data(*_joined(runs))
        areas = [area for hole in scene.holes if len(area := view.near_area(hole.outline))]
        self.holes.set_verts(areas)
        self._show_rings(scene, view)
        self._show_track(scene, view)
        anchors = self._show_marks(scene, view)
        self._place_names(scene, anchors | self._line_anchors(scene, view), areas)

    def _set_visible(self, visible: bool) -> None:
        for artist in (
            *self.lines.values(),
            *self.marks.values(),
            *self.names.values(),
            self.layout,
            self.fitted,
            self.points,
            self.region,
            self.rings,
            self.warned,
            self.holes,
        ):
            artist.set_visible(visible)

    def _show_rings(self, scene: BallScene, view: View) -> None:
        """Rings fade from the first to the last; those over a hole are drawn as a warning."""
        inks = np.array([to_rgb(style.SETUPS[scene.label].colour), to_rgb(style.WARNING)])
        light = np.array(to_rgb(style.BALL))
        fades = np.linspace(0.0, 0.62, max(len(scene.rings), 2))
        runs: list[list[np.ndarray]] = [[], []]  # plain, to warn of
        colours: list[list[str]] = [[], []]
        for ring, over, fade in zip(scene.rings, scene.ring_over_hole, fades, strict=False):
            found = view.near_runs(ring)
            runs[over] += found
            ink = inks[int(over)]
            colours[over] += [to_hex(ink + fade * (light - ink))] * len(found)
        for lines, segments, inked in zip((self.rings, self.warned), runs, colours, strict=True):
            lines.set_segments(segments)
            lines.set_color(inked)
        self.drawn_rings = runs[0] + runs[1]

    def _show_track(self, scene: BallScene, view: View) -> None:
        """A measured ring: its points, the circle through them, and where the PAP may lie."""
        track = scene.track
        for artist in (self.fitted, self.points, self.region):
            artist.set_visible(track is not None)
        if track is None:
            return
        self.fitted.set_color(style.SETUPS[scene.label].colour)
        self.fitted.set_data(*_joined(view.near_runs(track.ring)))
        self.region.set_data(*_joined(view.near_runs(track.region)))
        seen = view.flat(track.points)
        self.points.set_data(*seen[seen[:, 2] >= 0.0, :2].T)

    def _show_marks(self, scene: BallScene, view: View) -> dict[str, np.ndarray]:
        colour = style.SETUPS[scene.label].colour
        anchors = {}
        for name, point in (("pin", scene.pin), ("mass", scene.mass_mark), ("PAP", scene.pap)):
            if point is None:
                self.marks[name].set_visible(False)
                continue
            right, up, near = view.flat(point)
            self.marks[name].set_visible(near >= 0.0)
            self.marks[name].set_data([right], [up])
            self.marks[name].set_markerfacecolor(colour if name == "pin" else style.INK)
            if near >= 0.0:
                anchors[name] = np.array([right, up])
        return anchors

    def _line_anchors(self, scene: BallScene, view: View) -> dict[str, np.ndarray]:
        """Where the names of lines want to stand."""
        anchors = {}
        # beside a measured track the second view looks at the far side, which has none of them
        here = self.name_lines == (scene.track is None)
        for name, points in (("VAL", scene.val), ("midline", scene.midline)) if here else ():
            runs = view.near_runs(points)
            if runs:
                run = max(runs, key=len)
                anchors[name] = run[[int(part * (len(run) - 1)) for part in (0.75, 0.9, 0.6)]]
        return anchors

    def _place_names(
        self, scene: BallScene, anchors: dict[str, np.ndarray], areas: list[np.ndarray]
    ) -> None:
        """Set each name near its anchor, clear of the rest; boxes in pixels from the centre."""
        scale, edge = self.px_per_radius, self.px_per_radius * ROOM
        few = [np.asarray(line.get_xydata()) for line in (*self.lines.values(), self.layout)]
        if scene.track is not None:
            few += [np.asarray(line.get_xydata()) for line in (self.fitted, self.points)]
        lines = [*few, *(line[::LINE_STEP] for line in (*self.drawn_rings, RIM))]
        taken = np.vstack(
            [
                _squares(
                    [point * scale for name, point in anchors.items() if name in MARKS], MARK_PX
                ),
                *(np.concatenate([area.min(axis=0), area.max(axis=0)]) * scale for area in areas),
                _squares(np.vstack(lines) * scale, LINE_PX),
            ]
        )
        taken = taken[np.isfinite(taken[:, 0])]
        bounds = np.array([-edge, -edge, edge, edge])
        for name, text in self.names.items():
            text.set_visible(name in anchors)
            if name in anchors:
                text.set_text(scene.mass_kind if name == "mass" else name)
                box = around(anchors[name] * scale, self._size(text), taken, bounds, CLEAR_PX)
                text.set_position((box[:2] + box[2:]) / 2 / scale)
                taken = np.vstack([taken, box])

    def _size(self, text: Text) -> np.ndarray:
        """Width and height of a text [px]; measured once for each word."""
        key = text.get_text(), text.get_fontsize()
        if key not in self.sizes:
            extent = text.get_window_extent(self.picture.canvas.get_renderer())
            self.sizes[key] = np.array([extent.width + 4, extent.height + 2])
        return self.sizes[key]


def _squares(middles: ArrayLike, half: float) -> np.ndarray:
    """Return boxes (K, 4) of half side `half` around points, in the unit of the points."""
    points = np.reshape(np.asarray(middles), (-1, 2))
    return np.hstack([points - half, points + half])


def _joined(runs: list[np.ndarray]) -> tuple[np.ndarray, np.ndarray]:
    """Return runs as one line with gaps, for an artist that takes x and y."""
    gap = np.full((1, 2), np.nan)
    points = np.vstack([np.empty((0, 2)), *(part for run in runs for part in (run, gap))])
    return points[:, 0], points[:, 1]
