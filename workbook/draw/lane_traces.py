"""The paths in one view of the lane: lines, bands, marks, letters at the end, gutter words."""

from collections.abc import Mapping
from functools import partial
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.lines import Line2D
from matplotlib.patches import Polygon

from workbook.draw import lane_frame as frame
from workbook.draw import style
from workbook.draw.picture import Picture
from workbook.draw.placing import flank, spread
from workbook.line import MIDDLE_BOARD
from workbook.scenes import Trace

MARKS = {"length": "s", "breakpoint": "D", "roll": "o"}
BAND: Any = {"alpha": 0.09, "linewidth": 0}
CROSS: Any = {
    "marker": "x",
    "markersize": 9,
    "markeredgewidth": 2.6,
    "linestyle": "none",
    "color": style.WARNING,
}
BADGE_PT = 14.0
BADGE_GAP_PX = 23.0
CROSS_FT = 1.0  # a mark this near to the cross at the gutter would only blot it


def mark_points(trace: Trace) -> dict[str, tuple[float, float] | None]:
    """Return where the three distances lie: name to (distance [ft], board [board]) or None."""

    def on_path(distance):
        return None if distance is None else (distance, trace.board_at(distance))

    turn = trace.breakpoint
    return {
        "length": on_path(trace.half_slip_ft),
        "breakpoint": turn and (turn[1], turn[0]),
        "roll": on_path(trace.roll_ft),
    }


class ViewTraces:
    """The moving part of one view of the lane.

    Parameters
    ----------
    picture : Picture
        Takes the moving artists.
    axes : Axes
        A view drawn by `lane_frame.draw_lane`, its limits set.
    start_ft, badge_ft : float
        Where the view begins and where the letters stand [ft].
    entry_words : bool
        Whether entry board and angle are written beside the letters.
    """

    def __init__(
        self, picture: Picture, axes: Axes, start_ft: float, badge_ft: float, entry_words: bool
    ):
        self.picture, self.axes = picture, axes
        self.start_ft, self.badge_ft, self.entry_words = start_ft, badge_ft, entry_words
        looks, line = style.SETUPS, partial(picture.moving_line, axes)
        text = partial(picture.moving_text, axes, va="center_baseline", fontsize=style.NORMAL)
        self.bands = {
            k: Polygon(np.zeros((3, 2)), color=s.colour, **BAND) for k, s in looks.items()
        }
        for band in self.bands.values():
            axes.add_patch(picture.moves(band))
        self.lines = {k: line(gid=f"path {k}", **s.line()) for k, s in looks.items()}
        # dotted and grey: it ties a letter to its path and must not look like a path
        self.leaders = {k: line(color=style.MUTED, linewidth=1.0, linestyle=":") for k in looks}
        self.marks = {
            k: {name: line(marker=m, gid=f"{name} {k}", **s.mark()) for name, m in MARKS.items()}
            for k, s in reversed(looks.items())
        }
        self.crosses = {k: line(gid=f"gutter {k}", **CROSS) for k in looks}
        self.badges = {k: line(marker="o", **s.mark(BADGE_PT)) for k, s in looks.items()}
        self.letters = {
            k: text(color=s.letter, ha="center", weight="bold") for k, s in looks.items()
        }
        self.words = {k: text(color=s.words) for k, s in looks.items()}

    def show(self, traces: Mapping[str, Trace]) -> None:
        """Set everything to the paths given by label; labels not given show nothing."""
        for label in self.lines:
            self._show_path(label, traces.get(label))
        self._show_ends(traces)
        if not self.entry_words:
            self._show_gutter_words({k: t.gutter for k, t in traces.items() if t.gutter})

    def _show_path(self, label: str, trace: Trace | None) -> None:
        artists = [
            self.lines[label],
            self.bands[label],
            self.leaders[label],
            self.crosses[label],
            self.badges[label],
            self.letters[label],
            self.words[label],
            *self.marks[label].values(),
        ]
        for artist in artists:
            artist.set_visible(trace is not None)
        if trace is None:
            return
        self.lines[label].set_data(trace.distance_ft, trace.board)
        self.bands[label].set_visible(trace.band is not None)
        if trace.band is not None:
            there, back = (
                np.column_stack([trace.distance_ft, trace.band[0]]),
                np.column_stack([trace.distance_ft, trace.band[1]])[::-1],
            )
            self.bands[label].set_xy(np.vstack([there, back]))
        for name, point in mark_points(trace).items():
            at_gutter = point and trace.gutter and point[0] > trace.gutter[1] - CROSS_FT
            self._put(self.marks[label][name], None if at_gutter else point)
        self._put(self.crosses[label], trace.gutter and (trace.gutter[1], trace.gutter[0]))

    def _put(self, mark: Line2D, point: tuple[float, float] | None) -> None:
        mark.set_visible(False)
        if point is not None and point[0] >= self.start_ft:
            mark.set_visible(True)
            mark.set_data([point[0]], [point[1]])

    def _show_ends(self, traces: Mapping[str, Trace]) -> None:
        """Letters behind the pins, apart from each other, each tied to the end of its path."""
        gap = BADGE_GAP_PX / abs(self._px_per_board())
        ends = [trace.board[-1] for trace in traces.values()]
        low, high = sorted(self.axes.get_ylim())
        heights = spread(ends, gap, low + gap / 2, high - gap / 2)
        for (label, trace), height in zip(traces.items(), heights, strict=True):
            lost, words = trace.gutter is not None, self.words[label]
            for artist in (self.badges[label], self.letters[label]):
                artist.set_visible(self.entry_words or not lost)
            self.leaders[label].set_visible(not lost)
            self.leaders[label].set_data(
                (trace.distance_ft[-1], self.badge_ft), (trace.board[-1], height)
            )
            self.badges[label].set_data([self.badge_ft], [height])
            self.letters[label].set_position((self.badge_ft, height))
            self.letters[label].set_text(label)
            words.set_visible(self.entry_words)
            words.set_position((self.badge_ft + BADGE_PT / self._px_per_ft(), height))
            words.set_text(_arrival(trace))

    def _show_gutter_words(self, gutters: Mapping[str, tuple[float, float]]) -> None:
        """Name the gutter at the crosses, in the gutter itself, where no path can be in the way."""
        for edge, outward in ((frame.LOW_EDGE, -1), (frame.HIGH_EDGE, 1)):
            labels = [
                k for k, (board, _) in gutters.items() if (board - MIDDLE_BOARD) * outward > 0
            ]
            for label in labels:
                self.words[label].set_visible(True)
                self.words[label].set_text(f"{label} gutter")
            widths = [self.picture.width_px(self.words[k]) / self._px_per_ft() for k in labels]
            if labels:
                lefts = flank(
                    [gutters[k][1] for k in labels],
                    widths,
                    9.0 / self._px_per_ft(),
                    0.0,
                    frame.DECK_END_FT,
                )
                for label, left in zip(labels, lefts, strict=True):
                    self.words[label].set_position((left, edge + outward * frame.GUTTER_BOARDS / 2))

    def _px_per_ft(self) -> float:
        low, high = self.axes.get_xlim()
        return self.axes.bbox.width / (high - low)

    def _px_per_board(self) -> float:
        low, high = self.axes.get_ylim()
        return self.axes.bbox.height / (high - low)


def _arrival(trace: Trace) -> str:
    if trace.gutter:
        return f"gutter at {trace.gutter[1]:.1f} ft"
    if trace.entry_board is None:
        return ""
    angle = (
        ""
        if trace.entry_angle_deg is None
        else f" at {trace.entry_angle_deg:.1f}°".replace("-", "−")
    )
    return f"board {trace.entry_board:.1f}{angle}"
