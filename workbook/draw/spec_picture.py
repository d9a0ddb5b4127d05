"""The spec sheet as two scales: RG and differential, undrilled and drilled."""

from collections.abc import Mapping

import numpy as np

from workbook import sources
from workbook.draw import style
from workbook.draw.picture import DPI, Picture
from workbook.draw.spec_scale import HEAD_IN, LEFT_IN, LINE, RIGHT_IN, ROW_IN, TICKS_IN, Scale
from workbook.scenes_spec import SpecScene

RG_SPAN_IN, DIFFERENTIAL_SPAN_IN = (2.40, 2.90), (0.0, 0.080)
TITLE_IN = 0.3
ROWS = {"undrilled": "", "drilled, pin up": "A", "drilled, pin down": "B"}
RG_ROWS = {"uniform ball ▲": ""} | ROWS
RG_MARKS = {"low": "o", "intermediate": "D", "high": "s"}
DIFFERENTIAL_MARKS = {"intermediate": "D", "total": "s"}


class SpecPicture(Picture):
    """RGs and differentials of one ball before and after drilling; shows a `SpecScene`.

    Parameters
    ----------
    width_in : float
        Width [in]; the height follows from the rows.
    """

    def __init__(self, width_in: float = 7.6) -> None:
        rows = len(RG_ROWS) + len(ROWS)
        super().__init__(width_in, TITLE_IN + 2 * (HEAD_IN + TICKS_IN) + rows * ROW_IN)

    def _build(self) -> None:
        sheet = self.figure.add_axes((0, 0, 1, 1))
        sheet.set_axis_off()
        sheet.set_xlim(0, self.width_in)
        sheet.set_ylim(0, self.height_in)
        self.title = self.moving_text(
            sheet, 0.08, self.height_in - TITLE_IN / 2, va="center", weight="bold"
        )
        top = self.height_in - TITLE_IN
        self.rg = self._scale(top, RG_ROWS, RG_SPAN_IN, 0.05, RG_MARKS)
        self.rg.head("RG [in]", RG_MARKS)
        low, high = sources.value("rg_min"), sources.value("rg_max")
        self.rg.legal(low, high, f"legal before drilling: {low:.3f} to {high:.3f} in")
        self.even = self.moving_line(
            self.rg.axes, marker="^", markersize=7, color=style.INK, clip_on=False
        )
        top -= HEAD_IN + len(RG_ROWS) * ROW_IN + TICKS_IN
        self.differential = self._scale(
            top, ROWS, DIFFERENTIAL_SPAN_IN, 0.01, DIFFERENTIAL_MARKS, from_zero=True
        )
        share = sources.value("asymmetric_share")
        self.differential.head(
            "differential [in]",
            DIFFERENTIAL_MARKS | {f"{100 * share:g} % of the total: more is asymmetric": "|"},
        )
        most = sources.value("differential_max")
        self.differential.legal(0.0, most, f"legal before drilling: total at most {most:.3f} in")
        self.share = self.moving_line(
            self.differential.axes, marker="|", markersize=10, markeredgewidth=1.6,
            markeredgecolor=style.MUTED, clip_on=False,
        )  # fmt: skip

    def _scale(
        self,
        top_in: float,
        rows: Mapping[str, str],
        span: tuple[float, float],
        step: float,
        marks: Mapping[str, str],
        *,
        from_zero: bool = False,
    ) -> Scale:
        """A scale below `top_in` [in from the foot] with a number at every `step`."""
        high_in = len(rows) * ROW_IN
        bottom_in, wide_in = top_in - HEAD_IN - high_in, self.width_in - LEFT_IN - RIGHT_IN
        wide, high = self.width_in, self.height_in
        axes = self.figure.add_axes(
            (LEFT_IN / wide, bottom_in / high, wide_in / wide, high_in / high)
        )
        ticks = np.arange(span[0], span[1] + step / 2, step).tolist()
        return Scale(self, axes, span, rows, marks, ticks, from_zero=from_zero)

    def _same_still(self, old: SpecScene, new: SpecScene) -> bool:
        return True

    def _show_still(self, scene: SpecScene) -> None:
        """Nothing: names, limits and scales are the same for every ball."""

    def _show(self, scene: SpecScene) -> None:
        self.write_within(self.title, scene.title, (self.width_in - 0.16) * DPI)
        even = scene.uniform_rg_in
        self.rg.show_one(0, even, "every axis alike: ")
        self.even.set_data([even], [len(RG_ROWS)])
        for place, row in enumerate(scene.rows):
            self.rg.show(place + 1, row.rg_in)
            self.differential.show(place, (row.intermediate_in, row.differential_in))
        share = sources.value("asymmetric_share") * scene.rows[0].differential_in
        self.share.set_data([share], [LINE])

    def _words(self, scene: SpecScene) -> str:
        return scene.describe()
