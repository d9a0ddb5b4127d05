"""Exercises: data in, outcomes out; nothing anyone types is ever executed."""

import importlib
from typing import Any

__all__ = ["check", "exercise", "ids"]


def __getattr__(name: str) -> Any:
    """Load the catalogue when it is first asked for: keeping progress does without."""
    if name not in __all__:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    return getattr(importlib.import_module("workbook.practice.catalogue"), name)
