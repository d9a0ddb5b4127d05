"""The ruler under the lane: a row for each of the three distances, with both setups in it."""

from collections.abc import Mapping

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle

from workbook.draw import style
from workbook.draw.lane_traces import MARKS, mark_points
from workbook.draw.picture import DPI, Picture
from workbook.draw.placing import flank
from workbook.scenes import Trace

KEY_IN, NAME_IN = 0.97, 0.86  # mark and name of each row, left of the foul line
GAP_PX = 13.0


class Ruler:
    """Three rows of marks on the distance scale of the lane above, with their numbers in words.

    Parameters
    ----------
    picture : Picture
        Takes the moving artists.
    axes : Axes
        An empty strip as wide as the lane's.
    span : (float, float)
        Distances at its two ends [ft].
    """

    def __init__(self, picture: Picture, axes: Axes, span: tuple[float, float]):
        self.picture, self.axes, self.end_ft = picture, axes, span[1]
        self.px_per_ft = axes.bbox.width / (span[1] - span[0])
        axes.set_axis_off()
        axes.set_xlim(span)
        axes.set_ylim(len(MARKS), 0)
        self._draw_rows()
        self.marks = {
            (k, name): picture.moving_line(axes, marker=marker, **s.mark())
            for k, s in reversed(style.SETUPS.items())
            for name, marker in MARKS.items()
        }
        self.words = {
            (k, name): picture.moving_text(axes, va="center_baseline", fontsize=style.SMALL)
            for k in style.SETUPS
            for name in MARKS
        }

    def _draw_rows(self) -> None:
        for row, (name, marker) in enumerate(MARKS.items()):
            self.axes.add_patch(
                Rectangle((0, row + 0.04), self.end_ft, 0.92, color=style.ROW, linewidth=0)
            )
            self.axes.text(
                -NAME_IN * DPI / self.px_per_ft,
                row + 0.5,
                "half slip" if name == "length" else name,
                va="center_baseline",
                fontsize=style.SMALL,
            )
            self.axes.plot(
                -KEY_IN * DPI / self.px_per_ft,
                row + 0.5,
                marker=marker,
                markersize=6,
                color=style.MUTED,
                clip_on=False,
            )

    def show(self, traces: Mapping[str, Trace]) -> None:
        """Set marks and numbers to the paths given by label."""
        for artist in (*self.marks.values(), *self.words.values()):
            artist.set_visible(False)
        points = {label: mark_points(trace) for label, trace in traces.items()}
        for row, name in enumerate(MARKS):
            none = all(trace.already_rolls for trace in traces.values() if trace.roll_ft is None)
            self._show_row(
                row + 0.5, name, {label: found[name] for label, found in points.items()},
                "from release" if none and name != "breakpoint" else "none",
            )  # fmt: skip

    def _show_row(
        self,
        height: float,
        name: str,
        points: Mapping[str, tuple[float, float] | None],
        none: str,
    ) -> None:
        missing = [label for label, point in points.items() if point is None]
        end_ft = self.end_ft
        if missing:
            words = self.words[missing[0], name]
            self._write(missing[0], name, f"{', '.join(missing)} {none}", 0.0, height)
            words.set_color(style.MUTED)
            end_ft -= (self.picture.width_px(words) + GAP_PX) / self.px_per_ft
            words.set_x(end_ft)
        there = {label: point for label, point in points.items() if point is not None}
        for label, (distance, board) in there.items():
            self.marks[label, name].set_visible(True)
            self.marks[label, name].set_data([distance], [height])
            where = f", board {board:.1f}" if name == "breakpoint" else ""
            self._write(
                label, name, f"{label} {round(distance, 1) + 0.0:.1f} ft{where}", 0.0, height
            )
        if there:
            widths = [
                self.picture.width_px(self.words[label, name]) / self.px_per_ft for label in there
            ]
            lefts = flank(
                [point[0] for point in there.values()],
                widths,
                GAP_PX / self.px_per_ft,
                0.0,
                end_ft,
            )
            for label, left in zip(there, lefts, strict=True):
                self.words[label, name].set_x(left)

    def _write(self, label: str, name: str, text: str, left: float, height: float) -> None:
        words = self.words[label, name]
        words.set_visible(True)
        words.set_color(style.SETUPS[label].words)
        words.set_text(text)
        words.set_position((left, height))
