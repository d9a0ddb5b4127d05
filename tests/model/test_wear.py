"""Wear over games (an assumption): by hand, its ends, and what it is worth."""

from dataclasses import replace

import pytest

import workbook as wb
from workbook import demo

UP, _DOWN = demo.pin_up_and_down()


def test_one_game_by_hand():
    """Ra 16 uin at 2000 grit, 16 / 2^0.65 = 10.197 when worn; a tenth of the way: 15.420 uin.

    That is 2000 (16 / 15.420)^(1 / 0.65) = 2117 grit.
    """
    assert wb.worn(wb.Surface(grit=2000), 1).surface.grit == pytest.approx(2117, abs=1)


@pytest.mark.parametrize("grit", [180, 500, 2000, 3500, 5000])
def test_toward_the_worn_finish_and_within_its_ends(grit):
    fresh = wb.Surface(grit=grit)
    assert wb.worn(fresh, 0).surface == fresh
    off = [abs(wb.worn(fresh, games).surface.ra_um() - wb.Surface(grit=4000).ra_um())
           for games in (0, 1, 3, 10, 100)]  # fmt: skip
    assert off == sorted(off, reverse=True) and off[-1] < 1e-4
    found = wb.worn(fresh, 8)
    assert found.roughest.grit <= found.surface.grit <= found.finest.grit


def test_a_polished_cover_stays():
    shiny = wb.Surface(polished=True)
    found = wb.worn(shiny, 30)
    assert found.surface == found.roughest == found.finest == shiny


def test_what_it_is_worth_is_rolled_again():
    dull = replace(UP, surface=wb.Surface(grit=500))
    worth = wb.wear_worth(dull, 6)
    before, after = wb.rate(dull), wb.rate(replace(dull, surface=worth.worn.surface))
    assert worth.length_ft[0] == pytest.approx(after.length_ft - before.length_ft)
    assert worth.hook_boards[0] == pytest.approx(
        after.hook_potential_boards - before.hook_potential_boards
    )
    # smoother: later and less hook, whatever the assumption's end
    assert 0 < worth.length_ft[1] < worth.length_ft[0] < worth.length_ft[2]
    assert worth.hook_boards[1] < worth.hook_boards[0] < worth.hook_boards[2] < 0


@pytest.mark.parametrize(
    ("given", "words"),
    [((3, 1), "surface must be a Surface"), ((wb.Surface(grit=500), -1), "number of games -1"),
     ((wb.Surface(grit=500), 101), "outside 0 to 100")],
)  # fmt: skip
def test_what_cannot_be_is_refused(given, words):
    with pytest.raises(wb.InputRefused, match=words):
        wb.worn(*given)
