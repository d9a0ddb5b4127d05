"""Base of all input records: fields that know their name, unit and limits, checked on creation.

The same declaration serves the refusals, the setup files, the sliders and the glossary, so that a
limit is written once.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, fields
from typing import Any

from workbook import errors, sources

Required: Any = None  # a missing input is refused in words, so it needs a default to arrive there


def quantity(
    words: str,
    unit: str,
    low: float,
    high: float,
    default: Any = Required,
    *,
    optional: bool = False,
) -> Any:
    """Field for a number: its name in words, unit, limits [unit], and default.

    An `optional` one may stay None, which then has a meaning of its own.
    """
    meta = {"words": words, "unit": unit, "low": low, "high": high, "optional": optional}
    return field(default=default, metadata=meta)


def assumed(key: str, words: str) -> Any:
    """Field for an assumption: value, unit and range come from the registry of sources."""
    fact = sources.FACTS[key]
    low, high = fact.range
    unit = "" if fact.unit == "1" else fact.unit
    return quantity(words, unit, low, high, fact.value)


def word(words: str, allowed: tuple[str, ...], default: Any = Required) -> Any:
    """Field for one of a few words."""
    return field(default=default, metadata={"words": words, "allowed": allowed})


def part(words: str, kind: Callable[[], type]) -> Any:
    """Field for another record; `kind` returns its class."""
    return field(default=Required, metadata={"words": words, "kind": kind})


@dataclass(frozen=True)
class Inputs:
    """Checks each declared field when the record is made; numbers become floats.

    Raises
    ------
    InputRefused
        One sentence with the quantity, the value, the unit and the limits.
    """

    def __post_init__(self) -> None:
        for f in fields(self):
            value, meta = getattr(self, f.name), f.metadata
            if "unit" in meta:
                if value is None and meta["optional"]:
                    continue
                checked = errors.number(
                    meta["words"], value, meta["unit"], meta["low"], meta["high"]
                )
                object.__setattr__(self, f.name, checked)
            elif "allowed" in meta:
                errors.choice(meta["words"], value, meta["allowed"])
            elif "kind" in meta:
                errors.instance(meta["words"], value, meta["kind"]())
            elif f.type in ("str", str):
                errors.text(self._words(f.name), value)
            elif f.type in ("bool", bool):
                errors.instance(self._words(f.name), value, bool)

    def _words(self, name: str) -> str:
        return f"{type(self).__name__.lower()} {name}"


def limits(record: type[Inputs], name: str) -> tuple[float, float, str]:
    """Return (low, high, unit) of the number `name` of an input record."""
    meta = record.__dataclass_fields__[name].metadata
    return meta["low"], meta["high"], meta["unit"]
