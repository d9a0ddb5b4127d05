"""A picture that is built once and then only moved: cached background, blitting, palette PNG."""

import io
from bisect import bisect_right
from pathlib import Path
from typing import Any, TypeVar

import matplotlib
import numpy as np
from matplotlib.artist import Artist
from matplotlib.axes import Axes
from matplotlib.backends.backend_agg import FigureCanvasAgg
from matplotlib.colors import to_rgb
from matplotlib.figure import Figure
from matplotlib.lines import Line2D
from matplotlib.text import Text
from PIL import Image

from workbook.draw import style
from workbook.draw.quick_text import QuickText

DPI = 100
OWN_COLOURS = 150  # of a palette; the rest is for what may come to move over the picture
Moving = TypeVar("Moving", bound=Artist)


class Picture:
    """Base of all drawings; a subclass makes its artists once and then sets data on them.

    Subclasses make the figure's contents in `_build` and hand every artist that may change to
    `moves`; `_show` sets their data. What else depends on the scene (oil, hand) belongs to the
    background: `_show_still` sets it, and only if `_same_still` says that it differs.

    Parameters
    ----------
    width_in, height_in : float
        Size [in]; one inch is 100 pixels at scale 1.
    """

    def __init__(self, width_in: float, height_in: float):
        self.width_in, self.height_in = width_in, height_in
        self._moving: list[Artist] = []
        # the still part for each scale: pixels kept by the canvas, which have no public type
        self._backgrounds: dict[float, Any] = {}
        self._palettes: dict[float, Image.Image] = {}
        self._scene: Any = None
        with matplotlib.rc_context(style.RC):
            self.figure = Figure(figsize=(width_in, height_in), dpi=DPI)
            self.canvas = FigureCanvasAgg(self.figure)
            self._build()

    def show(self, scene) -> None:
        """Set all artists to `scene`; the background is redrawn only if that has changed."""
        if self._scene is None or not self._same_still(self._scene, scene):
            with matplotlib.rc_context(style.RC):
                self._show_still(scene)
            self._backgrounds.clear()
            self._palettes.clear()
        self._show(scene)
        self._scene = scene

    def png(self, scale: float = 1) -> bytes:
        """Return the picture as PNG bytes, `scale` [1] times 100 pixels an inch."""
        image = self.image(scale)
        if scale not in self._palettes:
            self._palettes[scale] = _palette_of(image)
        return _png(image, self._palettes[scale])

    def image(self, scale: float = 1) -> Image.Image:
        """Return the picture as an RGB image, `scale` [1] times 100 pixels an inch.

        Only what moves is drawn; the rest is kept for each scale.
        """
        self.figure.dpi = DPI * scale
        try:
            if scale not in self._backgrounds:
                with matplotlib.rc_context(style.RC):
                    self.canvas.draw()
                self._backgrounds[scale] = self.canvas.copy_from_bbox(self.figure.bbox)
            renderer = self.canvas.get_renderer()
            self.canvas.restore_region(self._backgrounds[scale])
            for artist in self._moving:
                if artist.get_visible():
                    artist.draw(renderer)
            size = self.canvas.get_width_height()
            pixels = self.canvas.buffer_rgba()
            return Image.frombuffer("RGBA", size, pixels, "raw", "RGBA", 0, 1).convert("RGB")
        finally:
            self.figure.dpi = DPI

    def save(self, path: str | Path) -> None:
        """Write the picture to a file; the ending (.png, .svg, .pdf) says which kind."""
        path = Path(path)
        note = {"Subject" if path.suffix == ".pdf" else "Description": self.describe()}
        with matplotlib.rc_context(style.RC):
            self.figure.savefig(path, dpi=2 * DPI, metadata=note)

    def describe(self) -> str:
        """Return what the picture shows in words, for those who cannot see it."""
        if self._scene is None:
            return "Nothing drawn yet."
        return self._words(self._scene)

    def moves(self, artist: Moving) -> Moving:
        """Take an artist out of the background; those that move are drawn in the order given."""
        artist.set_animated(True)
        artist.set_in_layout(False)
        artist.set_zorder(100 + len(self._moving))
        self._moving.append(artist)
        return artist

    def width_px(self, text: Text) -> float:
        """Width of a text artist as it stands now [px at scale 1]."""
        return text.get_window_extent(self.canvas.get_renderer()).width

    def moving_line(self, axes: Axes, **looks) -> Line2D:
        """Make a line or mark that moves, as yet without points."""
        return self.moves(axes.plot([], [], **looks)[0])

    def moving_text(self, axes: Axes, left: float = 0.0, middle: float = 0.0, **looks) -> Text:
        """Make a text that moves, as yet without words, at a place in the axes' own units."""
        text = QuickText(left, middle, "", transform=axes.transData, **looks)
        axes.add_artist(text)
        return self.moves(text)

    def write_within(self, text: Text, words: str, room_px: float) -> None:
        """Set a text, shortened with an ellipsis if wider than its room [px at scale 1]."""
        text.set_text(words)
        if len(words) < 2 or self.width_px(text) <= room_px:
            return
        shorter = [words[:letters].rstrip() + "…" for letters in range(1, len(words))]

        def width(candidate: str) -> float:
            text.set_text(candidate)
            return self.width_px(text)

        fitting = bisect_right(shorter, room_px, key=width)
        text.set_text(shorter[max(fitting - 1, 0)])

    def _build(self) -> None:
        raise NotImplementedError

    def _same_still(self, old, new) -> bool:
        raise NotImplementedError

    def _show_still(self, scene) -> None:
        raise NotImplementedError

    def _show(self, scene) -> None:
        raise NotImplementedError

    def _words(self, scene) -> str:
        raise NotImplementedError


def _palette_of(image: Image.Image) -> Image.Image:
    """A palette that serves a picture whatever moves on it: its own colours and those of the style.

    Searching one for each frame takes longer than drawing it.
    """
    inks = [ink for look in style.SETUPS.values() for ink in (look.colour, look.words)]
    inks += [style.INK, style.MUTED, style.WARNING, style.HOLE, style.POCKET_EDGE]
    papers = (style.PAPER, style.WOOD, style.BALL, style.POCKET)
    rows = [_blends(ink, paper) for ink in inks for paper in papers]
    strip = Image.fromarray(np.array(rows, dtype=np.uint8))
    # tints of oil and bands lie close together: only the slower cut keeps them apart
    own = _few(image.reduce(2), OWN_COLOURS, Image.Quantize.MEDIANCUT)
    inked = _few(strip, 255 - OWN_COLOURS, Image.Quantize.FASTOCTREE)
    colours = np.vstack([own, inked])
    paper = np.round(255 * np.array(to_rgb(style.PAPER))).astype(int)
    colours[np.abs(colours - paper).max(axis=1) <= 8] = paper  # the page stays its own white
    palette = Image.new("P", (1, 1))
    palette.putpalette(np.vstack([colours, paper]).ravel().tolist())
    return palette


def _few(image: Image.Image, count: int, method: Image.Quantize) -> np.ndarray:
    """So many colours at most that stand for those of an image, array (count, 3)."""
    few = image.quantize(count, method=method, dither=Image.Dither.NONE)
    return np.array(few.getpalette() or [])[: 3 * count].reshape(-1, 3)


def _blends(ink: str, paper: str) -> np.ndarray:
    """Colours on the way from an ink to a paper, as at the edge of a line or in a faded ring."""
    way = np.repeat(np.linspace(0.0, 1.0, 9), 16)[:, None]
    return np.round(255 * (np.array(to_rgb(ink)) * (1 - way) + np.array(to_rgb(paper)) * way))


def _png(image: Image.Image, palette: Image.Image) -> bytes:
    out = io.BytesIO()
    image.quantize(palette=palette, dither=Image.Dither.NONE).save(out, "PNG", compress_level=1)
    return out.getvalue()
