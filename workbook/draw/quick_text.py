"""Text whose pixels are kept: drawing the same words again is one copy of a small image.

Laying out and rasterising words takes most of the time of a blitted picture. On an Agg canvas the
words are therefore drawn once for each text, look and resolution; elsewhere (SVG, PDF) they are
ordinary text.
"""

from collections import OrderedDict
from typing import Any, ClassVar

import numpy as np
from matplotlib.artist import allow_rasterization
from matplotlib.backend_bases import GraphicsContextBase, RendererBase
from matplotlib.backends.backend_agg import RendererAgg
from matplotlib.colors import to_hex
from matplotlib.text import Text
from matplotlib.transforms import Bbox, IdentityTransform

MOST_KEPT = 1500  # a few kilobytes each
Key = tuple[Any, ...]
Sprite = tuple[np.ndarray, float, float]  # pixels, and the place of their corner from the anchor


class QuickText(Text):
    """Plain horizontal text that keeps its pixels; it takes no box, no wrapping, no rotation."""

    _kept: ClassVar[OrderedDict[Key, Sprite]] = OrderedDict()

    @allow_rasterization
    def draw(self, renderer: RendererBase) -> None:
        """Copy the kept pixels onto an Agg canvas, or draw as any text does."""
        if not isinstance(renderer, RendererAgg):
            super().draw(renderer)
            return
        if not self.get_visible() or not self.get_text():
            return
        pixels, left, bottom = self._sprite(renderer)
        x, y = self.get_transform().transform(self.get_unitless_position())
        gc: GraphicsContextBase = renderer.new_gc()
        renderer.draw_image(gc, round(x + left), round(y + bottom), pixels)
        gc.restore()
        self.stale = False

    def get_window_extent(self, renderer: Any = None, dpi: float | None = None) -> Bbox:
        """Extent of the words [px], from the kept pixels where there are any."""
        if dpi is not None or not isinstance(renderer, RendererAgg) or not self.get_text():
            return super().get_window_extent(renderer, dpi)
        pixels, left, bottom = self._sprite(renderer)
        x, y = self.get_transform().transform(self.get_unitless_position())
        height, width = pixels.shape[:2]
        return Bbox.from_bounds(x + left + 1, y + bottom + 1, width - 2, height - 2)

    def _sprite(self, renderer: RendererAgg) -> Sprite:
        key = (
            self.get_text(),
            to_hex(self.get_color(), keep_alpha=True),
            self.get_fontsize(),
            self.get_fontweight(),
            self.get_horizontalalignment(),
            self.get_verticalalignment(),
            renderer.dpi,
        )
        if key in self._kept:
            self._kept.move_to_end(key)
            return self._kept[key]
        self._kept[key] = made = self._made(renderer)
        if len(self._kept) > MOST_KEPT:
            self._kept.popitem(last=False)
        return made

    def _made(self, renderer: RendererAgg) -> Sprite:
        """Draw the words on a canvas of their own, with one pixel of margin."""
        words = Text(
            0,
            0,
            self.get_text(),
            color=self.get_color(),
            fontproperties=self.get_fontproperties(),
            ha=self.get_horizontalalignment(),
            va=self.get_verticalalignment(),
            transform=IdentityTransform(),
        )
        figure = self.get_figure()
        assert figure is not None
        words.set_figure(figure)  # for its resolution only; it is not added there
        box = words.get_window_extent(renderer)
        left, bottom = np.floor([box.x0, box.y0]) - 1
        width, height = np.ceil([box.x1 - left, box.y1 - bottom]).astype(int) + 1
        own = RendererAgg(int(width), int(height), renderer.dpi)
        words.set_position((-left, -bottom))
        words.draw(own)
        pixels = np.array(own.buffer_rgba())[::-1]  # images are drawn from their lower edge
        return pixels, left, bottom
