"""The lane drawing: whole lane, ruler of the three distances, stretched last 20 ft."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.image import AxesImage
from matplotlib.patches import Rectangle

from workbook.draw import lane_frame as frame
from workbook.draw import style
from workbook.draw.lane_ruler import Ruler
from workbook.draw.lane_traces import ViewTraces
from workbook.draw.picture import DPI, Picture
from workbook.lane import UNIT_UM
from workbook.scenes import LaneScene, Trace

LEFT_IN, RIGHT_IN = 1.06, 0.08
# heights of the strips; what is left is shared by the two views of the lane
HEAD_IN, TICKS_IN, RULER_IN, SUBHEAD_IN, FOOT_IN = 0.33, 0.24, 0.57, 0.36, 0.26
STRETCHED_FT = 40.0
WHOLE_SPAN_FT, LAST_SPAN_FT = (-0.4, 67.2), (STRETCHED_FT, 70.2 + 8.0 * (style.LETTERS - 1.0))
WHOLE_BADGE_FT, LAST_BADGE_FT = 64.8, 64.2
OWN_HALF = frame.WITH_GUTTERS[0] / 2, 26.5  # boards that tell most: gutter to beyond the head pin
BAND_WORDS = "light: four fifths of what could be"
OIL_PX = 300  # room for hand and oil at the right of the head
SAMPLE_PX = 30


class LanePicture(Picture):
    """One lane with up to two paths; shows a `LaneScene`.

    Parameters
    ----------
    width_in, height_in : float
        Size [in]; letters are sized for a width of 9.6 in.
    """

    def __init__(self, width_in: float = 9.6, height_in: float = 5.4):
        super().__init__(width_in, height_in)

    def _build(self) -> None:
        view = (self.height_in - HEAD_IN - TICKS_IN - RULER_IN - SUBHEAD_IN - FOOT_IN) / 2
        top = self.height_in - HEAD_IN
        self.head = self._strip(top, HEAD_IN)
        self.lane = self._strip(top - view, view)
        self.subhead = self._strip(FOOT_IN + view, SUBHEAD_IN)
        self.last = self._strip(FOOT_IN, view)
        self.films = (
            self._draw_view(self.lane, 0.0, WHOLE_SPAN_FT, range(0, 61, 10)),
            self._draw_view(self.last, STRETCHED_FT, LAST_SPAN_FT, range(40, 61, 5)),
        )
        frame.draw_pocket(self.last)
        self._fill_head()
        self._fill_subhead()
        self.views = (
            ViewTraces(self, self.lane, 0.0, WHOLE_BADGE_FT, entry_words=False),
            ViewTraces(self, self.last, STRETCHED_FT, LAST_BADGE_FT, entry_words=True),
        )
        self.ruler = Ruler(
            self, self._strip(top - view - TICKS_IN - RULER_IN, RULER_IN), WHOLE_SPAN_FT
        )

    def _strip(self, bottom_in: float, height_in: float) -> Axes:
        axes = self.figure.add_axes(
            (
                LEFT_IN / self.width_in,
                bottom_in / self.height_in,
                1 - (LEFT_IN + RIGHT_IN) / self.width_in,
                height_in / self.height_in,
            )
        )
        axes.set_facecolor("none")
        return axes

    def _draw_view(
        self, axes: Axes, start_ft: float, span: tuple[float, float], ticks: range
    ) -> AxesImage:
        film = frame.draw_lane(axes, start_ft)
        axes.set_xlim(span)
        axes.set_xticks(list(ticks), [f"{tick} ft" if tick else "foul line" for tick in ticks])
        axes.text(
            -0.45 * DPI / axes.bbox.width,
            0.5,
            "board",
            transform=axes.transAxes,
            rotation=90,
            ha="center",
            va="center",
            color=style.MUTED,
            fontsize=style.NORMAL,
        )
        return film

    def _fill_head(self) -> None:
        """Write samples and names of the setups at the left, hand and oil at the right."""
        width = self._bare_strip(self.head)
        self.swatch = Rectangle((width - 20, 0.32), 18, 0.42, edgecolor=style.MUTED, linewidth=0.6)
        self.head.add_patch(self.swatch)
        self.oil_words = self.head.text(
            width - 28,
            0.5,
            "",
            ha="right",
            va="center_baseline",
            color=style.MUTED,
            fontsize=style.SMALL,
        )
        self.samples, self.names, room = {}, {}, (width - OIL_PX) / len(style.SETUPS)
        self.name_px = room - SAMPLE_PX - 20
        for place, (label, look) in enumerate(style.SETUPS.items()):
            left = place * room
            self.samples[label] = self.moving_line(self.head, **look.line())
            self.samples[label].set_data((left, left + SAMPLE_PX), (0.53, 0.53))
            self.names[label] = self.moving_text(
                self.head,
                left + SAMPLE_PX + 7,
                0.5,
                color=look.words,
                va="center_baseline",
                fontsize=style.NORMAL,
            )

    def _fill_subhead(self) -> None:
        width = self._bare_strip(self.subhead)
        self.subhead.text(
            0, 0.3, "last 20 ft, stretched", va="center_baseline", fontsize=style.NORMAL
        )
        self.band_words = self.moving_text(
            self.subhead, 0.24 * width, 0.3, va="center_baseline", fontsize=style.SMALL,
            color=style.MUTED,
        )  # fmt: skip
        (low, high), (least, most) = frame.POCKET_BOARDS, frame.POCKET_DEG
        text = self.subhead.text(
            0,
            0.3,
            f"pocket: boards {low:.0f} to {high:.0f} at {least:.0f} to {most:.0f}° (USBC)",
            va="center_baseline",
            fontsize=style.SMALL,
        )
        left = width - self.width_px(text) - 4
        text.set_x(left)
        self.subhead.add_patch(
            Rectangle(
                (left - 26, 0.14),
                18,
                0.38,
                facecolor=style.POCKET,
                edgecolor=style.POCKET_EDGE,
                linewidth=0.8,
            )
        )

    @staticmethod
    def _bare_strip(axes: Axes) -> float:
        """Measure a strip in pixels across and 0 to 1 upward; return its width [px]."""
        axes.set_axis_off()
        axes.set_xlim(0, axes.bbox.width)
        axes.set_ylim(0, 1)
        return axes.bbox.width

    def _same_still(self, old: LaneScene, new: LaneScene) -> bool:
        return (
            old.hand == new.hand
            and _boards_of_last(old) == _boards_of_last(new)
            and np.array_equal(old.film_um, new.film_um)
        )

    def _show_still(self, scene: LaneScene) -> None:
        thickest = float(np.max(scene.film_um, initial=0.0))
        for film in self.films:
            frame.show_film(film, scene.film_um)
        frame.face_board_one(self.lane, scene.hand)
        frame.face_board_one(self.last, scene.hand, _boards_of_last(scene))
        self.swatch.set_facecolor(style.OIL(thickest / style.DEEPEST_OIL_UM))
        units = thickest / UNIT_UM
        oil = f"oil up to {units:.0f} units ({thickest:.1f} µm)" if thickest else "no oil"
        self.oil_words.set_text(f"{scene.hand}-hander · {oil}")

    def _show(self, scene: LaneScene) -> None:
        shown: dict[str, Trace] = {trace.label: trace for trace in scene.traces}
        for label, text in self.names.items():
            self.samples[label].set_visible(label in shown)
            text.set_visible(label in shown)
            if label in shown:
                self.write_within(text, f"{label}  {shown[label].name}", self.name_px)
        banded = any(trace.band is not None for trace in scene.traces)
        self.band_words.set_text(BAND_WORDS if banded else "")
        for part in (*self.views, self.ruler):
            part.show(shown)

    def _words(self, scene: LaneScene) -> str:
        return scene.describe()


def _boards_of_last(scene: LaneScene) -> tuple[float, float]:
    """Boards shown of the last 20 ft: the bowler's own half unless a path leaves it."""
    for trace in scene.traces:
        there = trace.board[np.asarray(trace.distance_ft) >= STRETCHED_FT]
        if there.max(initial=0.0) > OWN_HALF[1] - 1.0:
            return frame.WITH_GUTTERS
    return OWN_HALF
