"""How well a ring fits its points, and where that leaves the PAP."""

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import LineCollection, PolyCollection

from workbook.draw import style
from workbook.draw.picture import Picture
from workbook.draw.placing import spread
from workbook.scenes_track import TrackScene

PARTS, MOST = 16, 6  # of an inch; parts above and below the ring that there is room for
ROUND_DEG = {-180: "far side", -90: "fingers' side", 0: "grip's side", 90: "thumb's side",
             180: "far side"}  # fmt: skip
NUMBER_PX = 19  # room for a point's number
SPANS = {
    1 / 8: "1/8",
    1 / 4: "1/4",
    1 / 2: "1/2",
    1.0: "1",
    2.0: "2",
}  # half widths of the map [in]
LEFT_IN, GAP_IN, FOOT_IN, HEAD_IN, RIGHT_IN = 0.62, 0.95, 0.45, 0.55, 0.35


class ResidualPicture(Picture):
    """Each point's distance from the ring, and beside it the region of the PAP: a `TrackScene`."""

    def __init__(self, width_in: float = 9.6, height_in: float = 2.7):
        super().__init__(width_in, height_in)

    def _build(self) -> None:
        side = self.height_in - FOOT_IN - HEAD_IN
        wide = self.width_in - LEFT_IN - GAP_IN - side - RIGHT_IN
        self.points_axes = self._axes(LEFT_IN, wide, side)
        self.map_axes = self._axes(LEFT_IN + wide + GAP_IN, side, side)
        self._build_points(self.points_axes)
        self._build_map(self.map_axes)

    def _axes(self, left: float, width: float, height: float) -> Axes:
        wide, high = self.width_in, self.height_in
        return self.figure.add_axes((left / wide, FOOT_IN / high, width / wide, height / high))

    def _build_points(self, axes: Axes) -> None:
        axes.set_xlim(-185, 185)
        axes.set_ylim(-MOST, MOST)
        axes.set_xticks(list(ROUND_DEG), list(ROUND_DEG.values()))
        axes.set_yticks(range(-MOST, MOST + 1, 2))
        axes.set_ylabel(f"1/{PARTS} in, + away from PAP", fontsize=style.SMALL, color=style.MUTED)
        axes.set_title("distance of each point from the ring", fontsize=style.NORMAL, loc="left",
                       pad=20)  # fmt: skip
        axes.axhline(0, color=style.MUTED, linewidth=1.0)
        self.band = [
            self.moving_line(axes, color=style.MUTED, linestyle=(0, (4, 2)), linewidth=1.0)
            for _ in range(2)
        ]
        self.band_words = self.moving_text(
            axes, ha="right", va="bottom", color=style.MUTED, fontsize=style.SMALL
        )
        self.stems = LineCollection([], colors=style.SETUPS["A"].colour, linewidths=1.6)
        axes.add_collection(self.moves(self.stems))
        self.dots = self.moving_line(axes, marker="o", **style.SETUPS["A"].mark(6))
        self.far = self.moving_line(axes, **style.SETUPS["A"].mark(8) | {
            "marker": "D", "markerfacecolor": style.PAPER, "markeredgecolor": style.WARNING,
        })  # fmt: skip
        self.numbers = [
            self.moving_text(axes, ha="center", va="bottom", fontsize=style.SMALL)
            for _ in range(60)
        ]

    def _build_map(self, axes: Axes) -> None:
        axes.set_xlim(-1, 1)
        axes.set_ylim(-1, 1)
        axes.set_xticks([-1, -0.5, 0, 0.5, 1], [])
        axes.set_yticks([-1, -0.5, 0, 0.5, 1], [])
        axes.grid(color=style.FAINT, linewidth=0.7)
        axes.set_axisbelow(True)
        axes.tick_params(length=0)
        axes.set_title("PAP region, 9 in 10", fontsize=style.NORMAL, loc="left", pad=20,
                       x=-0.2)  # fmt: skip
        look = {"fontsize": style.SMALL, "color": style.MUTED}
        self.region = PolyCollection(
            [], facecolors=style.OIL(1.0), edgecolors=style.SETUPS["A"].colour, linewidths=1.6
        )
        axes.add_collection(self.moves(self.region))
        self.pap = self.moving_line(axes, marker="P", markersize=9.5, color=style.INK)
        self.pap.set_data([0], [0])
        self.known = self.moving_line(axes, **style.SETUPS["B"].mark(9) | {"marker": "o"})
        self.known_words = self.moving_text(
            axes, 0, 1.04, ha="center", va="bottom", fontsize=style.SMALL,
            color=style.SETUPS["B"].words,
        )  # fmt: skip
        self.across = [
            self.moving_text(axes, place, -1.08, ha="center", va="top", **look)
            for place in (-1, 0, 1)
        ]
        self.upward = [
            self.moving_text(axes, -1.05, place, ha="right", va="center", **look)
            for place in (-0.92, 0, 0.92)  # clear of those below
        ]

    def _same_still(self, old: TrackScene, new: TrackScene) -> bool:
        return True

    def _show_still(self, scene: TrackScene) -> None:
        """Nothing: both frames are the same for every track."""

    def _show(self, scene: TrackScene) -> None:
        self._show_points(scene)
        self._show_map(scene)

    def _show_points(self, scene: TrackScene) -> None:
        parts = np.clip(scene.off_in * PARTS, -MOST, MOST)
        place = scene.round_deg
        ends = zip(place, parts, strict=True)
        self.stems.set_segments([np.array([(x, 0.0), (x, y)]) for x, y in ends])
        self.dots.set_data(place[~scene.doubtful], parts[~scene.doubtful])
        self.far.set_data(place[scene.doubtful], parts[scene.doubtful])
        for line, sign in zip(self.band, (1, -1), strict=True):
            line.set_data([-185, 185], [sign * scene.error_in * PARTS] * 2)
        self.band_words.set_position((183, min(scene.error_in * PARTS, MOST - 2) + 0.2))
        self.band_words.set_text("measuring error")
        px = self.points_axes.bbox.width / 370
        room = NUMBER_PX * min(1.0, self.points_axes.bbox.width / (NUMBER_PX * (len(place) + 1)))
        at = spread(place.tolist(), room / px, -183, 183)
        for number, text in enumerate(self.numbers):
            text.set_visible(number < len(place))
            if number < len(place):
                text.set_text(str(number + 1))
                text.set_position((at[number], MOST + 0.5))
                text.set_color(style.WARNING if scene.doubtful[number] else style.INK)

    def _show_map(self, scene: TrackScene) -> None:
        right = 1.0 if scene.hand == "right" else -1.0
        reach = float(np.max(np.abs(scene.region_in)))
        if scene.known_in is not None:
            reach = max(reach, *(abs(part) for part in scene.known_in))
        span = next((half for half in SPANS if half >= 1.05 * reach), max(SPANS))
        words = SPANS[span]
        turned = np.array([right, 1.0]) / span
        self.region.set_verts([scene.region_in * turned])
        self.known.set_visible(scene.known_in is not None)
        self.known_words.set_text(scene.known_words if scene.known_in is not None else "")
        if scene.known_in is not None:
            x, y = np.clip(np.multiply(scene.known_in, turned), -0.97, 0.97)
            self.known.set_data([x], [y])
        signs = ("−", "+") if right > 0 else ("+", "−")
        for texts, (low, high), way in (
            (self.across, signs, "over [in]"), (self.upward, ("−", "+"), "up [in]")
        ):  # fmt: skip
            for text, said in zip(texts, (low + words, way, high + words), strict=True):
                text.set_text(said)

    def _words(self, scene: TrackScene) -> str:
        return scene.describe()
