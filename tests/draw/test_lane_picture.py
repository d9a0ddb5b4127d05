"""The lane drawing: sides, arrows, pins, and that every word can be read. Scenes are invented."""

import io
import itertools
import warnings

import numpy as np
import pytest
from PIL import Image, ImageChops

from tests.draw.invented import FT, backup, gutter, hook, lane
from workbook.draw import lane_frame
from workbook.draw.lane_picture import LanePicture
from workbook.scenes import Trace

A_MILLIMETRE_FT = 0.00328
FIVE_MILLIMETRES_FT = 5 * A_MILLIMETRE_FT


def banded(trace):
    return Trace(
        **{**vars(trace), "band": np.array([trace.board - FT / 60, trace.board + FT / 40])}
    )


SCENES = {
    "usual": lane(
        hook("A", name="pin up"), hook("B", out=6.4, turn_ft=39.5, entry=19.4, name="pin down")
    ),
    "left": lane(hook("A"), hook("B", out=4.4, turn_ft=44.5, entry=16.4), hand="left"),
    "twice the same": lane(hook("A", name="word " * 40), hook("B", name="word " * 40)),
    "bands": lane(banded(hook("A")), banded(hook("B", out=9, entry=21))),
    "both in one gutter": lane(gutter("A"), gutter("B", ft=47.0)),
    "far gutter early": lane(gutter("A", ft=3.0, edge=39.5), hook("B", roll_ft=None)),
    "far gutter late": lane(gutter("A", ft=59.5, edge=39.5), gutter("B", ft=59.0), hand="left"),
    "backs up": lane(backup("A"), thickest=0.0),
    "backs up twice": lane(backup("B"), backup("A")),
    "nothing before the pins": lane(
        hook("A", roll_ft=None, half_slip_ft=None, breakpoint=None), thickest=0.0
    ),
    "marks at the foul line": lane(
        hook("A", start=8, out=8, turn_ft=0, breakpoint=(8.0, 0.0), half_slip_ft=0.1),
        hook("B", start=8, out=8, turn_ft=0, breakpoint=(8.0, 0.0), half_slip_ft=0.3),
    ),
    "marks at the pins": lane(
        hook("A", breakpoint=(17.0, 60.0), half_slip_ft=59.0, roll_ft=59.9),
        hook("B", breakpoint=(17.0, 59.0), half_slip_ft=None, roll_ft=59.8),
    ),
    "outermost boards": lane(hook("A", out=1, entry=1), hook("B", start=39, out=39, entry=39)),
    "no path": lane(),
}


@pytest.fixture(scope="module")
def picture():
    return LanePicture()


def named(picture, gid, axes=None):
    return (axes or picture.lane).findobj(lambda artist: artist.get_gid() == gid)[0]


def words(picture):
    """Box of every word that is drawn."""
    picture.image()
    renderer = picture.canvas.get_renderer()
    found = {}
    for axes in picture.figure.axes:
        texts = [text for text in axes.texts if text.get_visible()]
        texts += axes.get_xticklabels() + axes.get_yticklabels() if axes.axison else []
        found |= {
            (text.get_text(), id(text)): text.get_window_extent(renderer)
            for text in texts
            if text.get_text()
        }
    return found


@pytest.mark.parametrize("name", SCENES)
def test_every_word_is_inside_and_clear_of_the_others(picture, name):
    with warnings.catch_warnings():
        warnings.simplefilter("error")
        picture.show(SCENES[name])
        boxes = words(picture)
        picture.png(2)
    page = picture.figure.bbox
    for (text, _), box in boxes.items():
        assert (
            page.x0 <= box.x0 and box.x1 <= page.x1 and page.y0 <= box.y0 and box.y1 <= page.y1
        ), text
    for (one, first), (other, second) in itertools.combinations(boxes.items(), 2):
        # boxes of letters include a pixel or two of air above and below
        wide, tall = (
            min(first.x1, second.x1) - max(first.x0, second.x0),
            min(first.y1, second.y1) - max(first.y0, second.y0),
        )
        assert wide <= 0 or tall <= 3, (one, other)


@pytest.mark.parametrize("size", [(9.0, 5.0), (9.6, 4.3), (14.0, 7.0)])
def test_other_sizes_cut_nothing(size):
    picture = LanePicture(*size)
    picture.show(SCENES["twice the same"])
    page = picture.figure.bbox
    for (text, _), box in words(picture).items():
        assert (
            page.x0 <= box.x0 and box.x1 <= page.x1 and page.y0 <= box.y0 and box.y1 <= page.y1
        ), text


@pytest.mark.parametrize("hand", ["right", "left"])
def test_board_one_lies_at_the_bowlers_own_side(picture, hand):
    """Common practice, no source: boards count from the side of the bowling hand.

    On the page the bowler stands at the left and looks to the right: the right hand is below.
    """
    picture.show(lane(hook("A"), hand=hand))
    for axes in (picture.lane, picture.last):
        one, last = (axes.transData.transform((50, board))[1] for board in (1, 39))
        assert (one < last) == (hand == "right")
        assert axes.transData.transform((41, 20))[0] < axes.transData.transform((60, 20))[0]


def test_pins_stand_where_the_rules_put_them(picture):
    """Published: USBC lane specifications (60 ft, 12 in).

    Back row 19.080 m: published, doi 10.1177/17479541241306543.
    """
    head, back = named(picture, "pin 1"), named(picture, "pin 10")
    assert head.center == (60.0, 20.0)
    assert back.center[0] == pytest.approx(19.080 / 0.3048, abs=FIVE_MILLIMETRES_FT)
    pins = np.array([named(picture, f"pin {number}").center for number in range(1, 11)])
    inches = pins * (12.0, 41.5 / 39)
    gaps = np.linalg.norm(inches[:, None] - inches[None, :], axis=2)
    nearest = np.sort(gaps, axis=1)[:, 1]
    assert nearest == pytest.approx(np.full(10, 12.0))
    assert gaps[6, 9] == pytest.approx(36.0)


def test_arrows_stand_in_a_v_on_every_fifth_board(picture):
    """Published: common to lane descriptions: boards 5 to 35, staggered 12 to 16 ft."""
    places = {
        board: named(picture, f"arrow {board}").get_xydata()[0]
        for board in (5, 10, 15, 20, 25, 30, 35)
    }
    far = {board: place[0] for board, place in places.items()}
    assert all(place[1] == board for board, place in places.items())
    assert all(12.0 <= distance <= 16.0 for distance in far.values())
    assert far[5] < far[10] < far[15] < far[20] > far[25] > far[30] > far[35]
    assert far[5] == far[35]


def test_the_pocket_is_the_published_window(picture):
    """Published: USBC (Ridenour, "3 pin 10 pin"): boards 17 to 18 at 4 to 6 degrees."""
    corners = named(picture, "pocket", picture.last).get_xy()
    at_pins = corners[corners[:, 0] == 60.0]
    assert {17.0, 18.0} == set(at_pins[:, 1])
    start = corners[corners[:, 0] < 60.0]
    rise = np.sort(((18.0, 17.0) - np.sort(start[:, 1])[::-1]) * 41.5 / 39)
    run = (60.0 - start[0, 0]) * 12.0
    assert np.degrees(np.arctan(rise / run)) == pytest.approx([4.0, 6.0])


def test_paths_and_marks_get_the_scenes_numbers(picture):
    scene = SCENES["usual"]
    picture.show(scene)
    for trace in scene.traces:
        path = named(picture, f"path {trace.label}").get_xydata()
        assert path == pytest.approx(np.column_stack([trace.distance_ft, trace.board]))
        mark = named(picture, f"breakpoint {trace.label}").get_xydata()[0]
        assert tuple(mark) == (trace.breakpoint[1], trace.breakpoint[0])
        for name, distance in (("length", trace.half_slip_ft), ("roll", trace.roll_ft)):
            assert named(picture, f"{name} {trace.label}").get_xdata()[0] == distance


def test_a_gutter_ball_ends_in_a_cross_and_the_word(picture):
    picture.show(SCENES["both in one gutter"])
    assert tuple(named(picture, "gutter A").get_xydata()[0]) == (45.0, 0.5)
    said = [text for text, _ in words(picture)]
    assert {"A gutter", "B gutter", "gutter at 45.0 ft", "gutter at 47.0 ft"} <= set(said)
    picture.show(SCENES["usual"])
    assert not named(picture, "gutter A").get_visible()
    assert not any("gutter" in text for text, _ in words(picture))


def test_artists_are_made_once(picture):
    picture.show(SCENES["usual"])
    before = len(picture.figure.findobj())
    for name in itertools.islice(itertools.cycle(SCENES), 50):
        picture.show(SCENES[name])
        picture.png()
    picture.show(SCENES["usual"])
    assert len(picture.figure.findobj()) == before


def test_same_scene_gives_the_same_bytes_whatever_came_before(picture):
    picture.show(SCENES["usual"])
    first = picture.png()
    picture.show(SCENES["backs up"])
    assert picture.png() != first
    picture.png(2)
    picture.show(SCENES["usual"])
    assert picture.png() == first
    fresh = LanePicture()
    fresh.show(SCENES["usual"])
    assert fresh.png() == first


def redrawn(picture):
    """The whole figure drawn anew by matplotlib itself."""
    raw = io.BytesIO()
    picture.figure.savefig(raw, format="rgba", dpi=100)
    size = picture.canvas.get_width_height()
    return Image.frombuffer("RGBA", size, raw.getvalue(), "raw", "RGBA", 0, 1).convert("RGB")


@pytest.mark.parametrize("name", ["usual", "left", "far gutter late"])
def test_the_quick_way_draws_what_a_full_redraw_draws(picture, name):
    picture.show(SCENES[name])
    quick, full = picture.image(), redrawn(picture)
    assert np.abs(np.asarray(ImageChops.difference(quick, full), dtype=int)).max() <= 2


def test_the_background_is_drawn_anew_only_for_another_lane_or_hand(picture):
    picture.show(lane(hook("A")))
    picture.image()
    kept = picture._backgrounds[1]
    picture.show(lane(hook("A", entry=12.0)))
    picture.image()
    assert picture._backgrounds[1] is kept
    for scene in (lane(hook("A"), thickest=3.0), lane(hook("A"), thickest=3.0, hand="left")):
        picture.show(scene)
        picture.image()
        assert picture._backgrounds[1] is not kept
        kept = picture._backgrounds[1]


@pytest.mark.parametrize("scene", SCENES.values(), ids=SCENES)
def test_the_last_feet_show_whatever_a_path_does_there(picture, scene):
    """Only the bowler's own half is stretched, and all boards when a path leaves that half."""
    picture.show(scene)
    low, high = sorted(picture.last.get_ylim())
    assert lane_frame.POCKET_BOARDS[1] + 5 < high
    for trace in scene.traces:
        there = trace.distance_ft >= 40.0
        assert np.all((low < trace.board[there]) & (trace.board[there] < high))


def test_the_last_feet_are_cropped_for_a_path_in_the_own_half(picture):
    picture.show(SCENES["usual"])
    assert np.ptp(picture.last.get_ylim()) < 0.7 * np.ptp(picture.lane.get_ylim())
    picture.show(SCENES["outermost boards"])
    assert np.ptp(picture.last.get_ylim()) == np.ptp(picture.lane.get_ylim())


def test_more_oil_is_darker(picture):
    picture.show(lane())
    image = picture.image().convert("L")
    height = image.height
    middle, outside, dry = (
        image.getpixel((int(x), height - int(y)))
        for x, y in (
            picture.lane.transData.transform(place)
            for place in ((2.0, 22.5), (2.0, 2.5), (50.0, 22.5))
        )
    )
    assert middle < outside and middle < dry


def test_the_words_hold_the_facts(picture):
    picture.show(SCENES["usual"])
    said = picture.describe()
    for fact in (
        "right-handed",
        "5.0 micrometres",
        "A (pin up)",
        "board 20.0",
        "board 7.0 at 38.0 ft",
        "length 35.0 ft",
        "rolls at 49.0 ft",
        "B (pin down)",
        "board 19.4",
        "4.9 degrees",
    ):
        assert fact in said
    picture.show(lane(gutter("A"), hand="left", thickest=0.0))
    said = picture.describe()
    for fact in (
        "left-handed",
        "No oil",
        "gutter at 45.0 ft",
        "does not roll before the gutter",
        "no length",
    ):
        assert fact in said
    picture.show(lane())
    assert "No path" in picture.describe()


def test_a_label_can_be_used_once(picture):
    with pytest.raises(ValueError, match="A, A"):
        lane(hook("A"), hook("A"))
    with pytest.raises(ValueError, match="C"):
        lane(hook("C"))
    with pytest.raises(ValueError, match="both"):
        lane(hook("A"), hand="both")


@pytest.mark.parametrize(
    ("ending", "start"), [("png", b"\x89PNG"), ("pdf", b"%PDF"), ("svg", b"<?xml")]
)
def test_saved_files_are_of_their_kind(picture, tmp_path, ending, start):
    picture.show(SCENES["usual"])
    picture.save(tmp_path / f"lane.{ending}")
    content = (tmp_path / f"lane.{ending}").read_bytes()
    assert content.startswith(start)
    if ending != "pdf":
        assert b"Lane for a right-handed bowler" in content


def test_inches_across_become_boards():
    """Published: USBC lane specifications: 39 boards on 41.5 in."""
    assert lane_frame.board_span(41.5) == 39.0


@pytest.mark.parametrize("scale", [1, 2])
def test_the_kept_palette_serves_what_comes_later(picture, scale):
    """A gutter's warning red and the page's white, though the palette was made without the red."""
    picture.show(lane(hook("A")))
    picture.png(scale)
    picture.show(SCENES["far gutter late"])
    true = np.asarray(picture.image(scale), dtype=int)
    shown = np.asarray(Image.open(io.BytesIO(picture.png(scale))).convert("RGB"), dtype=int)
    assert tuple(shown[0, 0]) == (255, 255, 255)
    off = np.abs(shown - true).max(axis=2)
    a_shade_hardly_seen, few_pixels = 24, 0.001
    assert np.mean(off > a_shade_hardly_seen) < few_pixels
