"""One sheet with the lane on top and the balls below it."""

from collections.abc import Sequence
from pathlib import Path

from PIL import Image
from PIL.PngImagePlugin import PngInfo

from workbook.draw import style
from workbook.draw.ball_picture import BallPicture
from workbook.draw.lane_picture import LanePicture
from workbook.draw.picture import DPI
from workbook.scenes import BallScene, LaneScene

WIDTH_PX = 1400
LANE_IN, BALLS_IN = 4.3, 3.1  # heights of the two parts


def overview_png(path: str | Path, lane_scene: LaneScene, ball_scenes: Sequence[BallScene]) -> None:
    """Write lane and balls as one PNG of about 1400 x 1080 pixels, its description inside the file.

    Parameters
    ----------
    path : str or Path
        File to write.
    lane_scene : LaneScene
        The lane on top.
    ball_scenes : sequence of BallScene
        One or two balls.

    Raises
    ------
    ValueError
        If there are more than two balls.
    """
    lane, balls = LanePicture(height_in=LANE_IN), BallPicture(count=2, height_in=BALLS_IN)
    lane.show(lane_scene)
    balls.show(tuple(ball_scenes))
    parts = [picture.image(WIDTH_PX / (picture.width_in * DPI)) for picture in (lane, balls)]
    sheet = Image.new("RGB", (WIDTH_PX, sum(part.height for part in parts)), style.PAPER)
    sheet.paste(parts[0], (0, 0))
    sheet.paste(parts[1], (0, parts[0].height))
    words = PngInfo()
    words.add_itxt("Description", f"{lane.describe()} {balls.describe()}")
    sheet.save(path, "PNG", pnginfo=words)
