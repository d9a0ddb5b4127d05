"""Setup files: they come back equal, damage is named, and an older file is never lost."""

import copy
import json
import math
import os
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import workbook as wb
from tests.refusals.refusal import BALL, BOWLER, SETUP, examples, one_sentence, refused

SHOT = wb.Setup(**SETUP)
NO_THUMB = wb.Grip([
    wb.Hole(over_in=-0.6, up_in=2.5, diameter_in=0.96875, depth_in=1.75, name="Mitte"),
    wb.Hole(over_in=0.6, up_in=2.5, diameter_in=1, depth_in=1, insert_inner_in=0.75, name="ring"),
])  # fmt: skip
LEFT = wb.Setup(
    wb.Bowler(**BOWLER | {"hand": "left", "axis_rotation_deg": -20}),
    wb.Ball(weight_lb=12, rg_low_in=2.6, differential_in=0.01, cover="polyester"),
    wb.Layout(drilling_angle_deg=180, pin_to_pap_in=1 / 3, val_angle_deg=0),
    NO_THUMB,
    wb.Surface(polished=True),
    "Kugel «D», 左手",
    wb.Assumptions(mu_oil=0.05, kappa=0.53, track_width=0.1 + 0.2),
)
# Written by hand. Files of this form are out there: it can only be added to.
GOLDEN = (Path(__file__).parent / "setup_version_1.json").read_text(encoding="utf-8")
GOLD = wb.Setup(
    wb.Bowler(hand="left", pap_over_in=4.5, pap_up_in=-0.25, speed_mph=16.5, rev_rate_rpm=275,
              axis_rotation_deg=60, axis_tilt_deg=14),
    wb.Ball(weight_lb=14, rg_low_in=2.54, differential_in=0.04, cover="urethane"),
    wb.Layout(drilling_angle_deg=50, pin_to_pap_in=4, val_angle_deg=70),
    wb.Grip([wb.Hole(over_in=0, up_in=-2.5, diameter_in=1, depth_in=3, lateral_pitch_in=0.125,
                     name="thumb")]),
    wb.Surface(polished=True),
    "ball F",
)  # fmt: skip
PLAIN = json.loads(GOLDEN)


@pytest.fixture
def file(tmp_path):
    return tmp_path / "ball F.json"


def refused_file(file: Path, data: bytes | str | object, *parts: str) -> str:
    """Refuse to read a file of `data`, naming it and leaving it as it is."""
    if not isinstance(data, (bytes, str)):
        data = json.dumps(data)
    data = data.encode() if isinstance(data, str) else data
    file.write_bytes(data)
    text = refused(lambda: wb.Setup.from_json(file), file.name, *parts)
    assert file.read_bytes() == data
    return text


def read_or_refused(file: Path, data: bytes) -> wb.Setup | None:
    file.write_bytes(data)
    try:
        setup = wb.Setup.from_json(file)
    except wb.InputRefused as refusal:
        assert file.name in one_sentence(str(refusal))
        setup = None
    assert file.read_bytes() == data
    return setup


def edited(*path, **entries) -> dict:
    """The golden file's content with entries added in the group at `path`."""
    plain = copy.deepcopy(PLAIN)
    group = plain
    for step in path:
        group = group[step]
    group.update(entries)
    return plain


@pytest.mark.parametrize("setup", [SHOT, LEFT, GOLD], ids=lambda setup: setup.name)
def test_a_setup_comes_back_equal(setup, file):
    setup.to_json(file)
    again = wb.Setup.from_json(str(file))
    assert again == setup and repr(again) == repr(setup)
    first = file.read_bytes()
    again.to_json(file)
    assert file.read_bytes() == first


def test_the_written_form_of_version_1_stays(file):
    GOLD.to_json(file)
    assert file.read_bytes() == GOLDEN.encode()
    file.write_bytes(b"\xef\xbb\xbf" + GOLDEN.replace("\n", "\r\n").encode())
    assert wb.Setup.from_json(file) == GOLD


def test_what_has_a_default_may_be_left_out(file):
    plain = edited()
    del plain["assumptions"], plain["name"], plain["ball"]["filler_density_g_cm3"]
    del plain["surface"]["grit"], plain["grip"]["holes"][0]["insert_inner_in"]
    file.write_text(json.dumps(plain))
    assert wb.Setup.from_json(file) == wb.Setup(
        GOLD.bowler, GOLD.ball, GOLD.layout, GOLD.grip, GOLD.surface
    )


def test_a_file_cut_off_anywhere_is_refused_with_row_and_column(file):
    data = GOLDEN.rstrip().encode()
    for end in range(1, len(data), 7):
        refused_file(file, data[:end], "row ", "column ", "damaged")
    refused_file(file, b"", "row 1, column 1", "damaged")
    # 11 characters into the third line, by hand
    refused_file(file, GOLDEN[: GOLDEN.index('"version"') + 9], "row 3, column 12")


@given(st.lists(st.tuples(st.integers(0, len(GOLDEN) - 1), st.integers(0, 255)), min_size=1,
                max_size=4))  # fmt: skip
@examples(400)
def test_flipped_bytes_give_a_setup_or_a_sentence(tmp_path_factory, flips):
    data = bytearray(GOLDEN.encode())
    for place, byte in flips:
        data[place] = byte
    read_or_refused(tmp_path_factory.getbasetemp() / "flipped.json", bytes(data))


TREES = st.recursive(
    st.none() | st.booleans() | st.floats() | st.integers() | st.text(max_size=5),
    lambda inner: (
        st.lists(inner, max_size=3)
        | st.dictionaries(st.text(max_size=4) | st.sampled_from(list(PLAIN)), inner, max_size=3)
    ),
    max_leaves=8,
)


@given(st.data())
@examples(300)
def test_wrong_content_anywhere_gives_a_setup_or_a_sentence(tmp_path_factory, data):
    plain = group = copy.deepcopy(PLAIN)
    while True:
        key = data.draw(st.sampled_from(sorted(group) if isinstance(group, dict) else [0]))
        if isinstance(group[key], (dict, list)) and data.draw(st.booleans()):
            group = group[key]
        else:
            break
    group[key] = data.draw(TREES)
    file = tmp_path_factory.getbasetemp() / "wrong.json"
    read_or_refused(file, json.dumps(plain).encode())


@pytest.mark.parametrize(
    ("data", "parts"),
    [
        (GOLDEN.encode("utf-16"), ("row 1, character 1", "UTF-8")),
        (GOLDEN.encode("utf-16-le"), ("row 1, character 2", "UTF-8")),
        (GOLDEN.replace("ball F", "Küche").encode("latin-1"), ("row 48, character 13", "UTF-8")),
        (b"\0" * 5, ("row 1, character 1", "UTF-8")),
        ("[1, 2]", ("named values", "list")),
        ("null", ("named values", "None")),
        ("{}", ('format must be "bowling-ball setup"', "None")),
        (edited(format="lane table"), ("format", "'lane table'")),
        (edited(format=["bowling-ball setup"]), ("format", "list")),
        (edited(version=2), ("version 2", "newer than 1", "update")),
        (edited(version=10**30), ("version", "1e+30")),
        *(
            (edited(version=v), ("version must be a whole number from 1 up, not ", shown))
            for v, shown in [(0, "0"), (-1, "-1"), (True, "True"), ("1", "'1'"), (1.0, "1"),
                             (None, "None"), ([], "list"), (math.nan, "nan")]
        ),
        (edited(extra=1), ("unknown entry 'extra'",)),
        (edited("ball", maker="x"), ("F.json, ball has an unknown entry 'maker'",)),
        (edited("grip", span=1), ("F.json, grip has an unknown entry 'span'",)),
        (edited("grip", "holes", 0, x=1), ("F.json, grip, hole 1 has an unknown entry 'x'",)),
        (edited("ball", **{"\ud800\n": 1}), ("unknown entry",)),
        *(
            ({k: v for k, v in PLAIN.items() if k != part}, (f"{part} is missing",))
            for part in ("bowler", "ball", "layout", "grip", "surface")
        ),
        (edited(ball=None), ("F.json, ball must be a group of named values, not None",)),
        (edited(ball=[3]), ("F.json, ball must be a group of named values, not a list",)),
        (edited("grip", holes=None), ("F.json, grip: holes must be a list, not None",)),
        (edited("grip", holes={}), ("F.json, grip: holes must be a list, not a dict",)),
        (edited("grip", holes=[3]), ("F.json, grip, hole 1 must be a group", "not 3")),
        (edited("grip", "holes", 0, depth_in=None), ("F.json, grip, hole 1: hole depth is missing",
                                                     "0.25 to 4 in")),
        (edited("bowler", speed_mph=26), ("F.json, bowler: ball speed 26 mph is outside 8 to 25",)),
        (edited("bowler", speed_mph="fast"), ("F.json, bowler: ball speed must be", "'fast'")),
        (edited("bowler", speed_mph=math.nan), ("F.json, bowler: ball speed", "nan", "mph")),
        (edited("bowler", speed_mph=-math.inf), ("F.json, bowler: ball speed", "-inf", "mph")),
        (edited("bowler", speed_mph=10**999), ("F.json, bowler: ball speed", "8 to 25 mph")),
        (edited("bowler", speed_mph=True), ("F.json, bowler: ball speed", "True")),
        (edited("bowler", hand="both"), ("F.json, bowler: hand must be right or left", "'both'")),
        (edited("surface", polished=1), ("F.json, surface: ", "polished must be True or False")),
        (edited("assumptions", mu_oil=0.5), ("F.json, assumptions: oil friction 0.5 is outside",)),
        (edited(name=3), ("setup name must be text", "3")),
        (edited(name="a\nb"), ("setup name must be text", r"'a\nb'")),
        (GOLDEN.replace("16.5", "1" * 5000), ("F.json, bowler: ball speed", "inf", "mph")),
        (GOLDEN.replace("16.5", "1e999"), ("F.json, bowler: ball speed", "inf", "mph")),
        (GOLDEN.replace('"version": 1', '"version": ' + "9" * 5000), ("version", "inf")),
        (GOLDEN.replace('"pap_up_in"', '"pap_over_in"'), ("entry 'pap_over_in' twice",)),
        (GOLDEN.replace("{", '{"version": 1,', 1), ("entry 'version' twice",)),
        ("[" * 100_000, ("nested too deeply",)),
        ('{"a":' * 100_000, ("nested too deeply",)),
        (GOLDEN + "x", ("row 72, column 1", "damaged")),
        (GOLDEN.replace('"left"', "'left'"), ("row 5, column 13", "damaged")),
        (GOLDEN.replace("16.5", "16,5"), ("row 8, column 21", "damaged")),
    ],
)  # fmt: skip
def test_a_damaged_file_is_refused_with_the_place_of_the_damage(file, data, parts):
    refused_file(file, data, *parts)


def test_what_is_no_file_is_refused(tmp_path):
    refused(lambda: wb.Setup.from_json(tmp_path / "none.json"), "none.json", "cannot be read")
    refused(lambda: wb.Setup.from_json(tmp_path), tmp_path.name, "folder")
    refused(lambda: wb.Setup.from_json(tmp_path / ("x" * 300)), "xxx", "cannot be read")
    os.mkfifo(tmp_path / "pipe")  # reading it would wait for ever
    refused(lambda: wb.Setup.from_json(tmp_path / "pipe"), "pipe", "not a file")
    for bad in (None, 3, True, b"ball.json", "", ".", "/", "a\0b", [], math.nan):
        refused(lambda bad=bad: wb.Setup.from_json(bad), "name of a file")
        refused(lambda bad=bad: SHOT.to_json(bad), "name of a file")
    refused(lambda: wb.Setup.from_json("\ud800.json"), "cannot be read")
    (tmp_path / "two\nlines.json").write_text("[]")
    refused(lambda: wb.Setup.from_json(tmp_path / "two\nlines.json"), "two lines.json must be")


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_closed_places_are_refused(tmp_path):
    SHOT.to_json(tmp_path / "closed.json")
    (tmp_path / "closed.json").chmod(0)
    refused(lambda: wb.Setup.from_json(tmp_path / "closed.json"), "closed.json", "Permission")
    tmp_path.chmod(0o500)
    refused(lambda: SHOT.to_json(tmp_path / "new.json"), "new.json", "Permission")
    tmp_path.chmod(0o700)


def test_a_huge_file_is_refused_unread(file, monkeypatch):
    with file.open("wb") as out:
        out.truncate(100_000_000)
    monkeypatch.setattr("json.loads", lambda *_: pytest.fail("parsed"))
    refused(lambda: wb.Setup.from_json(file), "ball F.json", "100 MB is outside 0 to 1 MB")


@pytest.mark.parametrize("call", ["os.fsync", "os.replace"])
@pytest.mark.parametrize("older", [True, False])
def test_a_failed_writing_keeps_the_older_file_and_leaves_nothing(file, monkeypatch, call, older):
    if older:
        file.write_text(GOLDEN)

    def full(*_):
        raise OSError(28, "No space left on device")

    monkeypatch.setattr(call, full)
    refused(lambda: SHOT.to_json(file), "ball F.json", "cannot be written", "No space left")
    assert [p.name for p in file.parent.iterdir()] == ["ball F.json"] * older
    assert not older or file.read_text() == GOLDEN


def test_an_interrupted_writing_keeps_the_older_file_too(file, monkeypatch):
    file.write_text(GOLDEN)

    def interrupted(*_):
        raise KeyboardInterrupt

    monkeypatch.setattr("os.fsync", interrupted)
    with pytest.raises(KeyboardInterrupt):
        SHOT.to_json(file)
    assert [p.read_text() for p in file.parent.iterdir()] == [GOLDEN]


@pytest.mark.parametrize(
    "text",
    ["", "notes of mine", GOLDEN[:400], "[1]", json.dumps(edited(version=2)),
     json.dumps(edited("bowler", speed_mph=26)), json.dumps(edited(format="bowling-ball bowler"))],
)  # fmt: skip
def test_what_is_no_readable_setup_is_never_written_over(file, text):
    file.write_text(text)
    refused(lambda: SHOT.to_json(file), "ball F.json stays as it is, give another name")
    assert [p.read_text() for p in file.parent.iterdir()] == [text]


def test_places_that_cannot_be_written_are_refused(tmp_path):
    (tmp_path / "file").write_text("")
    (tmp_path / "folder").mkdir()
    for place in ("none/x.json", "file/x.json", "folder", "x" * 300, "\ud800.json"):
        refused(lambda place=place: SHOT.to_json(tmp_path / place), "cannot be written")
    assert sorted(p.name for p in tmp_path.rglob("*")) == ["file", "folder"]


def test_a_file_written_again_keeps_its_permissions(file):
    SHOT.to_json(file)
    assert file.stat().st_mode & 0o777 == 0o666 & ~_umask()
    file.chmod(0o640)
    SHOT.to_json(file)
    assert file.stat().st_mode & 0o777 == 0o640


def _umask() -> int:
    mask = os.umask(0)
    os.umask(mask)
    return mask


@given(
    st.builds(
        lambda values, name, hand: wb.Setup(**SETUP | {
            "bowler": wb.Bowler(**BOWLER | {"hand": hand, "speed_mph": values[0]}),
            "ball": wb.Ball(**BALL | {"top_weight_oz": values[1], "pin_to_cg_in": values[2]}),
            "name": name}),
        st.tuples(st.floats(8, 25), st.floats(-5, 5), st.floats(0, 6.75)),
        st.text(st.characters(exclude_categories=("Cc", "Cs", "Zl", "Zp")), max_size=60),
        st.sampled_from(["left", "right"]),
    )
)  # fmt: skip
@examples(60)
def test_any_setup_comes_back_equal(tmp_path_factory, setup):
    file = tmp_path_factory.getbasetemp() / "any.json"
    setup.to_json(file)
    assert wb.Setup.from_json(file) == setup
