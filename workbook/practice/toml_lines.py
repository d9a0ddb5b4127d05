"""In which line of a TOML file a value stands: the standard reader does not say."""

import re

_HEAD = re.compile(r"\s*(\[\[?)\s*([\w.\-]+)\s*\]\]?")
_KEY = re.compile(r"\s*([\w\-]+)\s*=")
_QUOTES = re.compile(r'"""|\'\'\'')
Place = tuple[str | int, ...]


def lines_of(text: str) -> dict[Place, int]:
    """Return the line of each table and key, such as ("wrong", 1, "coaching"), counted from 1.

    Of keys written the usual way, one in a line under the table's own head; others are left out.
    """
    found: dict[Place, int] = {}
    counts: dict[Place, int] = {}
    table: Place = ()
    inside = ""  # the quotes of a text over several lines
    for line, words in enumerate(text.split("\n"), 1):  # no other sign ends a line in TOML
        if not inside and words.lstrip().startswith("#"):
            continue
        if not inside:
            if head := _HEAD.match(words):
                table = _table(head[2].split("."), head[1] == "[[", counts)
                found.setdefault(table, line)
            elif key := _KEY.match(words):
                found.setdefault((*table, key[1]), line)
        for quotes in _QUOTES.findall(words):
            if not inside:
                inside = quotes
            elif inside == quotes:
                inside = ""
    return found


def _table(names: list[str], repeated: bool, counts: dict[Place, int]) -> Place:
    place: Place = ()
    for name in names[:-1]:
        place = (*place, name)
        if place in counts:
            place = (*place, counts[place])
    place = (*place, names[-1])
    if not repeated:
        return place
    counts[place] = counts.get(place, -1) + 1
    return (*place, counts[place])


def nearest(found: dict[Place, int], place: Place) -> int:
    """Return the line of `place`, or of the table it lies in; 1 if neither is known."""
    while place:
        if place in found:
            return found[place]
        place = place[:-1]
    return 1
