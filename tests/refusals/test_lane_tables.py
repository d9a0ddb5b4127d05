"""Lane tables: what is read, and that each broken one is refused with file, row and column."""

import os
from pathlib import Path

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

import workbook as wb
from tests.refusals.refusal import examples, one_sentence, refused
from workbook import lane_csv

EXAMPLES = Path(__file__).parents[2] / "notebooks" / "lanes"
ROUNDING = 0.005 + 1e-9  # units; tables have two decimals
HEADER = "distance_ft," + ",".join(str(board) for board in range(1, 40))


def row(distance, films=1, board=None, cell=None) -> str:
    """A row of the same film on all boards but one."""
    cells = [str(films)] * 39
    if board is not None:
        cells[board - 1] = cell
    return ",".join([str(distance), *cells])


def table(*rows: str, header: str = HEADER, end: str = "\n") -> str:
    return end.join(["# an invented lane", header, *rows]) + end


GOOD = table(row(0, 10), row(2.5, 5), row(5, 0), row(20, 0.5))


@pytest.fixture
def file(tmp_path):
    return tmp_path / "mine.csv"


def read(file: Path, data: str | bytes) -> wb.Lane:
    file.write_bytes(data.encode() if isinstance(data, str) else data)
    return wb.Lane.from_csv(file)


def test_the_film_runs_straight_between_rows_and_ends_after_the_last(file):
    lane = read(file, GOOD)
    assert lane.name == "mine"
    # by hand: 10 to 5 within 2.5 ft, 5 to 0 within 2.5 ft, 0 to 0.5 within 15 ft, then none
    expected = {0: 10, 1: 8, 2: 6, 3: 4, 4: 2, 5: 0, 8: 0.1, 14: 0.3, 20: 0.5, 21: 0, 60: 0}
    for feet, units in expected.items():
        assert lane.units_table[feet] == pytest.approx(np.full(39, units), abs=1e-12)
    lane = read(file, table(row(0, 10), row(3.5, 3)))
    assert lane.units_table[[0, 1, 3, 4], 20] == pytest.approx([10, 8, 4, 0])


def test_board_1_is_the_first_column(file):
    lane = read(file, table(row(0, 1, 1, "7"), row(10, 1, 39, "9")))
    assert lane.units_table[0, 0] == pytest.approx(7) and lane.units_table[0, 38] == 1
    assert lane.units_table[10, 38] == pytest.approx(9)


def test_limits_are_allowed(file):
    lane = read(file, table(row(0, 200), row(60, 0)))
    assert lane.units_table[0, 0] == pytest.approx(200) and lane.length_ft == 59


@pytest.mark.parametrize(
    "data",
    [
        GOOD.replace("\n", "\r\n"),
        GOOD.replace("\n", "\r"),
        b"\xef\xbb\xbf" + GOOD.encode(),
        GOOD.rstrip("\n"),
        GOOD.replace("\n", "\n\n \n" + "," * 39 + "\n# a comma, a \"quote, a bell é\n"),
        GOOD.replace("# an", '"# an, invented lane",,,\n# an'),
        GOOD.replace("distance_ft,1,2", '"distance_ft", 1 ,"2"'),
        GOOD.replace("0,10,", "0,+1.0e1, "),
        GOOD.replace("0,10,", "0, 10.,"),
        GOOD.replace("0.5,", '".5",'),
    ],
)  # fmt: skip
def test_harmless_differences_are_read_the_same(file, data):
    assert np.array_equal(read(file, data).film_um, read(file, GOOD).film_um)


FIRST = "the first row must be distance_ft,1,2,...,39"


@pytest.mark.parametrize(
    ("data", "parts"),
    [
        ("", ("empty", FIRST)),
        ("\n\n# only words\n", ("empty", FIRST)),
        (table(), ("0 rows", "2")),
        (table(row(0)), ("1 rows", "2")),
        (table(row(0), row(1), header=HEADER[:-3]), ("row 2", FIRST)),
        (table(row(0), row(1), header=HEADER + ",40"), ("row 2", FIRST)),
        (table(row(0), row(1), header="feet" + HEADER[11:]), ("row 2", "'feet,1,")),
        (table(row(0), row(1), header=HEADER.replace(",", ";")), ("row 2", FIRST)),
        ("\n" + row(0), ("row 2", FIRST, "'0,1,1,")),
        ("x" * 5000, ("row 1", FIRST)),
        (table(row(0), row(1) + ",1"), ("row 4 has 41 columns, not 40", "39 boards")),
        (table(row(0), row(1)[:-2]), ("row 4 has 39 columns, not 40",)),
        (table(row(0), "", "# x", row(1)[:-2]), ("row 6 has 39 columns",)),
        (table(row(0), row(1), end="\r\n\r\n")[:-6], ("row 7 has 39 columns",)),
        (table(row(0), row(1, 1, 7, "")), ("row 4, column 7 is missing", "0 to 200 units")),
        (table(row(0), row("")), ("row 4, column distance_ft is missing", "0 to 60 ft")),
        *(
            (table(row(0), row(1, 1, 12, cell)), ("row 4, column 12", shown, "0 to 200 units"))
            for cell, shown in [
                ("wet", "'wet'"), ("nan", "'nan'"), ("inf", "'inf'"), ("1_0", "'1_0'"),
                ("0x1", "'0x1'"), ("١", "'١'"), ("1 0", "'1 0'"), ("1.2.3", "'1.2.3'"),
                ("--1", "'--1'"), ("e5", "'e5'"), ("-0.01", "-0.01 units is outside"),
                ("200.01", "200.01 units is outside"), ("1e999", "inf units is outside"),
                ("200.00000000000003", "200.00000000000003 units"), ("1" * 400, "inf units"),
                ("-1e400", "-inf units"), ("x" * 9000, "'xxx"), ("4;5", "'4;5'"),
            ]
        ),
        (table(row(0), row(1, "0,5")), ("row 4 has 79 columns",)),
        (table(row(0.5), row(1)), ("row 3, column distance_ft: 0.5 ft must be 0 ft",)),
        (table(row(0), row(60.5)), ("row 4, column distance_ft: 60.5 ft", "0 to 60 ft")),
        (table(row(0), row(-1)), ("row 4, column distance_ft: -1 ft", "0 to 60 ft")),
        (table(row(0), row("far")), ("row 4, column distance_ft must be", "'far'", "0 to 60 ft")),
        (table(row(0), row(9), row(9)), ("row 5, column distance_ft: 9 ft", "more than 9 ft")),
        (table(row(0), row(9), "#", row(8)), ("row 6, column distance_ft: 8 ft", "than 9 ft")),
        (table(row(0), row(1, 1, 5, '"1')), ("row 4 cannot be split into cells",)),
        (table(row(0), row(1, 1, 5, '"1"2')), ("row 4 cannot be split into cells",)),
        (table(row(0), row(1, 1, 5, "1" * 200_000)), ("row 4 cannot be split", "131072")),
        (GOOD.encode("utf-16"), ("row 1, character 1", "UTF-8")),
        (GOOD.encode("utf-16-le"), ("row 1, character 2", "UTF-8")),
        (table(row(0), "# Öl", row(1)).encode("latin-1"), ("row 4, character 3", "UTF-8")),
        (table(row(0), "# Öl", row(1), end="\r").encode("latin-1"), ("row 4, character 3",)),
        (GOOD.replace("2.5,5", "2.5\0,5"), ("row 4, character 4", "UTF-8")),
    ],
)  # fmt: skip
def test_a_broken_table_is_refused_with_its_place(file, data, parts):
    refused(lambda: read(file, data), "mine.csv", *parts)


def test_what_is_no_table_is_refused(tmp_path, file):
    refused(
        lambda: wb.Lane.from_csv(file),
        "mine.csv",
        "cannot be read",
        "there is no such file or folder",
    )
    refused(lambda: wb.Lane.from_csv(tmp_path), tmp_path.name, "folder")
    with file.open("wb") as out:
        out.truncate(100_000_000)
    refused(lambda: wb.Lane.from_csv(file), "mine.csv", "100 MB is outside 0 to 1 MB")
    assert file.stat().st_size == 100_000_000
    os.mkfifo(tmp_path / "pipe")
    refused(lambda: wb.Lane.from_csv(tmp_path / "pipe"), "pipe", "not a file")
    for bad in (None, 3, b"house.csv", "", [], "a\0b"):
        refused(lambda bad=bad: wb.Lane.from_csv(bad), "name of a file")


def read_or_refused(data: bytes, file: Path) -> None:
    file.write_bytes(data)
    try:
        lane = wb.Lane.from_csv(file)
    except wb.InputRefused as refusal:
        assert "mine.csv" in one_sentence(str(refusal))
    else:
        assert np.all(lane.units_table >= 0) and np.all(lane.units_table <= 200 + 1e-9)
    assert file.read_bytes() == data


@given(st.binary(max_size=300), st.booleans())
@examples(300)
def test_random_bytes_give_a_lane_or_a_sentence(tmp_path_factory, data, below_a_header):
    start = f"{HEADER}\n".encode() if below_a_header else b""
    read_or_refused(start + data, tmp_path_factory.getbasetemp() / "mine.csv")


PIECE = st.sampled_from(
    [b"", b",", b"\n", b"\r", b'"', b"#", b"-", b".", b"9", b"e9", b"nan", b" ", b"\0", b"\xff"]
) | st.binary(max_size=3)  # fmt: skip


@given(st.lists(st.tuples(st.integers(0, len(GOOD)), st.integers(0, 3), PIECE), min_size=1,
                max_size=3))  # fmt: skip
@examples(400)
def test_a_mutated_table_gives_a_lane_or_a_sentence(tmp_path_factory, cuts):
    data = GOOD.encode()
    for at, taken, put in cuts:
        data = data[:at] + put + data[at + taken :]
    read_or_refused(data, tmp_path_factory.getbasetemp() / "mine.csv")


LANES = [wb.Lane.house(), wb.Lane.flat(), wb.Lane.heavy(), wb.Lane.dry()]


@pytest.mark.parametrize("lane", LANES, ids=lambda lane: lane.name)
def test_a_written_lane_comes_back(file, lane):
    lane_csv.write(file, lane.units_table, "invented\nby us, for this test")
    assert file.read_text().startswith("# invented\n# by us, for this test\ndistance_ft,1,")
    again = wb.Lane.from_csv(file)
    assert again.units_table == pytest.approx(lane.units_table, abs=ROUNDING)
    assert again.length_ft == lane.length_ft


@pytest.mark.parametrize("lane", LANES, ids=lambda lane: lane.name)
def test_the_example_files_are_our_lanes_and_say_that_they_are_invented(lane):
    example = EXAMPLES / f"{lane.name}.csv"
    assert "invented" in example.read_text().split("\n")[0]
    again = wb.Lane.from_csv(example)
    assert again.name == lane.name
    assert again.units_table == pytest.approx(lane.units_table, abs=ROUNDING)


def test_lanes_with_hardly_any_oil_can_be_written_too(file):
    for feet in (None, 0, 60):
        units = np.zeros((61, 39))
        if feet is not None:
            units[feet] = 1.25
        lane_csv.write(file, units, "invented")
        assert np.array_equal(np.round(wb.Lane.from_csv(file).units_table, 9), units)


def test_a_failed_writing_keeps_the_older_table(file, monkeypatch):
    def full(*_):
        raise OSError(28, "No space left on device")

    file.write_text("older")
    monkeypatch.setattr("os.replace", full)
    refused(lambda: lane_csv.write(file, LANES[0].units_table, "new"), "mine.csv", "No space left")
    assert [p.read_text() for p in file.parent.iterdir()] == ["older"]
