"""Numbers as people type them: 4 1/2, 4½, 4.5, 4,5, with or without a unit written behind."""

import re

from workbook.errors import MOST_LETTERS, InputRefused, shown

UNITS = {
    "in": ("in", "in.", "inch", "inches", '"', "″", "”", "''"),
    "ft": ("ft", "ft.", "foot", "feet", "'", "′", "’"),
    "s": ("s", "sec", "sec.", "second", "seconds"),
    "mph": ("mph",),
    "rpm": ("rpm",),
    "deg": ("deg", "deg.", "degree", "degrees", "°"),
    "boards": ("board", "boards"),
    "lb": ("lb", "lb.", "lbs", "pound", "pounds"),
    "oz": ("oz", "oz.", "ounce", "ounces"),
    "grit": ("grit",),
    "µm": ("µm", "μm", "um", "micrometre", "micrometres", "micrometer", "micrometers"),
    "%": ("%", "percent", "per cent"),
}
NO_UNIT = "no unit"
LIKE = "write it like 4 1/2, 4.5 or -1/4"
MOST_DIGITS = 15
# other minus signs and fraction strokes that keyboards and phones put in, and fractions of one sign
_PLAIN = str.maketrans({"−": "-", "–": "-", "⁄": "/"} | {
    sign: f" {top}/{bottom}" for sign, top, bottom in (
        ("½", 1, 2), ("¼", 1, 4), ("¾", 3, 4), ("⅛", 1, 8), ("⅜", 3, 8), ("⅝", 5, 8), ("⅞", 7, 8),
        ("⅓", 1, 3), ("⅔", 2, 3),
    )
})  # fmt: skip
_FORM = re.compile(
    r"(?P<sign>[+-]?) ?"
    r"((?:(?P<whole>[0-9]+)[ -])?(?P<top>[0-9]+)/(?P<bottom>[0-9]+)"
    r"|(?P<decimal>[0-9]+[.,]?[0-9]*|[.,][0-9]+))"
    r" ?(?P<unit>[^0-9+/,;-]*)"
)


def number_from(text: str, unit: str = "") -> float:
    """Return what was typed as a number.

    Whole numbers, decimals with a point or a comma (never a sign of thousands), fractions, whole
    numbers with a fraction behind (4 1/2, 4½, 4-1/2), a sign before, a unit behind.

    Parameters
    ----------
    text : str
    unit : str
        "", `NO_UNIT` or a key of `UNITS`.
        The only unit that may be written behind the number; with "" any of them may, with
        `NO_UNIT` none. Nothing is converted.

    Raises
    ------
    InputRefused
        Anything else.
    """
    _check_text(text)
    plain = " ".join(text.translate(_PLAIN).split())
    found = _FORM.fullmatch(plain)
    if not found or sum(letter.isdigit() for letter in plain) > MOST_DIGITS:
        raise InputRefused(f"{shown(text)} is no number: {LIKE}.")
    _check_unit(text, found["unit"], unit)
    if found["decimal"]:
        value = float(found["decimal"].replace(",", "."))
    else:
        top, bottom = int(found["top"]), int(found["bottom"])
        if bottom == 0 or (found["whole"] and top >= bottom):
            raise InputRefused(f"{shown(text)} has no fraction that can be: {LIKE}.")
        value = int(found["whole"] or 0) + top / bottom
    return -value if found["sign"] == "-" and value else value


def pair_from(text: str, unit: str = "") -> tuple[float, float]:
    """Return two numbers typed on a line, with a comma, a semicolon or a tab between them.

    Raises
    ------
    InputRefused
        Not two numbers, or commas that could be read in two ways.
    """
    _check_text(text)
    signs = next((sign for sign in (";", "\t") if sign in text), ",")
    found = []
    for place, letter in enumerate(text):
        if letter != signs:
            continue
        try:
            found.append((number_from(text[:place], unit), number_from(text[place + 1 :], unit)))
        except InputRefused:
            continue
    if not found:
        raise InputRefused(f"{shown(text)} is not two numbers: write them like 4 1/2, -1/4.")
    if len(found) > 1:
        raise InputRefused(f"{shown(text)} can be read in two ways: put a semicolon between.")
    return found[0]


def _check_text(text: object) -> None:
    if not isinstance(text, str):
        raise InputRefused(f"what is typed must be text, not {shown(text)}.")
    if len(text) > MOST_LETTERS:
        raise InputRefused(f"{shown(text)} is longer than {MOST_LETTERS} letters: {LIKE}.")


def _check_unit(text: str, written: str, wanted: str) -> None:
    if not written:
        return
    if wanted == NO_UNIT:
        allowed: tuple[str, ...] = ()
    else:
        allowed = UNITS[wanted] if wanted else tuple(sum(UNITS.values(), ()))
    if written.strip().lower() not in allowed:
        said = f'with "{wanted}" or without a unit' if wanted in UNITS else "without a unit"
        raise InputRefused(f"{shown(text)} has a unit that is not known here: write it {said}.")
