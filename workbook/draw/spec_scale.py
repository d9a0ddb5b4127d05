"""One scale of the spec picture: a legal band, and rows of marks with their numbers."""

from collections.abc import Mapping, Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.patches import Rectangle
from matplotlib.text import Text

from workbook.draw import style
from workbook.draw.picture import DPI, Picture

LEFT_IN, RIGHT_IN = 1.75, 0.65  # names of rows with a number beside them; a number
HEAD_IN, ROW_IN, TICKS_IN = 0.42, 0.35, 0.34
LINE, ABOVE = 0.66, 0.24  # where marks stand in a row, and the number above them, from its top
GAP_PX, KEY_PX = 9.0, 13.0
# the undrilled ball, which is neither A nor B
PLAIN: Any = {"color": style.INK, "linestyle": "-", "linewidth": 2.4}
PLAIN_MARK: Any = {
    "linestyle": "none", "markersize": 6.0, "markerfacecolor": style.INK,
    "markeredgecolor": style.INK, "markeredgewidth": 1.8,
}  # fmt: skip


class Scale:
    """Rows of marks over one scale.

    Parameters
    ----------
    picture : Picture
        Takes the moving artists.
    axes : Axes
        An empty strip, as high as its rows.
    span : (float, float)
        The values at its ends [in]; a value beyond one stands at it, with an arrow at its number.
    rows : mapping of str to str
        Name of each row, and the label that picks its looks: "A", "B" or none.
    marks : mapping of str to str
        What each mark of a row means, and its matplotlib sign.
    ticks : sequence of float
        Values written below it [in].
    from_zero : bool
        Whether a row's line starts at 0 instead of at its first mark.
    """

    def __init__(
        self,
        picture: Picture,
        axes: Axes,
        span: tuple[float, float],
        rows: Mapping[str, str],
        marks: Mapping[str, str],
        ticks: Sequence[float],
        *,
        from_zero: bool = False,
    ) -> None:
        self.picture, self.axes, self.span, self.from_zero = picture, axes, span, from_zero
        self.per_px = (span[1] - span[0]) / axes.bbox.width
        axes.set_xlim(span)
        axes.set_ylim(len(rows), 0)
        axes.set_yticks([])
        axes.set_xticks(ticks, [f"{tick:.2f}" for tick in ticks])
        axes.spines[["left", "top", "right"]].set_visible(False)
        self.lines, self.marks, self.numbers = [], [], []
        for place, (name, label) in enumerate(rows.items()):
            looks = style.SETUPS.get(label)
            axes.text(
                self._at_px(-LEFT_IN * DPI + 8), place + LINE, name, va="center_baseline",
                color=looks.words if looks else style.INK, fontsize=style.SMALL,
            )  # fmt: skip
            self.lines.append(picture.moving_line(axes, **(looks.line() if looks else PLAIN)))
            mark = looks.mark(looks.mark_pt - 1.0 if label == "B" else 6.0) if looks else PLAIN_MARK
            self.marks.append([
                picture.moving_line(axes, marker=sign, clip_on=False, **mark)
                for sign in marks.values()
            ])  # fmt: skip
            self.numbers.append([
                picture.moving_text(
                    axes, va="center_baseline", ha=ha, fontsize=style.SMALL,
                    color=looks.words if looks else style.INK,
                )
                for ha in ("right", "center", "left")
            ])  # fmt: skip

    def head(self, words: str, marks: Mapping[str, str]) -> None:
        """Name the scale and its marks, above the rows."""
        height = -0.69 * HEAD_IN / ROW_IN
        name = self._text(self._at_px(-LEFT_IN * DPI + 8), height, words, weight="bold")
        left = self._past(name.get_window_extent(self.picture.canvas.get_renderer()).x1) + 10
        for meaning, sign in marks.items():
            self.axes.plot(
                [self._at_px(left + KEY_PX / 2)], [height], marker=sign, markersize=6,
                color=style.MUTED, clip_on=False,
            )  # fmt: skip
            text = self._text(self._at_px(left + KEY_PX + 3), height, meaning, color=style.MUTED)
            left = self._past(text.get_window_extent(self.picture.canvas.get_renderer()).x1) + 14

    def legal(self, low: float, high: float, words: str) -> None:
        """Shade what the rules allow [in]."""
        rows = self.axes.get_ylim()[0]
        self.axes.add_patch(
            Rectangle((low, 0), high - low, rows, color=style.POCKET, alpha=0.28, linewidth=0)
        )
        for edge in (low, high):  # light, because numbers may stand on it
            self.axes.plot([edge, edge], [0, rows], color=style.POCKET, linewidth=1.2)
        height = -0.2 * HEAD_IN / ROW_IN
        self._text((low + high) / 2, height, words, color=style.POCKET_EDGE, ha="center")

    def show(self, row: int, values: Sequence[float]) -> None:
        """Set a row to its two or three values, growing [in].

        The number of the last stands right of its mark, that of the one before above, that of the
        first of three left.
        """
        low, high = self.span
        places = [min(max(value, low), high) for value in values]
        start = low if self.from_zero else places[0]
        self.lines[row].set_data([start, places[-1]], [row + LINE, row + LINE])
        for mark, place in zip(self.marks[row][: len(places)], places, strict=True):
            mark.set_data([place], [row + LINE])
        before, above, after = self.numbers[row]
        if len(values) == 3:
            before.set_text(self._number(values[0]))
            before.set_position((places[0] - GAP_PX * self.per_px, row + LINE))
        above.set_text(self._number(values[-2]))
        above.set_position((places[-2], row + ABOVE))
        after.set_text(self._number(values[-1]))
        after.set_position((places[-1] + GAP_PX * self.per_px, row + LINE))

    def show_one(self, row: int, value: float, words: str) -> None:
        """Set a row to a single value [in], with words and its number left of the mark."""
        self.marks[row][0].set_data([value], [row + LINE])
        before = self.numbers[row][0]
        before.set_text(words + self._number(value))
        before.set_position((value - GAP_PX * self.per_px, row + LINE))

    def _number(self, value: float) -> str:
        low, high = self.span
        shown = f"{value:.3f}"
        return f"{'‹ ' * (float(shown) < low)}{shown}{' ›' * (float(shown) > high)}"

    def _at_px(self, px: float) -> float:
        return self.span[0] + px * self.per_px

    def _past(self, px_on_sheet: float) -> float:
        return px_on_sheet - self.axes.bbox.x0

    def _text(self, at: float, height: float, words: str, **looks: Any) -> Text:
        return self.axes.text(at, height, words, va="center", fontsize=style.SMALL, **looks)
