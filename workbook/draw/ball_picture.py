"""The ball drawing: every ball from its grip side and from its PAP side."""

from collections.abc import Sequence
from functools import partial
from typing import Any

from matplotlib.axes import Axes
from matplotlib.text import Text

from workbook.draw import style
from workbook.draw.ball_view import BallView
from workbook.draw.picture import DPI, Picture
from workbook.draw.projection import GRIP, View
from workbook.scenes import BallScene

BALL_IN = 4.8  # width of one ball's two views
HEAD_IN, SIDE_IN, CAPTION_IN = 0.32, 0.22, 0.42  # title, names of the views, caption and warning
VIEWS = ("grip side", "PAP side")
FAR = "far side"  # the second view of a ball whose track was measured


class BallPicture(Picture):
    """One or two balls, two views each, in a row; shows a tuple of `BallScene`.

    Parameters
    ----------
    count : int
        Number of balls there is room for.
    height_in : float
        Height [in]; the width is 4.8 in for each ball.
    """

    def __init__(self, count: int = 2, height_in: float = 3.3):
        self.count = count
        super().__init__(BALL_IN * count, height_in)

    def _build(self) -> None:
        self.sheet = self._area(0, 0, self.width_in, self.height_in)
        self.sheet.set_axis_off()
        self.sheet.set_xlim(0, self.width_in)
        self.sheet.set_ylim(0, self.height_in)
        self.views: list[BallView] = []
        self.sides: list[Text] = []
        for ball in range(self.count):
            for view, name in enumerate(VIEWS):
                self._build_view(BALL_IN * (ball + 0.26 + 0.48 * view), name)
        lefts = [BALL_IN * ball + 0.12 for ball in range(self.count)]
        text = partial(self.moving_text, self.sheet, va="center", fontsize=style.SMALL)
        top = self.height_in - HEAD_IN / 2
        bold: Any = {"weight": "bold"}
        self.titles = [text(left, top, **bold | {"fontsize": style.NORMAL}) for left in lefts]
        self.captions = [text(left, CAPTION_IN * 0.72) for left in lefts]
        self.warnings = [
            text(left, CAPTION_IN * 0.27, color=style.WARNING, **bold) for left in lefts
        ]

    def _build_view(self, middle_in: float, name: str) -> None:
        floor = SIDE_IN + CAPTION_IN
        side = min(BALL_IN / 2 - 0.1, self.height_in - HEAD_IN - floor)
        square = self._area(middle_in - side / 2, floor, side, side)
        self.views.append(BallView(self, square, name_lines=name == VIEWS[1]))
        looks: Any = {"ha": "center", "va": "center", "color": style.MUTED, "fontsize": style.SMALL}
        self.sides.append(self.sheet.text(middle_in, floor - SIDE_IN / 2, name, **looks))

    def _area(self, left: float, bottom: float, width: float, height: float) -> Axes:
        wide, high = self.width_in, self.height_in
        axes = self.figure.add_axes((left / wide, bottom / high, width / wide, height / high))
        axes.set_facecolor("none")
        return axes

    def _same_still(self, old: Sequence[BallScene], new: Sequence[BallScene]) -> bool:
        return _tracked(old) == _tracked(new)

    def _show_still(self, scene: Sequence[BallScene]) -> None:
        if len(scene) > self.count:
            raise ValueError(
                f"This picture has room for {self.count} balls; asked for: {len(scene)}."
            )
        for place, (view, name) in enumerate(zip(self.views, self.sides, strict=True)):
            view.outline.set_visible(place < 2 * len(scene))
            name.set_visible(place < 2 * len(scene))
            if place < 2 * len(scene) and place % 2:
                name.set_text(FAR if _tracked(scene)[place // 2] else VIEWS[1])

    def _show(self, scene: Sequence[BallScene]) -> None:
        for place in range(self.count):
            views = self.views[2 * place : 2 * place + 2]
            for text in (self.titles[place], self.captions[place], self.warnings[place]):
                text.set_visible(place < len(scene))
            if place < len(scene):
                ball = scene[place]
                second = ball.pap if ball.track is None else -GRIP
                for view, centre in zip(views, (GRIP, second), strict=True):
                    view.show(ball, View.toward(centre, ball.hand))
                self._show_words(place, ball)
            else:
                for view in views:
                    view.hide()

    def _show_words(self, place: int, ball: BallScene) -> None:
        room = (BALL_IN - 0.2) * DPI
        self.titles[place].set_color(style.SETUPS[ball.label].words)
        letter = f"{ball.label}  " if self.count > 1 else ""
        self.write_within(self.titles[place], f"{letter}{ball.title}  ({ball.hand}-hander)", room)
        self.write_within(self.captions[place], ball.caption, room)
        over = sum(ball.ring_over_hole)
        words = "one ring runs" if over == 1 else f"{over} rings run"
        self.warnings[place].set_text(f"{words} over a hole" if over else "")

    def _words(self, scene: Sequence[BallScene]) -> str:
        return " ".join(ball.describe() for ball in scene)


def _tracked(scene: Sequence[BallScene]) -> list[bool]:
    return [ball.track is not None for ball in scene]
