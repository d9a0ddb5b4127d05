"""Colours, line styles, letter sizes: the one place where the pictures get their looks.

The two setups differ in three ways at once: hue, line style with filled or open marks, and the
letter A or B. Hue and lightness are our own choice (dark blue against mid orange), so that the two
stay apart for the common kinds of colour blindness and in grey; a test converts them and looks.
"""

import os
from dataclasses import dataclass
from typing import Any

from matplotlib.colors import LinearSegmentedColormap

INK = "#1d2127"  # words, foul line, marks on the ball
MUTED = "#5a626c"  # tick labels, second rank words
FAINT = "#c9cdd2"  # frames
ROW = "#f3f4f6"  # rows of a table
PAPER = "#ffffff"
WOOD = "#fbf6ea"  # bare lane
SEAM = "#e6dcc4"  # every fifth board
GUTTER = "#d5d7da"
POCKET, POCKET_EDGE = "#8fc1a0", "#3c7a52"
PIN = "#ffffff"
BALL = "#f1f2f4"
HOLE = "#6b7077"
WARNING = "#a8123e"

DEEPEST_OIL_UM = 8.0  # 45 units; what is thicker looks the same
# bare wood to the deepest film; kept light so that both paths stand out on it
OIL = LinearSegmentedColormap.from_list("oil film", [WOOD, "#dfe9ee", "#cddfec"])
# maps: one hue from light to dark, light enough for dark words
MAP = LinearSegmentedColormap.from_list("map", ["#fbf8ef", "#d8e3da", "#9fc3c4", "#6b9fb5"])

VARIABLE = "WORKBOOK_LETTERS"
LETTERS = float(os.environ.get(VARIABLE, "1"))
"""How many times larger letters are: `present` sets it, for the back row."""
SMALL, NORMAL = 9.0 * LETTERS, 10.0 * LETTERS  # letter sizes [pt] on a picture 9.6 in wide

# everything an artist reads when it is made; the reader's own matplotlib settings must not leak in
RC: Any = {
    "font.family": "sans-serif",
    "font.sans-serif": ["DejaVu Sans"],
    "font.size": NORMAL,
    "text.color": INK,
    "text.usetex": False,
    "axes.edgecolor": FAINT,
    "axes.linewidth": 0.8,
    "axes.facecolor": PAPER,
    "figure.facecolor": PAPER,
    "savefig.facecolor": PAPER,
    "axes.grid": False,
    "xtick.color": MUTED,
    "ytick.color": MUTED,
    "xtick.labelsize": SMALL,
    "ytick.labelsize": SMALL,
    "lines.dash_capstyle": "butt",
    "lines.scale_dashes": True,
    "path.simplify": True,
    "axes.unicode_minus": True,
    "pdf.fonttype": 42,
    "svg.fonttype": "none",
}


@dataclass(frozen=True)
class SetupStyle:
    """Looks of one setup: colour and dashes of its lines, its marks, its words and letter."""

    colour: str
    dashes: object
    face: str
    words: str
    letter: str
    mark_pt: float

    def line(self, width: float = 2.4) -> dict:
        """Keywords of a line of `width` [pt] in this style."""
        return {"color": self.colour, "linestyle": self.dashes, "linewidth": width}

    def mark(self, size: float | None = None) -> dict:
        """Keywords of a mark of `size` [pt, else this style's own] without a joining line."""
        return {
            "linestyle": "none",
            "markersize": size or self.mark_pt,
            "markerfacecolor": self.face,
            "markeredgecolor": self.colour,
            "markeredgewidth": 1.8,
        }


# B's open marks are larger, so that A's filled ones show inside them when both fall on one spot
SETUPS = {
    "A": SetupStyle(
        colour="#23378c", dashes="-", face="#23378c", words="#23378c", letter=PAPER, mark_pt=5.5
    ),
    "B": SetupStyle(
        colour="#bd6400",
        dashes=(0, (3.2, 1.1)),
        face=PAPER,
        words="#8f4c00",
        letter="#8f4c00",
        mark_pt=9.0,
    ),
}
