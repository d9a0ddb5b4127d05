"""The bare lane as a drawing: boards, arrows, pins, gutters, pocket; all that never moves.

Distance runs along the page in feet, boards across it; `board_span` turns inches across into
boards.
"""

import math
from typing import Any

import numpy as np
from matplotlib.axes import Axes
from matplotlib.image import AxesImage
from matplotlib.patches import Ellipse, Polygon, Rectangle

from workbook import sources
from workbook.draw import style
from workbook.lane import BOARDS, POCKET_BOARDS, POCKET_DEG
from workbook.line import BOARD_IN, MIDDLE_BOARD, arrow_ft

HEAD_PIN_FT = sources.value("lane_length")
SEAMS = range(5, BOARDS, 5)  # boards with a line and a number, for reading
ARROW_BOARDS = (5, 10, 15, 20, 25, 30, 35)  # published: common to lane descriptions

GUTTER_BOARDS = 4.2  # width of the drawn strip, for reading only; a real gutter is wider
DECK_END_FT = 63.2  # where the drawing of the lane stops, behind the last row of pins
POCKET_RUN_FT = 6.0  # length of the drawn approach to the pocket

LOW_EDGE, HIGH_EDGE = 0.5, BOARDS + 0.5  # boards at the two edges of the lane
WITH_GUTTERS = LOW_EDGE - GUTTER_BOARDS, HIGH_EDGE + GUTTER_BOARDS


def board_span(inches: float) -> float:
    """Width of a length across the lane [in] in boards [board]."""
    return inches / BOARD_IN


def pin_places() -> list[tuple[float, float]]:
    """Return (board [board], distance [ft]) of the ten pins, number 1 first.

    Seen by the bowler, numbers in a row rise from left to right: toward low boards, as a
    right-hander counts them.
    """
    spacing_in = sources.value("pin_spacing")
    row_ft = spacing_in * math.sin(math.radians(60.0)) / 12.0
    step = board_span(spacing_in)
    return [
        (MIDDLE_BOARD + step * (row / 2 - place), HEAD_PIN_FT + row_ft * row)
        for row in range(4)
        for place in range(row + 1)
    ]


def pocket_outline() -> np.ndarray:
    """Return (4, 2) corners (distance [ft], board [board]) of the ways into the pocket window."""
    run_in = POCKET_RUN_FT * 12.0
    back = [board_span(run_in * math.tan(math.radians(angle))) for angle in POCKET_DEG]
    start = HEAD_PIN_FT - POCKET_RUN_FT
    return np.array(
        [
            (HEAD_PIN_FT, POCKET_BOARDS[0]),
            (HEAD_PIN_FT, POCKET_BOARDS[1]),
            (start, POCKET_BOARDS[1] - back[0]),
            (start, POCKET_BOARDS[0] - back[1]),
        ]
    )


def draw_lane(axes: Axes, start_ft: float) -> AxesImage:
    """Draw the lane from a distance [ft] to behind the pins; return the image for the oil film."""
    end_ft = DECK_END_FT - start_ft
    gutters = (start_ft, LOW_EDGE - GUTTER_BOARDS), end_ft, BOARDS + 2 * GUTTER_BOARDS
    axes.add_patch(Rectangle(*gutters, color=style.GUTTER, linewidth=0, zorder=1))
    wood = (start_ft, LOW_EDGE), end_ft, BOARDS
    axes.add_patch(Rectangle(*wood, color=style.WOOD, linewidth=0, zorder=2))
    film = axes.imshow(
        np.zeros((BOARDS, 2)),
        cmap=style.OIL,
        origin="lower",
        aspect="auto",
        interpolation="bilinear",
        zorder=3,
    )
    oiled = (start_ft, LOW_EDGE), HEAD_PIN_FT - start_ft, BOARDS
    wood_only = Rectangle(*oiled, transform=axes.transData)
    film.set_clip_path(wood_only.get_path(), wood_only.get_transform())  # besides the axes' box
    axes.hlines(SEAMS, start_ft, DECK_END_FT, colors=style.SEAM, linewidths=0.7, zorder=4)
    if start_ft <= 0:
        axes.plot((0, 0), (LOW_EDGE, HIGH_EDGE), color=style.INK, linewidth=2.6, zorder=6)
    _draw_arrows(axes)
    _draw_pins(axes)
    axes.tick_params(axis="both", length=0, pad=3)
    for side in axes.spines.values():
        side.set_visible(False)
    return film


def _draw_arrows(axes: Axes) -> None:
    looks: Any = {"marker": ">", "markersize": 6.0, "color": style.MUTED, "zorder": 5}
    for board in ARROW_BOARDS:
        axes.plot(arrow_ft(board), board, gid=f"arrow {board}", **looks)


def _draw_pins(axes: Axes) -> None:
    belly_in = sources.value("pin_belly")
    looks: Any = {"facecolor": style.PIN, "edgecolor": style.INK, "linewidth": 1.0, "zorder": 7}
    for number, (board, distance) in enumerate(pin_places(), start=1):
        size = belly_in / 12.0, board_span(belly_in)
        axes.add_patch(Ellipse((distance, board), *size, gid=f"pin {number}", **looks))


def draw_pocket(axes: Axes) -> None:
    """Shade the ways into the pocket window."""
    axes.add_patch(
        Polygon(
            pocket_outline(),
            facecolor=style.POCKET,
            edgecolor=style.POCKET_EDGE,
            linewidth=0.8,
            alpha=0.75,
            zorder=6,
            gid="pocket",
        )
    )


def show_film(image: AxesImage, film_um: np.ndarray) -> None:
    """Set the oil film [um], rows at whole feet, columns at boards; one scale for all lanes."""
    image.set_data(film_um.T)
    image.set_extent((-0.5, len(film_um) - 0.5, LOW_EDGE, HIGH_EDGE))
    image.set_clim(0.0, style.DEEPEST_OIL_UM)


def face_board_one(axes: Axes, hand: str, boards: tuple[float, float] = WITH_GUTTERS) -> None:
    """Put board 1 on the bowler's own side: below for a right-hander, above for a left-hander."""
    low, high = boards
    axes.set_yticks([board for board in SEAMS if low < board < high])
    axes.set_ylim((low, high) if hand == "right" else (high, low))
