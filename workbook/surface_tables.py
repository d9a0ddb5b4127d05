"""Surfaces as rows of text: the abrasives, and A and B beside each other."""

from workbook import units
from workbook.abrasives import SERIES, abrasive_series
from workbook.friction_at import friction_under
from workbook.layout_tables import Table
from workbook.rating import rate
from workbook.setup import Setup
from workbook.surface_words import finish_words
from workbook.tables import shown

FILMS_UM = (0.5, 2.0)


def abrasives_table() -> Table:
    """Each grit's published grain, and what our law makes of it."""
    rows = []
    for one in abrasive_series():
        grain = "a maker's label" if one.grain_um is None else f"{one.grain_um:.1f}"
        ra = one.ra_um()
        share = "-" if one.grain_um is None else f"{100 * ra / one.grain_um:.1f} %"
        rows.append((one.name, grain, shown(ra, 2), f"{_microinches(ra):.0f}", share))
    head = (
        f"grit ({SERIES})", "mean grain [µm], published", "Ra of a cover [µm], assumption",
        "Ra [µin]", "Ra over grain",
    )  # fmt: skip
    return Table(head, tuple(rows))


def surfaces_table(setups: dict[str, Setup]) -> Table:
    """Surface, roughness, friction and rating, one column for each setup."""
    each = list(setups.values())
    ratings = [rate(one) for one in each]
    rows = [
        ("surface now", *(finish_words(one) for one in each)),
        ("Ra [µin]", *(f"{_microinches(one.surface.ra_um(one.assumptions)):.1f}" for one in each)),
        ("Rq of cover and lane together [µm]",
         *(shown(one.surface.combined_roughness_um(one.assumptions), 2) for one in each)),
        *(
            (words, *(
                shown(friction_under(film, one.surface, one.ball.cover, one.assumptions), 3)
                for one in each
            ))
            for words, film in (
                ("friction, dry", 0.0),
                *((f"friction, {film:g} µm of oil", film) for film in FILMS_UM),
            )
        ),
        ("length, reference lane [ft]", *(shown(one.length_ft, 1) for one in ratings)),
        ("hook, reference lane [boards]",
         *(shown(one.hook_potential_boards, 1) for one in ratings)),
    ]  # fmt: skip
    return Table(("", *setups), tuple(rows))


def _microinches(um: float) -> float:
    return um * units.MICROMETRE / units.MICROINCH
