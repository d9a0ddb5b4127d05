"""Reading one exercise from its TOML file, or saying what is wrong with it and in which line."""

import re
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from workbook import text_file
from workbook.errors import one_line, shown
from workbook.practice.braces import check_braces, check_name
from workbook.practice.calculations import PERMITTED, Call
from workbook.practice.exercise import (
    KINDS,
    MARKS,
    RULES,
    Choice,
    Draw,
    Exercise,
    Lever,
    Number,
    Sheet,
    Target,
    Value,
    Wrong,
)
from workbook.practice.setups import OF_LINE, lane_from, setup_from, split_line
from workbook.practice.toml_lines import Place
from workbook.practice.toml_reader import TomlReader, load

FORM = 1
ID = re.compile(r"[0-9]{2}_[a-z_]{1,24}/[a-z0-9_]{1,32}")
MOST_CALLS = 100
"""Calculations in one file: with them all in each of 50 variants, a check still ends."""
ALWAYS = (
    "form", "id", "title", "kind", "level", "teaches", "prompt", "hints", "explanation", "mark",
    "source",
)  # fmt: skip
PICTURES = ("balls", "lane", "curves", "spec", "surface")
SOMETIMES = ("caution", "picture", "draw")
OF_KIND = {
    "number": ("answer", "wrong"),
    "choice": ("choices",),
    "predict": ("choices", "look"),
    "order": ("items", "wrong"),
    "target": ("target", "wrong"),
    "words": ("points", "example", "wrong"),
    "drill": ("steps", "sheet"),
}


def read(file: Path) -> Exercise:
    """Return the exercise in `file`.

    Raises
    ------
    InputRefused
        Not readable, not TOML, or not of the form: says what and, where it can, in which line.
    """
    return parse(text_file.read(file), one_line(file.name))


def parse(text: str, name: str) -> Exercise:
    """Return the exercise that is written in `text`, from a file called `name`.

    Raises
    ------
    InputRefused
        As `read`.
    """
    return _ExerciseReader(name, text).exercise(load(text, name))


class _ExerciseReader(TomlReader):
    """Reads an exercise of the form described in exercises/README.md."""

    seen = 0
    """Calculations so far."""

    def exercise(self, plain: Mapping[str, Any]) -> Exercise:
        kind = self.choice(plain, (), "kind", KINDS)
        allowed = (*ALWAYS, *SOMETIMES, *OF_KIND[kind])
        self.only(plain, (), allowed)
        if self.number(plain, (), "form", 1, 1e6) != FORM:
            raise self.refuse(("form",), f"form must be {FORM}: update the workbook.")
        found = self.text(plain, (), "id")
        if not ID.fullmatch(found):
            raise self.refuse(
                ("id",), f"id {shown(found)} must be like 04_lay_it_out/arc_or_chord."
            )
        draws = self.draws(plain)
        made = Exercise(
            id=found,
            kind=kind,
            level=self.whole(plain, (), "level", 1, 5),
            hints=self.texts(plain, (), "hints", 3, 3),
            mark=self.choice(plain, (), "mark", MARKS),
            source=self.text(plain, (), "source", empty=True),
            caution=self.text(plain, (), "caution", empty=True, missing=""),
            picture=self.picture(plain),
            draws=draws,
            title=self.text(plain, (), "title"),
            teaches=self.text(plain, (), "teaches"),
            prompt=self.text(plain, (), "prompt"),
            explanation=self.text(plain, (), "explanation"),
            **getattr(self, f"_{kind}")(plain),
        )  # fmt: skip
        check_braces(self, made)
        return made

    def _number(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        answer, place = self.table(plain, (), "answer"), ("answer",)
        self.only(answer, place, ("value", "unit", "tolerance", "source", "computed"))
        number = Number(
            value=self.number(answer, place, "value"),
            unit=self.text(answer, place, "unit", empty=True),
            tolerance=self.number(answer, place, "tolerance", 0.0),
            source=self.text(answer, place, "source"),
            computed=self.call(answer, place, "computed") if "computed" in answer else None,
        )
        return {"answer": number, "wrong": self.wrongs(plain, "value")}

    def _choice(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        choices = []
        for i, one in enumerate(self.tables(plain, "choices", 2, 8)):
            place = ("choices", i)
            self.only(one, place, ("text", "right", "coaching"))
            right = one.get("right", False)
            if not isinstance(right, bool):
                raise self.refuse((*place, "right"), "right must be true or false.")
            coaching = "" if right else self.text(one, place, "coaching")
            choices.append(Choice(self.text(one, place, "text"), right, coaching))
        if sum(one.right for one in choices) != 1:
            raise self.refuse(("choices",), "one of the choices, and only one, must be right.")
        self.distinct(("choices",), [one.text for one in choices])
        return {"choices": tuple(choices)}

    def _predict(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        return {**self._choice(plain), "look": self.text(plain, (), "look")}

    def _order(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        items = self.texts(plain, (), "items", 3, 8)
        self.distinct(("items",), list(items))
        wrong = self.wrongs(plain, "items")
        for i, one in enumerate(wrong):
            if sorted(one.items) != sorted(items) or one.items == items:
                raise self.refuse(("wrong", i, "items"), "must be the same items in a wrong order.")
        return {"items": items, "wrong": wrong}

    def _target(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        target, place = self.table(plain, (), "target"), ("target",)
        self.only(target, place, ("reading", "words", "unit", "rule", "wanted", "margin", "lever"))
        levers: dict[str, Lever] = {}
        for i, one in enumerate(self.tables(target, "lever", 1, 4, place)):
            at = (*place, "lever", i)
            self.only(one, at, ("name", "words", "unit", "low", "high", "start", "worked"))
            low, high = self.number(one, at, "low"), self.number(one, at, "high")
            inside = {n: self.number(one, at, n, low, high) for n in ("start", "worked")}
            name = self.text(one, at, "name")
            check_name(self, (*at, "name"), name, (*levers, *plain.get("draw", ())))
            levers[name] = Lever(
                self.text(one, at, "words"), self.text(one, at, "unit", empty=True), low, high,
                **inside,
            )  # fmt: skip
        rule = self.choice(target, place, "rule", RULES)
        if rule != "within" and "margin" in target:
            raise self.refuse((*place, "margin"), f"rule {rule!r} has no margin.")
        made = Target(
            levers=levers,
            reading=self.call(target, place, "reading"),
            words=self.text(target, place, "words"),
            unit=self.text(target, place, "unit", empty=True),
            rule=rule,
            wanted=self.value(target, place, "wanted"),
            margin=self.number(target, place, "margin", 0.0) if rule == "within" else 0.0,
        )
        return {"target": made, "wrong": self.wrongs(plain, "settings", levers)}

    def _words(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        return {
            "points": self.texts(plain, (), "points", 2, 8),
            "example": self.text(plain, (), "example"),
            "wrong": self.wrongs(plain, "says"),
        }

    def _drill(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        if not plain.get("caution"):
            raise self.refuse(("caution",), "a drill needs a caution.")
        sheet, place = self.table(plain, (), "sheet"), ("sheet",)
        self.only(sheet, place, ("columns", "rows"))
        columns = self.texts(sheet, place, "columns", 1, 8)
        rows = self.whole(sheet, place, "rows", 1, 60)
        return {"steps": self.texts(plain, (), "steps", 2, 12), "sheet": Sheet(columns, rows)}

    def wrongs(
        self, plain: Mapping[str, Any], key: str, levers: Mapping[str, Lever] | None = None
    ) -> tuple[Wrong, ...]:
        found = []
        for i, one in enumerate(self.tables(plain, "wrong", 1, 8)):
            place = ("wrong", i)
            self.only(one, place, (key, "coaching"))
            given: Any
            if key == "value":
                given = self.value(one, place, key)
            elif key == "items":
                given = self.texts(one, place, key, 3, 8)
            elif key == "settings":
                given = self.table(one, place, key)
                self.only(given, (*place, key), tuple(levers or ()))
                given = {n: self.number(given, (*place, key), n, lever.low, lever.high)
                         for n, lever in (levers or {}).items()}  # fmt: skip
            else:
                given = self.text(one, place, key)
            found.append(Wrong(self.text(one, place, "coaching"), **{key: given}))
        return tuple(found)

    def picture(self, plain: Mapping[str, Any]) -> dict[str, Any]:
        found, place = self.table(plain, (), "picture", missing={}), ("picture",)
        if not found:
            return {}
        self.only(found, place, ("kind", "words", "lane", *OF_LINE, "a", "b"))
        self.choice(found, place, "kind", PICTURES)
        self.text(found, place, "words")
        if "lane" in found:
            self.said((*place, "lane"), lane_from, found["lane"])
        self.said(place, split_line, found)
        for key in ("a", "b"):
            if key in found or key == "a":
                self.said((*place, key), setup_from, self.table(found, place, key))
        return found

    def draws(self, plain: Mapping[str, Any]) -> dict[str, Draw]:
        found = {}
        table = self.table(plain, (), "draw", missing={})
        for name in table:
            place = ("draw", name)
            check_name(self, place, name, ())
            one = self.table(table, ("draw",), name)
            self.only(one, place, ("low", "high", "step", "worked"))
            low = self.number(one, place, "low")
            high = self.number(one, place, "high", low)
            step = self.number(one, place, "step", 1e-6)
            found[name] = Draw(low, high, step, self.number(one, place, "worked", low, high))
            if not 1 <= found[name].steps <= 10_000:
                raise self.refuse(place, f"{shown(name)} must have from 1 to 10000 steps.")
        return found

    def value(self, table: Mapping[str, Any], place: Place, key: str) -> Value:
        if isinstance(table.get(key), dict):
            return self.call(table, place, key)
        return self.number(table, place, key)

    def call(self, table: Mapping[str, Any], place: Place, key: str) -> Call:
        found = self.calls(self.table(table, place, key), (*place, key))
        if not isinstance(found, Call):
            raise self.refuse((*place, key), "calculation is missing.")
        return found

    def calls(self, plain: Any, place: Place) -> Any:
        """Turn each table that names a calculation into a `Call`."""
        if not isinstance(plain, dict):
            return plain
        inner = {key: self.calls(one, (*place, key)) for key, one in plain.items()}
        if "calculation" not in inner:
            return inner
        name = inner.pop("calculation")
        if not isinstance(name, str) or name not in PERMITTED:
            raise self.refuse(place, f"calculation {shown(name)} is not one of those permitted.")
        self.seen += 1
        if self.seen > MOST_CALLS:
            raise self.refuse(place, f"more than {MOST_CALLS} calculations stand in this file.")
        return Call(name, inner)
