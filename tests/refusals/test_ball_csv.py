"""Tables of balls: what is read, that each broken one is refused, and that nothing is lost."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

import workbook as wb
from tests.refusals.refusal import BALL, accepted, examples, refused, refused_or
from workbook import demo
from workbook.ball_csv import COLUMNS, add_ball

HEADER = "name,ball weight [lb],low RG [in],differential [in],cover"
GOOD = f"# mine\n{HEADER}\nold one,15,2.54,0.045,reactive\nshiny,14.5,2.6,0.03,urethane\n"
FULL = wb.Ball(**BALL)


@pytest.fixture
def file(tmp_path):
    return tmp_path / "mine.csv"


def read(file, data):
    file.write_bytes(data.encode() if isinstance(data, str) else data)
    return accepted(lambda: wb.read_balls(file))


def test_a_table_by_hand_is_read(file):
    balls = read(file, GOOD)
    assert list(balls) == ["old one", "shiny"]
    assert balls["old one"] == wb.Ball(
        weight_lb=15, rg_low_in=2.54, differential_in=0.045, cover="reactive"
    )
    assert (balls["shiny"].weight_lb, balls["shiny"].cover) == (14.5, "urethane")


@pytest.mark.parametrize(
    "data",
    [
        GOOD.replace("\n", "\r\n"), GOOD.replace("\n", "\r"), b"\xef\xbb\xbf" + GOOD.encode(),
        GOOD.replace("# mine", '"# mine, all of them",,,,,'), GOOD.replace("\n", ",,\n"),
        GOOD.replace("old one", '" old one "').replace("0.045", " +4.5e-2"),
        GOOD.replace("\n", "\n,,,,\n\n# note\n"),
        "differential [in],cover,name,low RG [in],ball weight [lb]\n0.045,reactive,old one,2.54,15"
        "\n0.03,urethane,shiny,2.6,14.5",
    ],
)  # fmt: skip
def test_harmless_differences_are_read_the_same(file, data):
    assert read(file, data) == read(file, GOOD)


def row(cells, header=HEADER):
    return f"{header}\n{cells}\n"


@pytest.mark.parametrize(
    ("data", "parts"),
    [
        ("", ("empty", "must name the columns")),
        ("# words\n", ("empty",)),
        (row("a,15,2.5,0.05,reactive", HEADER.replace("[lb]", "[kg]")),
         ("row 1", "unknown column 'ball weight [kg]'", "'ball weight [lb]'")),
        (row("a,15,2.5,0.05,reactive,1", HEADER + ",price"), ("row 1", "'price'")),
        (row("a,15,2.5,0.05,reactive,1", HEADER + ",cover"), ("row 1", "'cover' twice")),
        (row("a,15,2.5,0.05,reactive", HEADER.replace(",low RG [in]", "")),
         ("row 1", "'low RG [in]' is missing")),
        (row("15,2.5,0.05,reactive", HEADER[5:]), ("row 1", "'name' is missing")),
        (GOOD.replace(",", ";"), ("row 2", "commas, not by semicolons")),
        (row(",15,2.5,0.05,reactive"), ("row 2, column name is missing",)),
        (row("a,,2.5,0.05,reactive"), ("row 2, column ball weight [lb] is missing", "6 to 16 lb")),
        (row("a,15,2.5,0.05"), ("row 2, column cover is missing", "polyester")),
        (row("a,15,2.5,0.05,leather"), ("row 2, column cover must be", "'leather'")),
        (row("a,heavy,2.5,0.05,reactive"), ("column ball weight [lb] must be", "'heavy'")),
        (row("a,15,nan,0.05,reactive"), ("row 2, column low RG [in] must be", "2.4 to 2.85 in")),
        (row("a,15,2.9,0.05,reactive"), ("column low RG [in]: 2.9 in is outside 2.4 to 2.85 in",)),
        (row("a,15,2,5,0.05,reactive"), ("row 2 has 6 columns, not 5", "point")),
        (row("a,15,2.5,0.02,reactive,0.03", HEADER + ",intermediate differential [in]"),
         ("row 2: intermediate differential 0.03 in is outside 0 to 0.02 in",)),
        (GOOD.replace("shiny", "old one"), ("row 4, column name", "'old one'", "row 3")),
        (row("x" * 61 + ",15,2.5,0.05,reactive"), ("row 2, column name", "61 letters")),
        (row('a,15,2.5,0.05,"reactive'), ("row 2 cannot be split",)),
        (GOOD.encode("utf-16"), ("row 1", "UTF-8")),
    ],
)  # fmt: skip
def test_a_broken_table_is_refused_with_its_place(file, data, parts):
    refused(lambda: read(file, data), "mine.csv", *parts)


@given(st.lists(st.tuples(st.integers(0, len(GOOD)), st.integers(0, 4),
                          st.sampled_from([b"", b",", b"\n", b'"', b"#", b"-", b"9", b"nan",
                                           b"\0", b"\xff", b"]", b";"])), max_size=3))  # fmt: skip
@examples(200)
def test_a_mutated_table_gives_balls_or_a_sentence(tmp_path_factory, cuts):
    data, file = GOOD.encode(), tmp_path_factory.getbasetemp() / "mine.csv"
    for at, taken, put in cuts:
        data = data[:at] + put + data[at + taken :]
    refused_or(lambda: read(file, data), dict)


def test_what_is_written_comes_back(file):
    odd = {"third, of a pound": wb.Ball(**BALL | {"weight_lb": 15 + 1 / 3}), 'a "b" ü': FULL}
    wb.write_balls(file, odd, comment="two lines\nof mine")
    assert file.read_text().startswith("# two lines\n# of mine\nname,ball weight [lb],")
    assert wb.read_balls(file) == odd
    wb.write_balls(file, {})
    assert wb.read_balls(file) == {}


@pytest.mark.parametrize("name", ["", " a", "a ", "#a", "a\nb", "x" * 61, 3, None])
def test_a_name_that_could_not_be_read_again_is_refused(file, name):
    refused(lambda: wb.write_balls(file, {name: FULL}), "name of a ball")
    assert not file.exists()


def test_what_is_no_ball_or_no_file_is_refused(file, tmp_path):
    refused(lambda: wb.write_balls(file, [FULL]), "balls")
    refused(lambda: wb.write_balls(file, {"a": 3}), "ball 'a'")
    refused(lambda: wb.read_balls(file), "mine.csv", "cannot be read")
    refused(lambda: wb.read_balls(None), "name of a file")
    refused(lambda: wb.write_balls(tmp_path / "no" / "x.csv", {}), "cannot be written")


def test_an_older_file_is_kept_where_it_must_be(file, monkeypatch):
    wb.write_balls(file, {"a": FULL})
    before = file.read_bytes()
    refused(lambda: wb.write_balls(file, {}, overwrite=False), "there already")
    monkeypatch.setattr("os.replace", lambda *_: (_ for _ in ()).throw(OSError(28, "No space")))
    refused(lambda: wb.write_balls(file, {}), "No space")
    assert [p.read_bytes() for p in file.parent.iterdir()] == [before]
    file.write_text("a letter to a friend")
    refused(lambda: wb.write_balls(file, {"a": FULL}), "mine.csv row 1")
    refused(lambda: add_ball(file, "a", FULL), "mine.csv row 1")
    assert file.read_text() == "a letter to a friend"


def test_a_ball_is_added_and_replaced_only_knowingly(file):
    file.write_text(GOOD + '"# last, words",,\n')
    add_ball(file, "full", FULL)
    refused(lambda: add_ball(file, "shiny", FULL), "another ball 'shiny'", "another name")
    assert wb.read_balls(file) == {**read(file.with_name("good.csv"), GOOD), "full": FULL}
    add_ball(file, "shiny", FULL, replace=True)
    add_ball(file, "shiny", FULL)
    assert wb.read_balls(file)["shiny"] == FULL
    assert file.read_text().startswith("# mine\n# last, words\nname,")


def test_the_clinics_balls(recwarn):
    """Invented by us; what a dozen should spread over is from the clinic's description."""
    balls = demo.balls()
    assert [name[:6] for name in balls] == [f"ball {letter}" for letter in "ABCDEFGHIJKL"]
    assert balls["ball C, mild"] == demo.ball()
    assert not any(issubclass(w.category, wb.LegalLimit) for w in recwarn)
    assert {ball.cover for ball in balls.values()} == {"polyester", "urethane", "reactive"}
    assert sum(ball.weight_lb < 14 for ball in balls.values()) == 2
    assert 2 < sum(ball.asymmetric for ball in balls.values()) < 8
    text = Path(demo.__file__).with_name("clinic_balls.csv").read_text()
    assert text.startswith("# ") and "invented" in text.split("\n")[0]
    assert all(column in text for column in COLUMNS)
