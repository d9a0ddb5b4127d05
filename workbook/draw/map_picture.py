"""Maps over the places of the pin, on the ball: shades, lines of equal value, the present pin."""

from typing import Any

import numpy as np
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.patches import Circle
from matplotlib.ticker import MaxNLocator

from workbook.draw import style
from workbook.draw.ball_view import MARK, MARKS
from workbook.draw.picture import Picture
from workbook.draw.projection import View
from workbook.scenes_map import MapLayer, PinMapScene

SHADES, LINES = 12, 6
ROOM = 1.04  # half the side of a map, in ball radii
FOOT_IN, HEAD_IN = 0.3, 0.34


class MapPicture(Picture):
    """Maps in a row; shows a `PinMapScene`.

    The maps are the background: only the pin and its values move.

    Parameters
    ----------
    count : int
        Number of maps.
    """

    def __init__(self, count: int = 3, width_in: float = 9.6, height_in: float = 3.7):
        self.count = count
        super().__init__(width_in, height_in)

    def _build(self) -> None:
        self.drawn: list[Artist] = []  # of the present maps
        self.maps, self.heads, self.pins = [], [], []
        wide = self.width_in / self.count
        side = min(wide, self.height_in - FOOT_IN - HEAD_IN)
        for place in range(self.count):
            left = wide * place + (wide - side) / 2
            size = (side / self.width_in, side / self.height_in)
            corner = (left / self.width_in, FOOT_IN / self.height_in)
            axes = self.figure.add_axes((*corner, *size))
            axes.set_axis_off()
            axes.set_xlim(-ROOM, ROOM)
            axes.set_ylim(-ROOM, ROOM)
            axes.add_patch(Circle((0, 0), 1, facecolor=style.BALL, edgecolor=style.MUTED, lw=1.2))
            looks: Any = {"ha": "center", "va": "bottom", "weight": "bold"}
            self.heads.append(self.moving_text(axes, 0, ROOM, fontsize=style.NORMAL, **looks))
            pin = self.moving_line(axes, marker=MARKS["pin"], markerfacecolor=style.INK, **MARK)
            self.maps.append(axes)
            self.pins.append(pin)
        looks = {"fontsize": style.SMALL, "color": style.MUTED, "va": "center", "ha": "center"}
        self.foot = self.figure.text(0.5, FOOT_IN / 2 / self.height_in, "", **looks)

    def _same_still(self, old: PinMapScene, new: PinMapScene) -> bool:
        return (
            old.places is new.places
            and old.hand == new.hand
            and old.static_limit_oz == new.static_limit_oz
        )

    def _show_still(self, scene: PinMapScene) -> None:
        if len(scene.layers) != self.count:
            raise ValueError(
                f"This picture has room for {self.count} maps; asked for: {len(scene.layers)}."
            )
        for artist in self.drawn:
            artist.remove()
        self.drawn.clear()
        # straight at the middle of the places: all of them are on the near half
        rows, columns = scene.places.shape[:2]
        self.view = View.toward(scene.places[rows // 2, columns // 2], scene.hand)
        for axes, layer in zip(self.maps, scene.layers, strict=True):
            self._map(axes, scene, layer)
        self.foot.set_text(self._said(scene))

    def _said(self, scene: PinMapScene) -> str:
        parts = ["Seen from above the fingers. Dot: the pin now."]
        if any(_passed(layer) for layer in scene.layers):
            parts.append("Dashed: the limit before drilling.")
        if scene.passes_static_limit:
            parts.append(f"Hatched: static above {scene.static_limit_oz:g} oz.")
        return " ".join(parts)

    def _map(self, axes: Axes, scene: PinMapScene, layer: MapLayer) -> None:
        drawn: list[Any] = []
        right, up, _near = np.moveaxis(self.view.flat(scene.places), -1, 0)
        low, high = float(layer.values.min()), float(layer.values.max())
        if high - low > 10.0**-layer.digits:
            shades, lines = (
                MaxNLocator(n, steps=[1, 2, 5, 10]).tick_values(low, high) for n in (SHADES, LINES)
            )
            drawn.append(axes.contourf(right, up, layer.values, shades, cmap=style.MAP))
            equal = axes.contour(right, up, layer.values, lines, colors=style.MUTED, linewidths=0.7)
            axes.clabel(equal, fmt=f"%.{layer.digits}f", fontsize=style.SMALL, colors=style.INK)
            drawn.append(equal)
        if _passed(layer):
            looks: Any = {"colors": style.WARNING, "linewidths": 1.8, "linestyles": "dashed"}
            drawn.append(axes.contour(right, up, layer.values, [layer.limit], **looks))
        if scene.passes_static_limit:
            beyond = [scene.static_limit_oz, np.inf]
            looks = {"colors": "none", "hatches": ["///"]}
            drawn.append(axes.contourf(right, up, scene.static_oz, beyond, **looks))
        for hole in scene.holes:
            area = self.view.near_area(hole.outline)
            if len(area):
                drawn += axes.fill(*area.T, facecolor=style.HOLE, edgecolor=style.INK, alpha=0.6)
        x, y, _near = self.view.flat(scene.pap)
        drawn += axes.plot(x, y, marker=MARKS["PAP"], markerfacecolor=style.INK, **MARK)
        drawn.append(axes.text(x, y - 0.1, "PAP", ha="center", va="top", fontsize=style.SMALL))
        self.drawn += drawn

    def _show(self, scene: PinMapScene) -> None:
        x, y, _near = self.view.flat(scene.pin)
        for head, pin, layer in zip(self.heads, self.pins, scene.layers, strict=True):
            pin.set_data([x], [y])
            head.set_text(f"{layer.words} {layer.here:.{layer.digits}f} {layer.unit}")

    def _words(self, scene: PinMapScene) -> str:
        return scene.describe()


def _passed(layer: MapLayer) -> bool:
    """Whether the values of a layer pass its limit."""
    return layer.limit is not None and bool(layer.values.min() < layer.limit < layer.values.max())
